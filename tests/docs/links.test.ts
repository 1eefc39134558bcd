/** Links of the pages and of the notebooks: the file is there, and so is the heading. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';
import { anchorsOf } from './anchors.ts';

const pages = ['README.md', 'DEVELOPERS.md', ...filesBelow('docs', '.md'), ...filesBelow('docs', '.ipynb')];

/** Without what stands in code. */
function prose(text: string): string {
  return text.replace(/^(```|~~~)[\s\S]*?^\1/gm, '').replace(/`[^`\n]*`/g, '');
}

function textOf(file: string): string {
  const text = readFileSync(file, 'utf8');
  if (!file.endsWith('.ipynb')) return text;
  const { cells } = JSON.parse(text) as { cells: { cell_type: string; source: string[] }[] };
  return cells.map(({ cell_type, source }) => (cell_type === 'markdown' ? source.join('') : '')).join('\n\n');
}

/** The targets of all links and pictures, other sites left out. */
function linksOf(text: string): string[] {
  const targets = [
    ...prose(text).matchAll(/\]\(\s*<?([^)\s>]+)>?[^)]*\)/g),
    ...text.matchAll(/^\[[^\]]+\]:\s*(\S+)/gm),
  ];
  return targets.map((match) => match[1] as string).filter((target) => !/^[a-z]+:/.test(target));
}

/** What is wrong with a link of a page; null where nothing is. */
function faultOf(page: string, link: string): string | null {
  const [path = '', anchor] = link.split('#');
  const file = path === '' ? page : join(dirname(page), decodeURIComponent(path));
  if (!existsSync(file)) return `${link}: no such file`;
  if (anchor === undefined) return null;
  if (statSync(file).isDirectory() || !file.endsWith('.md')) return `${link}: no headings there`;
  return anchorsOf(readFileSync(file, 'utf8')).includes(anchor) ? null : `${link}: no such heading`;
}

describe('no dead link', () => {
  test.each(pages)('%s', (page) => {
    expect(linksOf(textOf(page)).flatMap((link) => faultOf(page, link) ?? [])).toEqual([]);
  });

  test('links are found, and dead ones told', () => {
    const text = '[a](docs/safety.md) ![b](docs/none.md) `[c](d)` [e](#install) [f](#nowhere) [g](https://example.org)';
    const links = linksOf(text);
    expect(links).toEqual(['docs/safety.md', 'docs/none.md', '#install', '#nowhere']);
    expect(links.map((link) => faultOf('README.md', link))).toEqual([
      ...[null, 'docs/none.md: no such file', null, '#nowhere: no such heading'],
    ]);
  });

  test('the README leads to every guide', () => {
    const linked = linksOf(textOf('README.md')).map((link) => link.split('#')[0]);
    const guides = filesBelow('docs', '.md').filter((file) => dirname(file) === 'docs');
    expect(guides.filter((file) => !linked.includes(file))).toEqual([]);
  });
});

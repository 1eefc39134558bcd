/** docs/functions.md: every function of every entry, the first sentence of its doc comment, and where it is shown. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { expect, test } from 'vitest';
import { filesBelow } from '../files.ts';
import { anchorsOf } from './anchors.ts';
import { entries } from './examples.ts';

/** The doc comments before a function, by its name. */
const comments = new Map<string, string>();
for (const file of filesBelow('src', '.ts')) {
  const found = readFileSync(file, 'utf8').matchAll(
    /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*export (?:async )?function (\w+)/g,
  );
  for (const [, comment = '', name = ''] of found) comments.set(name, comment.replace(/\n *\* ?/g, '\n').trim());
}

/** The first sentence; what stands in brackets ends none, nor does `{ size: count }`. */
function firstSentence(text: string): string {
  const [paragraph = ''] = text.split(/\n\s*\n|\n@/);
  const plain = paragraph.replace(/\s+/g, ' ');
  let open = 0;
  for (let i = 0; i < plain.length; i += 1) {
    if (plain[i] === '(') open += 1;
    if (plain[i] === ')') open -= 1;
    if (open === 0 && /^\.( |$)/.test(plain.slice(i, i + 2))) return plain.slice(0, i + 1);
  }
  return plain.replace(/:$/, '.');
}

interface Page {
  readonly file: string;
  readonly title: string;
  readonly text: string;
  readonly blocks: readonly { readonly code: string; readonly at: number }[];
}

const made = ['accuracy', 'changelog', 'functions', 'sources', 'upgrading'].map((name) => `docs/${name}.md`);
const guides = filesBelow('docs', '.md').filter((file) => !made.includes(file) && file.split('/').length === 2);
const pages: readonly Page[] = guides.map((file) => {
  const text = readFileSync(file, 'utf8');
  const blocks = [...text.matchAll(/^```(?:ts|js)\n([\s\S]*?)^```/gm)];
  return {
    file: basename(file),
    title: /^# (.+)$/m.exec(text)?.[1] ?? file,
    text,
    blocks: blocks.map(({ 1: code = '', index }) => ({ code, at: index })),
  };
});

/** The page that calls or names it most, at the heading of its first example there, or of its first word. */
function shownAt(name: string): string {
  const calls = new RegExp(`\\b${name}\\(`);
  const words = new RegExp(`\`${name}\\b`, 'g');
  let best: { readonly page: Page; readonly times: number; readonly at: number } | null = null;
  for (const page of pages) {
    const shown = page.blocks.filter(({ code }) => calls.test(code)).map(({ at }) => at);
    const named = [...page.text.matchAll(words)].map(({ index }) => index);
    const times = shown.length + named.length;
    if (times > (best?.times ?? 0)) best = { page, times, at: shown[0] ?? named[0] ?? 0 };
  }
  if (best === null) return '';
  const { page, at } = best;
  const anchor = anchorsOf(page.text)[anchorsOf(page.text.slice(0, at)).length - 1];
  const isTop = anchorsOf(page.text)[0] === anchor;
  return `[${page.title}](${page.file}${isTop ? '' : `#${anchor}`})`;
}

function functionsOf(members: object): string[] {
  return Object.entries(members)
    .filter(([, member]) => typeof member === 'function')
    .map(([name]) => name)
    .sort();
}

test('docs/functions.md', async () => {
  const { motescale, ...rest } = Object.fromEntries(
    Object.entries(entries)
      .filter(([entry]) => entry.startsWith('motescale'))
      .map(([entry, members]) => [entry, functionsOf(members as object)]),
  );
  const holders = (name: string) => Object.values(rest).filter((names) => names.includes(name)).length;
  const parts = Object.entries({ ...rest, motescale: motescale ?? [] }).flatMap(([entry, all]) => {
    const names = all.filter((name) => (entry === 'motescale' ? holders(name) !== 1 : holders(name) === 1));
    if (names.length === 0) return [];
    const rows = names.map((name) => {
      expect(comments.has(name), `${entry}: ${name} has no doc comment`).toBe(true);
      return `| \`${name}\` | ${firstSentence(comments.get(name) ?? '').replaceAll('|', '\\|')} | ${shownAt(name)} |`;
    });
    return [`## ${entry}\n\n| function | what it does | shown |\n| --- | --- | --- |\n${rows.join('\n')}`];
  });
  const page = `# All functions

Made from the code: by entry each function, the first sentence of its doc comment, and the page that shows it most. The
whole comment, with units, ranges, errors and an example, stands in the declarations (\`dist/*.d.ts\`), where an editor
shows it. \`motescale\` has all of them but those of \`motescale/schema\` and \`motescale/exact\`. What several entries
have stands below \`motescale\`.

${parts.join('\n\n')}
`;
  await expect(page).toMatchFileSnapshot('../../docs/functions.md');
});

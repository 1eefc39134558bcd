/** Pages and parts of pages that are made from the library's own data, so that they cannot drift. `npm test -- -u` writes them anew. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import { countAt, cumulativeCounts } from '../../src/counts/index.ts';
import type { Source } from '../../src/source.ts';
import { filesBelow } from '../files.ts';
import correspondence from '../reference/classes/correspondence.json' with { type: 'json' };
import table4 from '../reference/counts/iso16889-table4.json' with { type: 'json' };

/** Compares (or writes) what stands between two marks of a page. */
function expectPart(page: string, mark: string, made: string): Promise<void> {
  const text = readFileSync(page, 'utf8');
  const whole = new RegExp(`(<!-- ${mark}: made by tests/docs -->\n)[\\s\\S]*?(<!-- /${mark} -->)`);
  expect(text, `${page} has no place for ${mark}`).toMatch(whole);
  return expect(text.replace(whole, `$1\n${made}\n\n$2`)).toMatchFileSnapshot(`../../${page}`);
}

function markdownTable(header: readonly string[], rows: readonly (readonly string[])[]): string {
  return [header, header.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}

test('docs/interpolation.md: the error of each method with one size left out', async () => {
  const inner = table4.rows.slice(1, -1);
  const error = (size: number, method: 'monotone' | 'log_log' | 'log_log2') => {
    const rest = table4.rows.filter((row) => row.size !== size);
    const counts = cumulativeCounts(Object.fromEntries(rest.map((row) => [row.size, row.midpoints['10']])));
    const truth = table4.rows.find((row) => row.size === size)?.midpoints['10'] as number;
    return (100 * (countAt(counts, size, { method }).perMl / truth - 1)).toFixed(1);
  };
  const rows = (['monotone', 'log_log', 'log_log2'] as const).map((method) => [
    `\`${method}\``,
    ...inner.map((row) => error(row.size, method)),
  ]);
  await expectPart(
    'docs/interpolation.md',
    'hold-out',
    markdownTable(['µm(c)', ...inner.map((row) => `${row.size}`)], rows),
  );
});

test('docs/comparison.md: published correspondence beside the answers', async () => {
  const tables: Record<string, codes.ClassTable> = { ...codes } as never;
  const span = ({ lowest, highest }: codes.ClassSpan) => (lowest === highest ? lowest : `${lowest} to ${highest}`);
  const parts = Object.values(correspondence).map(({ source, to, rows }) => {
    const table = tables[to] as codes.ClassTable;
    const body = (rows as [string, string][]).map(([code, className]) => {
      const from = code.split('/').length === 3 ? codes.iso4406 : codes.iso4406Microscope;
      const known = codes.limitsOf(from, code);
      return [code, className, span(codes.likelyClasses(table, known)), span(codes.possibleClasses(table, known))];
    });
    const title = `**${table.title}** (${[source.document, source.place].join('; ')})`;
    return `${title}\n\n${markdownTable(['ISO 4406', 'published', 'likely', 'certain'], body)}`;
  });
  await expectPart('docs/comparison.md', 'correspondence', parts.join('\n\n'));
});

describe('docs/sources.md', async () => {
  const modules = await Promise.all(
    filesBelow('src', '.ts')
      .filter((file) => !/tsup\.config|^src\/index\.ts$/.test(file))
      .map(
        async (file) => [file, (await import(/* @vite-ignore */ `../../${file}`)) as Record<string, unknown>] as const,
      ),
  );

  /** Every exported `Source`, and every exported table with one. */
  function sources(): [string, string, Source][] {
    const found: [string, string, Source][] = [];
    for (const [file, exports] of modules.filter(([name]) => !name.endsWith('/index.ts'))) {
      for (const [name, value] of Object.entries(exports)) {
        if (typeof value !== 'object' || value === null) continue;
        if (Array.isArray(value) && value.every((one) => typeof one === 'object' && 'standing' in one)) {
          found.push(...value.map((one): [string, string, Source] => [file, name, one as Source]));
        } else if ('standing' in value) found.push([file, name, value as Source]);
        else if ('source' in value) found.push([file, name, (value as { source: Source }).source]);
      }
    }
    return found;
  }

  test('is made from the sources in the code', async () => {
    const folders = [...new Set(sources().map(([file]) => file.split('/')[1] as string))];
    const parts = folders.map((folder) => {
      const rows = sources()
        .filter(([file]) => file.split('/')[1] === folder)
        .map(([, name, { document, edition, place, standing }]) => [`\`${name}\``, document, edition, place, standing]);
      return `## ${folder.replace('.ts', '')}\n\n${markdownTable(['name', 'document', 'edition', 'place', 'standing'], rows)}`;
    });
    const page = `# Sources

Made from the sources in the code; each name is exported beside what it is the source of. \`published\`: printed there. \`computed\`: worked out from a
formula printed there. \`common practice\`: a rule of the trade without a document. \`from memory\`: recalled, not seen in print; confirm before
relying on it.

${parts.join('\n\n')}
`;
    await expect(page).toMatchFileSnapshot('../../docs/sources.md');
  });

  test('every table and formula folder has sources, each with a document and a place', () => {
    for (const [file, name, source] of sources()) {
      expect(source.document, `${name} in ${file}`).not.toBe('');
      expect(source.place, `${name} in ${file}`).not.toBe('');
      expect(['published', 'computed', 'common practice', 'from memory']).toContain(source.standing);
    }
    const folders = new Set(sources().map(([file]) => file.split('/')[1]));
    for (const folder of ['counts', 'codes', 'viscosity', 'water', 'sampling']) expect(folders).toContain(folder);
  });
});

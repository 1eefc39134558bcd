/** docs/accuracy.md: what the values of tests/reference say of the library, from a run of them all. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import * as counts from '../../src/counts/index.ts';
import * as filtration from '../../src/filtration/index.ts';
import * as sampling from '../../src/sampling/index.ts';
import * as trend from '../../src/trend/index.ts';
import * as viscosity from '../../src/viscosity/index.ts';
import * as water from '../../src/water/index.ts';
import { filesBelow } from '../files.ts';
import { allRows } from '../reference/allRows.ts';
import { deviation, type Row } from '../reference/ledger.ts';
import { known } from '../reference/misprints.ts';
import { figureless, twins } from '../reference/twins.ts';

const entries = { codes, counts, filtration, sampling, trend, viscosity, water };

function table(header: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  return [header, header.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}

const unique = (texts: readonly string[]) => [...new Set(texts)].sort((a, b) => (a < b ? -1 : 1));
const numberOf = (rows: readonly Row[], ...standings: Row['standing'][]) =>
  rows.filter(({ standing }) => standings.includes(standing)).length;
const printed = allRows.filter(({ standing, expected }) => /published|reproduced/.test(standing) && expected !== null);
const untitled = /not recorded|not stated|trade|^training|^Russian|^maintenance|^public/;
const titles = (rows: readonly Row[]) => unique(rows.map(({ document }) => document)).length;
const isIdentified = ({ document }: Row) => !untitled.test(document);

function documents(): string {
  const rows = unique(allRows.map(({ document }) => document)).map((document) => {
    const own = allRows.filter((row) => row.document === document);
    const editions = unique(own.map(({ edition }) => edition || 'not recorded')).join('; ');
    const figures = (['published', 'reproduced', 'reprint', 'computed'] as const).map(
      (one) => numberOf(own, one) || '',
    );
    return [document, editions, ...figures];
  });
  return table(['document', 'edition', 'published', 'reproduced', 'reprint', 'computed'], rows);
}

function deviations(): string {
  const rows = unique(allRows.map((row) => row.function)).map((name) => {
    const own = allRows.filter((row) => row.function === name);
    const greatest = (of: readonly Row[]) => (of.length === 0 ? '' : Math.max(...of.map(deviation)).toPrecision(2));
    const isPrinted = (row: Row) => row.standing !== 'computed';
    const [first, others] = [own.filter(isPrinted), own.filter((row) => !isPrinted(row))];
    return [`\`${name}\``, numberOf(own, 'published', 'reproduced'), greatest(first), others.length, greatest(others)];
  });
  return table(['function or table', 'printed values', 'greatest deviation', 'computed', 'greatest deviation'], rows);
}

/** What the doc comments say after `Accuracy:` and `Range:`, by function. */
function stated(): string {
  const of = (comment: string, label: string) => {
    const text = comment
      .replace(/\n *\* ?/g, '\n')
      .match(new RegExp(`${label}:([\\s\\S]*?)(?=\\n\\s*\\n|\\n@|\\s[A-Z][a-z]+:|$)`));
    return (text?.[1] ?? '').replace(/\s+/g, ' ').replace(/\|/g, '\\|').trim();
  };
  const rows = filesBelow('src', '.ts').flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*export function (\w+)/g)]
      .map(([, comment = '', name = '']) => [`\`${name}\``, of(comment, 'Accuracy'), of(comment, 'Range')])
      .filter(([, accuracy, range]) => accuracy !== '' || range !== ''),
  );
  return table(
    ['function', 'accuracy', 'range'],
    rows.sort(([a = ''], [b = '']) => (a < b ? -1 : 1)),
  );
}

/** Functions of an entry that make figures of their own, and that no value from outside and no twin checks. */
function ourselvesOnly(): string {
  const outside = allRows.filter(({ standing }) => standing !== 'computed').map((row) => row.function);
  const twinned = [...twins, ...figureless].flatMap(({ functions }) => functions);
  const checked = new Set([...outside, ...twinned]);
  const worked = new Set(allRows.map((row) => row.function));
  const rows = Object.entries(entries).map(([entry, members]) => {
    const functions = Object.entries(members).filter(([, member]) => typeof member === 'function');
    const open = functions.map(([name]) => name).filter((name) => !checked.has(name) && name !== 'isMotescaleError');
    return [entry, functions.length, open.map((name) => `\`${name}\`${worked.has(name) ? ' (w)' : ''}`).join(', ')];
  });
  return table(['entry', 'functions', 'no printed value, no twin'], rows);
}

test('a twin names a test that imports it and calls the function', () => {
  for (const { test: path, imports, functions } of twins) {
    const text = readFileSync(path, 'utf8');
    expect(text, path).toContain(imports);
    for (const name of functions) expect(text, `${path} ${name}`).toMatch(new RegExp(`\\b${name}\\(`));
  }
});

test('what makes no figure of its own is a function of an entry, and needs no twin', () => {
  const all = Object.values(entries).flatMap((members) => Object.keys(members));
  const twinned = twins.flatMap(({ functions }) => functions);
  for (const name of figureless.flatMap(({ functions }) => functions)) {
    expect(all).toContain(name);
    expect(twinned).not.toContain(name);
  }
});

test('every row is within its tolerance, whatever folder it is in', () => {
  expect(allRows.filter((row) => !(deviation(row) <= 1)).map(({ document, id }) => `${document}: ${id}`)).toEqual([]);
  const folders = filesBelow('tests/reference', '/rows.ts').length;
  expect(readFileSync('tests/reference/allRows.ts', 'utf8').match(/\/rows\.ts'/g)).toHaveLength(folders);
});

test('docs/accuracy.md is made from a run', async () => {
  const identified = printed.filter(isIdentified);
  const [again, computed] = [numberOf(allRows, 'reprint'), numberOf(allRows, 'computed')];
  const page = `# How accurate, and how we know

Made from a run of the check values in \`tests/reference\`; \`npm test\` fails when this page is stale.

| printed values | documents | of these with a title | documents with a title |
| --- | --- | --- | --- |
| ${printed.length} | ${titles(printed)} | ${identified.length} | ${titles(identified)} |

All hold. A figure that several documents print counts once; the ${again} further places where one stands are checked
too, and not counted. Another ${computed} values were worked out apart from the library, by hand or by another program.

## Values by document

- \`published\`: printed in the document. \`reproduced\`: two independent reproductions of it agree.
- \`reprint\`: checked, but counted elsewhere. \`computed\`: no document prints it.

${documents()}

## Greatest deviation

In units of the tolerance of each value: 0 is equal, and above 1 a test fails. The tolerance is half of the last digit
printed, or wider where the document is rough (a chart, three figures, another formula); it stands beside the value.
Reprints are among the printed values here.

${deviations()}

## Stated accuracy and range

As the doc comments state them. A function that is missing here states none.

${stated()}

## Second implementations

${table(
  ['checked by', 'functions', 'test'],
  twins.map(({ by, functions, test: path }) => [by, functions.map((name) => `\`${name}\``).join(', '), `\`${path}\``]),
)}

Values of other programs stand above as \`computed\`, and those that a program's own documents print as \`published\`.

## Checked only against ourselves

No printed value and no second implementation: laws (monotone, round trip, bounds) hold these, and where \`(w)\` stands
beside the name, values worked out apart from the library.

${ourselvesOnly()}

These are left out, since they make no figure of their own:

${table(
  ['what they do', 'functions'],
  figureless.map(({ does, functions }) => [does, functions.map((name) => `\`${name}\``).join(', ')]),
)}

## Misprints

The library differs from these on purpose, and a test holds it to that.

${table(
  ['function', 'printed', 'right', 'where', 'why'],
  known.map(({ function: name, printed: wrong, right, document, place, why }) => [
    `\`${name}\``,
    wrong,
    right,
    `${document}: ${place}`,
    why,
  ]),
)}
`;
  await expect(page).toMatchFileSnapshot('../../docs/accuracy.md');
});

import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  as4059Differential,
  type ClassTable,
  classTable,
  gost17216,
  iso4406,
  iso4406Microscope,
  likelyClasses,
  limitsOf,
  nas1638,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import table4 from '../counts/iso16889-table4.json' with { type: 'json' };
import correspondence from './correspondence.json' with { type: 'json' };
import gostSecond from './gost-second-transcription.json' with { type: 'json' };

const tables: Record<string, ClassTable> = { as4059Cumulative, as4059Differential, gost17216, nas1638 };

describe.each(Object.entries(correspondence))('printed correspondence: %s', (_name, published) => {
  const table = tables[published.to] as ClassTable;

  test.each(published.rows)('%s and class %s: within one class of likelyClasses', (code, className) => {
    const threePart = (code as string).split('/').length === 3;
    const known = threePart ? limitsOf(iso4406, code as string) : limitsOf(iso4406Microscope, code as string);
    const span = likelyClasses(table, known);
    const index = (name: string) => (name.startsWith('>') ? table.classes.length : table.classes.indexOf(name));
    const printed = index(className as string);
    expect(printed).toBeGreaterThanOrEqual(index(span.lowest) - 1);
    expect(printed).toBeLessThanOrEqual(index(span.highest) + 1);
  });
});

test('the Russian annex: a second transcription has the same rows', () => {
  const { russianGost, russianAs4059 } = correspondence;
  const byCode = new Map(russianGost.rows.map(([code, gost]) => [code, gost]));
  const as4059ByCode = new Map(russianAs4059.rows.map(([code, as4059]) => [code, as4059]));
  for (const [gost, code, as4059] of gostSecond.correspondence.rows as [string, string, string][]) {
    expect([code, byCode.get(code), as4059ByCode.get(code)]).toEqual([code, gost, as4059]);
  }
});

test('known at 4, 6 and 14 µm(c) only, the band holds the published counts at 20, 25, 30 and 40', () => {
  const counts = (sizes: readonly number[]) =>
    Object.fromEntries(
      sizes.map((size) => [size, table4.rows.find((row) => row.size === size)?.midpoints['10'] as number]),
    );
  const beyond = [20, 25, 30, 40];
  const sizes = classTable({
    id: 'sizes',
    title: 'sizes',
    counting: 'cumulative',
    perVolumeMl: 1,
    columns: beyond.map((size) => ({ label: `${size}`, from: { iso11171: size } })),
    classes: ['any'],
    limits: [beyond.map(() => null)],
  });
  const { basis } = likelyClasses(sizes, cumulativeCounts(counts([4, 6, 14])));
  basis.forEach((column, i) => {
    const published = counts(beyond)[beyond[i] as number] as number;
    expect(column.basis).toBe('extrapolated');
    expect(column.low, column.column).toBeLessThanOrEqual(published);
    expect(column.high, column.column).toBeGreaterThanOrEqual(published);
  });
});

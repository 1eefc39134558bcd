import { expect, test } from 'vitest';
import { classTable, likelyClasses } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import table4 from '../counts/iso16889-table4.json' with { type: 'json' };
import correspondence from './correspondence.json' with { type: 'json' };
import gostSecond from './gost-second-transcription.json' with { type: 'json' };

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

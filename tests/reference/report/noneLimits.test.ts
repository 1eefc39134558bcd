/** The 95 % line of a count of 0 holds the mark of that count, with all errors as with those of counting alone. */
import { expect, test } from 'vitest';
import { nas1638 } from '../../../src/codes/index.ts';
import { countInterval, cumulativeCounts } from '../../../src/counts/index.ts';
import { type ChartSpec, sizeChart } from '../../../src/report/index.ts';
import { rowsIn } from './drawn.ts';

/** The ends of the upright line in a place, where each is drawn. */
function lineAt(spec: ChartSpec, size: number): { low: number; high: number; mark: number } {
  const there = rowsIn(spec).filter((row) => Math.abs((row.size as number) - size) < 1e-9);
  const line = there.filter((row) => Object.keys(row).join() === 'size,perMl,high')[0] as {
    perMl: number;
    high: number;
  };
  const mark = there.filter((row) => row.none === true)[0] as { perMl: number };
  return { low: line.perMl, high: line.high, mark: mark.perMl };
}

test('it begins at the mark, at a size and over a range', () => {
  const counts = cumulativeCounts({ 4: 12500, 6: 2120, 14: 19, 21: 0 }, { volumeMl: 10 });
  for (const errors of [undefined, {}, { volume: 0.05 }]) {
    const { low, high, mark } = lineAt(sizeChart(counts, errors === undefined ? {} : { errors }), 21);
    expect(low).toBe(mark);
    // Garwood, Biometrika 28 (1936): at most 3.69 of none counted
    expect(high).toBeGreaterThan((0.99 * countInterval(0).high) / 10);
  }
  const ranges = cumulativeCounts({ 6: 400, 14: 20, 21: 20 }, { volumeMl: 10 });
  const { low, mark } = lineAt(sizeChart(ranges, { table: nas1638, errors: {} }), Math.sqrt(14 * 21));
  expect(low).toBe(mark);
});

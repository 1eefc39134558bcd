/** Rates of docs/trends.md for a rise that bends: the whole record, its last half and its last third. */
import { expect, test } from 'vitest';
import { autocorrelatedTrend, changePoint } from '../../../src/trend/index.ts';
import { some } from '../../volume.ts';
import { draws } from './trendCorrelated.ts';

/** The shares, in %, of years of weekly means that rise by so much with the square of time, in which each is told. */
function told(rise: number, scatter: number, count: number) {
  const { normal } = draws(52);
  const found = { whole: 0, half: 0, third: 0, either: 0, change: 0 };
  for (let unit = 0; unit < count; unit += 1) {
    const weeks = Array.from({ length: 52 }, (_x, week) => 15 + rise * (week / 51) ** 2 + scatter * normal());
    const [whole, half, third] = [0, 26, 35].map((from) => autocorrelatedTrend(weeks.slice(from)).verdict === 'rising');
    if (whole) found.whole += 1;
    if (half) found.half += 1;
    if (third) found.third += 1;
    if (half || third) found.either += 1;
    if (changePoint(weeks).kind !== 'not_distinguishable') found.change += 1;
  }
  return Object.values(found).map((n) => (100 * n) / count);
}

test.each([
  [2, 0.02, [0, 73, 95.75, 98.5, 0]],
  [2, 0.05, [2.25, 93.5, 91.5, 97.5, 12]],
  [2, 0.1, [91.5, 99.5, 93.5, 100, 8]],
  [2, 0.2, [87.25, 99.5, 88.5, 99.75, 47.25]],
  [0, 0.1, [1.25, 1.5, 0.75, 2.25, 1]],
])('a rise of %d, scatter %d: told in %j %%', (rise, scatter, stated) => {
  const count = some(400, 20);
  told(rise, scatter, count).forEach((found, i) => {
    const share = stated[i] as number;
    expect(Math.abs(found - share)).toBeLessThanOrEqual(4 * Math.sqrt((share * (100 - share) + 100) / count));
  });
});

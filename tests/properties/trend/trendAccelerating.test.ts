/** Wear that accelerates: how often the earliest day of a forecast is too late, what the flags see, what helps. */
import { expect, test } from 'vitest';
import { forecastCrossing } from '../../../src/trend/forecastCrossing.ts';
import { some } from '../../volume.ts';
import { draws, withMemory } from './trendCorrelated.ts';

const count = some(300, 25);

/** How often, as shares: too late; the same without a flag; flagged; too late with the last half, and third, beside. */
interface Found {
  late: number;
  unflagged: number;
  flagged: number;
  byHalf: number;
  byThird: number;
}

/** Level 8 is crossed at `truth`. */
function askedOf(n: number, memory: number, scatter: number, rise: (day: number) => number, truth: number): Found {
  const { normal } = draws(77);
  const found = { late: 0, unflagged: 0, flagged: 0, byHalf: 0, byThird: 0 };
  for (let k = 0; k < count; k += 1) {
    const values = withMemory(normal, n, memory).map((value, day) => scatter * value + rise(day));
    const times = values.map((_value, day) => day);
    const since = (share: number) => {
      const from = Math.floor(n * share);
      return forecastCrossing(times.slice(from), values.slice(from), { level: 8, season: 0 });
    };
    const [whole, ...parts] = [0, 1 / 2, 2 / 3].map(since);
    const seen = whole?.flags.some((flag) => flag === 'curved' || flag === 'late_rise');
    const day = (forecast: typeof whole) =>
      forecast?.outcome === 'reached' ? n - 1 : (forecast?.earliest ?? Infinity);
    const [half, third] = parts.map(day) as [number, number];
    if (seen) found.flagged += 1 / count;
    if (!(day(whole) > truth)) continue;
    found.late += 1 / count;
    if (!seen) found.unflagged += 1 / count;
    if (half > truth) found.byHalf += 1 / count;
    if (half > truth && third > truth) found.byThird += 1 / count;
  }
  return found;
}

function expectNear(found: Found, stated: readonly number[]): void {
  [found.late, found.unflagged, found.flagged, found.byHalf, found.byThird].forEach((share, i) => {
    const told = (stated[i] as number) / 100;
    const room = 0.005 + 4 * Math.sqrt((told * (1 - told) + 0.01) / count);
    expect(Math.abs(share - told), `${i}: ${share}`).toBeLessThan(room);
  });
}

test.each([
  [90, 0.3, 1, [0.7, 0.7, 2, 0, 0]],
  [90, 0.3, 1.5, [56, 52, 11, 7, 2]],
  [90, 0.3, 2, [81, 57, 32, 14, 6]],
  [90, 0.6, 1, [0.7, 0.7, 1.3, 0, 0]],
  [90, 0.6, 1.5, [25, 25, 6, 4, 2]],
  [90, 0.6, 2, [60, 53, 17, 10, 2]],
  [180, 0.6, 1, [1.3, 1.3, 1.3, 0, 0]],
  [180, 0.6, 1.5, [60, 54, 13, 6, 1]],
  [180, 0.6, 2, [84, 60, 32, 16, 2]],
  [365, 0.6, 1, [2.3, 2.3, 1, 0, 0]],
  [365, 0.6, 1.5, [94, 77, 20, 10, 3]],
  [365, 0.6, 2, [99, 36, 64, 47, 11]],
  [26, 0.3, 1, [0.7, 0.7, 2.3, 0.3, 0.3]],
  [26, 0.3, 1.5, [17, 17, 5, 3, 3]],
  [26, 0.3, 2, [37, 35, 11, 9, 9]],
])('%d values, memory %d, a rise of four standard deviations with time to the power of %d', (n, memory, ...row) => {
  const [power, stated] = row;
  expectNear(
    askedOf(n, memory, 1, (day) => 4 * (day / (n - 1)) ** power, (n - 1) * 2 ** (1 / power)),
    stated,
  );
});

test.each([
  [90, 0.6, 0.15, [27, 16, 51, 4, 2]],
  [180, 0.7, 0.2, [45, 28, 47, 4, 1]],
])('%d values, memory %d, scatter %d: wear doubles in a quarter of them', (n, memory, scatter, stated) => {
  // as much wear as background after three quarters; the level lies two classes above the background
  const rise = (day: number) => 6 + Math.log2(1 + 2 ** ((day - 0.75 * n) / (n / 4)));
  let truth = 0;
  while (rise(truth) < 8) truth += 0.5;
  expectNear(askedOf(n, memory, scatter, rise, truth), stated);
});

/** Trends at the bounds of what can be told, and without typed arrays. */
import { expect, test } from 'vitest';
import { limitsOfCrossing, riskBesideLongest } from '../../../src/trend/crossing.ts';
import { centredRanks, lagCorrelations } from '../../../src/trend/dependence/correlations.ts';
import { dependentSum, fadings, layoutOf } from '../../../src/trend/dependence/layout.ts';
import {
  advanceChange,
  autocorrelatedTrend,
  forecastCrossing,
  mannKendall,
  prepareChange,
  seasonalKendall,
  senSlope,
  startChange,
} from '../../../src/trend/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { draws, withMemory } from './trendCorrelated.ts';

test('the memory needs ten values, and a quarter of the blocks between the first and the last', () => {
  const of = (last: number) => {
    const values: (number | null)[] = Array(last + 1).fill(null);
    // neighbours two by two, so that the first correlation could be read
    for (let i = 0; i < 5; i += 1) for (const k of [0, 1]) values[8 * i + k] = 15 + ((3 * i + 5 * k) % 7) / 8;
    for (const k of [0, 1]) values[last - 1 + k] = 15.5 + k / 16;
    return autocorrelatedTrend(values).dependence;
  };
  // twelve values: 48 blocks are the most
  expect([of(47), of(48)]).toEqual(['ar1', 'not_told']);
  const first = (n: number) => Array.from({ length: n }, (_x, i) => 15 + ((i * 5) % 7) / 8);
  expect([autocorrelatedTrend(first(9)).dependence, autocorrelatedTrend(first(10)).dependence]).not.toContain(null);
  expect(autocorrelatedTrend(first(9)).dependence).toBe('not_told');
  expect(autocorrelatedTrend(first(10)).dependence).not.toBe('not_told');
});

test('ranks and correlations by hand, with ties and gaps', () => {
  expect([...(centredRanks([3, -1, 3, 0, 9]) as number[])]).toEqual([0.5, -2, 0.5, -1, 2]);
  expect([...(centredRanks([0, 0, 0]) as number[])]).toEqual([0, 0, 0]);
  // equal but for the tenth digit of the largest
  expect([...(centredRanks([1, 1 + 1e-12, -1, -1 - 1e-12]) as number[])]).toEqual([1, 1, -1, -1]);
  const layout = layoutOf([0, 1, 2, 4, 4, 7]);
  expect(layout).toMatchObject({ n: 6, mean: 3, spacing: 1, span: 7, squares: 32 });
  expect([...(layout.gaps as unknown as number[])]).toEqual([1, 1, 2, 0, 3]);
  const ranks = [-2, 1, 0, 2, -1, 0];
  // 1 apart: -2 and 0; 2: 0, 0 and 0; 3: 2, -1, 0 and 0; 4: -4 and 2
  const variance = 10 / 6;
  expect(lagCorrelations(layout, ranks, 4)).toEqual([
    { lag: 1, distance: 1, pairs: 2, correlation: expect.closeTo((-1 / variance) * (7 / 8), 14) },
    { lag: 2, distance: 2, pairs: 3, correlation: expect.closeTo(0, 14) },
    { lag: 3, distance: 3, pairs: 4, correlation: expect.closeTo((1 / 4 / variance) * (5 / 8), 14) },
    { lag: 4, distance: 4, pairs: 2, correlation: expect.closeTo((-1 / variance) * (4 / 8), 14) },
  ]);
  // half a spacing counts up
  const uneven = layoutOf([0, 2, 4, 7]);
  expect(lagCorrelations(uneven, [1, -1, 1, -1], 2)).toMatchObject([
    { lag: 1, distance: 1, pairs: 2, correlation: expect.closeTo(-7 / 9, 14) },
    { lag: 2, distance: 1.75, pairs: 2 },
  ]);
  expect(lagCorrelations(layout, [0, 0, 0, 0, 0, 0], 1)[0]?.correlation).toBe(0);
});

test('sums that fade, by hand', () => {
  const layout = layoutOf([0, 1, 2, 4, 4]);
  expect([...(fadings(layout, 0.5) as number[])]).toEqual([0.5, 0.5, expect.closeTo(0.25, 15), 1]);
  expect([...(fadings(layout, 0) as number[])]).toEqual([0, 0, 0, 1]);
  // 1 + 4 + 9 and twice 0.5 x (1 x 2 x 0.5 + 2 x 3 x 0.25 + 1 x 3 x 0.125)
  expect(dependentSum([0.5, 0.25], [1, 2, 3], 0.5)).toBeCloseTo(14 + 1 + 1.5 + 0.375, 14);
});

test('where limits meet a level: by hand', () => {
  const line = { distance: 4, speed: 1, speedVariance: 0, distanceVariance: 1, last: 2 };
  expect(limitsOfCrossing(line, 1)).toEqual({ earliest: 3, latest: 5 });
  expect(limitsOfCrossing({ ...line, last: 3.5 }, 1)).toEqual({ earliest: 3.5, latest: 5 });
  expect(limitsOfCrossing({ ...line, last: 9 }, 1)).toEqual({ earliest: 9, latest: 9 });
  expect(limitsOfCrossing({ ...line, speed: -1 }, 1)).toEqual({ earliest: null, latest: null });
  expect(limitsOfCrossing({ ...line, speed: 0 }, 1)).toEqual({ earliest: null, latest: null });
  expect(limitsOfCrossing({ ...line, speed: 0, distance: 0.5 }, 1)).toEqual({ earliest: 2, latest: null });
  // moving away, but not surely: -u + u sqrt(1 + 2^-40) is 1 at 2^41 + 1/2
  const away = { distance: 1, speed: -1, speedVariance: 1 + 2 ** -40, distanceVariance: 0, last: 0 };
  expect(limitsOfCrossing(away, 1)).toEqual({ earliest: 2 ** 41 + 0.5, latest: null });
  // as surely as not: u + u is 1 at 1/2
  const even = { distance: 1, speed: 1, speedVariance: 1, distanceVariance: 0, last: 0 };
  expect(limitsOfCrossing(even, 1)).toEqual({ earliest: 0.5, latest: null });
  expect([riskBesideLongest(0.05, 0), riskBesideLongest(0.5, 0.25)]).toEqual([0.05, 1 / 1.5]);
});

test('a forecast names what it refuses', () => {
  const days = [0, 1, 2, 3, 4, 5, 6, 7];
  const of = (options: unknown) => () => forecastCrossing(days, days, options as never);
  expectRefused('unknown_option', 'options.lvel', "'level', 'direction', 'confidence'", of({ lvel: 3 }));
  expectRefused('wrong_type', 'options', 'an object', of(3));
});

test('seasons: each by itself, and refused where none has two periods', () => {
  expectRefused('too_few', 'times', 'a season with readings in at least 2 periods', () =>
    seasonalKendall([0, 1, 2], [1, 2, 3], { period: 10, seasons: 5 * 2 }),
  );
  const trend = seasonalKendall([0, 5, 10, 15, 20, 29], [1, 9, 2, 8, 4, 0], { period: 10, seasons: 2 });
  expect(trend.s).toBe(3 - 3);
  expect(trend.seasons.map(({ season, n, s }) => [season, n, s])).toEqual([
    [0, 3, 3],
    [1, 3, -3],
  ]);
  // slopes 1, 2 and 3 halves; -1, -8 and -9 halves
  expect(trend.slope).toBeCloseTo(0, 14);
  // nothing before the first season, and nothing after the last
  const one = seasonalKendall([-10, 0, 10, 19.999], [1, 2, 3, 3], { period: 10, seasons: 1 });
  expect(one).toMatchObject({ s: 5, seasons: [{ season: 0, n: 4, s: 5 }] });
});

/** All of it in one text. */
function figures(): string {
  const told: unknown[] = [];
  for (const seed of [1, 2, 3]) {
    const { share, normal } = draws(seed);
    const values = withMemory(normal, 45, [0, 0.6, 0.9][seed - 1] as number).map((value, i) => 16 + value / 4 + i / 40);
    const times = values.map((_value, i) => i);
    const rounded = values.map((value) => Math.round(4 * value) / 4);
    told.push(autocorrelatedTrend(values.map((value) => (share() < 0.2 ? null : value))));
    told.push(autocorrelatedTrend(values.map((value, i) => value + (i * i) / 40)));
    told.push(
      forecastCrossing(times, values, { level: 20 }),
      forecastCrossing(times, rounded, { level: 18, season: 0.1 }),
    );
    told.push(senSlope(times, values), senSlope(times, rounded), mannKendall(rounded));
    for (const correction of ['hamed_rao', 'yue_wang', 'pre_whitening', 'trend_free_pre_whitening'] as const) {
      told.push(mannKendall(values, { correction, lags: 3 }));
    }
    told.push(seasonalKendall(times, rounded, { period: 6, seasons: 3 }));
  }
  const prepared = prepareChange();
  let state = startChange();
  for (let day = 0; day < 60; day += 1) {
    const step = advanceChange(prepared, state, { day, value: 17 + ((day * 5) % 7) / 20 + (day > 50 ? 1 : 0) });
    state = step.state;
    if (day > 45) told.push(step);
  }
  return JSON.stringify(told);
}

test('without typed arrays every figure is the same', () => {
  const engine = globalThis as unknown as Record<string, unknown>;
  const { Float64Array: long, Int32Array: whole } = engine;
  const wanted = figures();
  let found = '';
  try {
    engine.Float64Array = undefined;
    engine.Int32Array = undefined;
    found = figures();
  } finally {
    engine.Float64Array = long;
    engine.Int32Array = whole;
  }
  expect(found).toBe(wanted);
  expect(found).not.toContain('NaN');
});

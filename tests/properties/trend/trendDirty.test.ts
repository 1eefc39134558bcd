/**
 * Data as they come: gaps, values that repeat, constant stretches, wild ones, several readings at one time, times in
 * seconds since 1970. Every answer is a number or null, and its parts agree; nothing else is thrown than an error that
 * names its parameter.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isMotescaleError } from '../../../src/errors.ts';
import { autocorrelatedTrend } from '../../../src/trend/autocorrelatedTrend.ts';
import { advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { resumeChange } from '../../../src/trend/change/resume.ts';
import type { ChangeState } from '../../../src/trend/change/types.ts';
import { forecastCrossing } from '../../../src/trend/forecastCrossing.ts';
import { leastSquaresLine } from '../../../src/trend/leastSquares.ts';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { seasonalKendall } from '../../../src/trend/seasonalKendall.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';
import { draws, machineDays } from './trendCorrelated.ts';

const value = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 14, max: 19, noNaN: true }) },
  { weight: 4, arbitrary: fc.integer({ min: 14, max: 19 }) },
  { weight: 1, arbitrary: fc.constantFrom(0, -0, 1e9, -1e9, 1e60, -1e60, 1e-60, 1e12 + 1) },
);
/** Two values only, one value only, one after the other, or any. */
const values = fc.oneof(
  fc.array(value, { minLength: 8, maxLength: 90 }),
  fc
    .tuple(value, value, fc.array(fc.boolean(), { minLength: 8, maxLength: 90 }))
    .map(([a, b, which]) => which.map((first) => (first ? a : b))),
  fc.tuple(value, fc.integer({ min: 8, max: 60 })).map(([a, n]) => Array<number>(n).fill(a)),
  fc.tuple(value, fc.integer({ min: 8, max: 60 }), value).map(([a, n, b]) => [...Array<number>(n).fill(a), b]),
);
/** Steps between times: none, seconds, hours, weeks; from 1970 or from today. */
const times = (n: number) =>
  fc
    .tuple(
      fc.constantFrom(0, 1789000000, -86400, 1789000000000),
      fc.constantFrom(1, 60, 86400, 1 / 1024),
      fc.array(fc.constantFrom(0, 0, 1, 1, 1, 2, 7, 400), { minLength: n, maxLength: n }),
    )
    .map(([start, unit, steps]) => {
      let time = start;
      return steps.map((step) => {
        time += step * unit;
        return time;
      });
    });
const series = values.chain((list) => fc.tuple(times(list.length), fc.constant(list)));

/** Whether a result holds anything that is no plain figure. */
function unfit(result: unknown): boolean {
  if (typeof result === 'number') return !Number.isFinite(result);
  if (result === undefined) return true;
  return typeof result === 'object' && result !== null && Object.values(result).some(unfit);
}

/** The result, checked; null where the function refused with an error of its own. */
function sound<T>(call: () => T): T | null {
  try {
    const result = call();
    expect(unfit(result), JSON.stringify(result)).toBe(false);
    return result;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return null;
  }
}

const share = (p: number | null | undefined) => p === null || p === undefined || (p >= 0 && p <= 1);
const ordered = (low: number | null, middle: number | null, high: number | null) =>
  (low === null || middle === null || low <= middle) && (middle === null || high === null || middle <= high);

describe('series', () => {
  test('tests and slopes', () => {
    fc.assert(
      fc.property(series, ([at, list]) => {
        const kendall = sound(() => mannKendall(list, { times: at }));
        expect(share(kendall?.p)).toBe(true);
        const sen = sound(() => senSlope(at, list));
        if (sen !== null) expect(ordered(sen.low, sen.slope, sen.high)).toBe(true);
        sound(() => leastSquaresLine(at, list));
        expect(share(sound(() => seasonalKendall(at, list, { period: 86400 * 7, seasons: 7 }))?.p)).toBe(true);
        for (const correction of ['hamed_rao', 'yue_wang', 'pre_whitening', 'trend_free_pre_whitening'] as const) {
          expect(share(sound(() => mannKendall(list, { correction }))?.p)).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('the trend that knows memory, with any blocks left out', () => {
    fc.assert(
      fc.property(values, fc.infiniteStream(fc.integer({ min: 0, max: 3 })), (list, holes) => {
        const blocks = list.map((one) => ((holes.next().value as number) === 0 ? null : one));
        const trend = sound(() => autocorrelatedTrend(blocks));
        if (trend === null) return;
        expect(share(trend.p)).toBe(true);
        expect(ordered(trend.low, trend.slope, trend.high)).toBe(true);
        expect(trend.n).toBe(blocks.filter((one) => one !== null).length);
        const { verdict, slope, p } = trend;
        expect(verdict).toBe(p === null || p >= 1 - 0.95 ? 'not_distinguishable' : slope > 0 ? 'rising' : 'falling');
        if (trend.dependence === 'not_told') expect([p, trend.low, trend.high]).toEqual([null, null, null]);
        else expect(trend.effectiveN).toBeGreaterThan(0);
        if (new Set(blocks.filter((one) => one !== null)).size === 1) expect(verdict).toBe('not_distinguishable');
      }),
      { numRuns: 300 },
    );
  });

  test('the crossing: now, earliest, time and latest stand in order', () => {
    fc.assert(
      fc.property(series, fc.constantFrom(-3, 16.5, 19, 1e6), fc.boolean(), ([at, list], level, falling) => {
        const direction = falling ? 'falling' : 'rising';
        const season = level === 19 ? { season: 0.3 } : {};
        const said = sound(() => forecastCrossing(at, list, { level, direction, ...season, unitsPerDay: 86400 }));
        if (said === null) return;
        const last = Math.max(...at);
        const slack = 1e-9 * (1 + Math.abs(last));
        expect(ordered(said.earliest, said.time, said.latest), JSON.stringify(said)).toBe(true);
        expect(ordered(said.low, said.slope, said.high)).toBe(true);
        expect(said.time === null).toBe(said.outcome !== 'expected');
        if (said.time !== null) expect(said.time).toBeGreaterThanOrEqual(last - slack);
        if (said.earliest !== null) expect(said.earliest).toBeGreaterThanOrEqual(last - slack);
        if (said.outcome === 'reached' || said.outcome === 'never') expect(said.latest).toBeNull();
      }),
      { numRuns: 400 },
    );
  });

  test('in seconds since 1970 as in days, with several readings at a time', () => {
    const { normal } = draws(31);
    const days = Array.from({ length: 80 }, (_x, i) => Math.floor(i / 2));
    const list = days.map((day) => 15 + day / 40 + 0.2 * normal());
    const plain = forecastCrossing(days, list, { level: 18 });
    const seconds = days.map((day) => 1789000000 + 86400 * day);
    const other = forecastCrossing(seconds, list, { level: 18, unitsPerDay: 86400 });
    expect(other.outcome).toBe(plain.outcome);
    expect(plain.outcome).toBe('expected');
    expect(((other.time as number) - 1789000000) / 86400).toBeCloseTo(plain.time as number, 6);
    expect(((other.latest as number) - 1789000000) / 86400).toBeCloseTo(plain.latest as number, 4);
  });
});

describe('changes', () => {
  const prepared = prepareChange();
  const follow = (steps: readonly (readonly [number, number])[], from: ChangeState = startChange()) => {
    let state = from;
    let told = 0;
    let standing = '';
    let day = state.last ?? 0;
    for (const [gap, figure] of steps) {
      day += gap;
      const next = advanceChange(prepared, state, { day, value: figure });
      expect(unfit(next), JSON.stringify(next)).toBe(false);
      expect(resumeChange(JSON.parse(JSON.stringify(next.state)))).toEqual(next.state);
      state = next.state;
      standing = next.standing;
      if (next.change !== null) told += 1;
      if (standing !== 'watching') expect([next.smallestStep, next.smallestMonthlyRise]).toEqual([null, null]);
    }
    return { state, told, standing };
  };

  test('any values after any gaps', () => {
    const gap = fc.constantFrom(1, 1, 1, 1, 1, 2, 3, 7, 30, 62, 63, 64, 400);
    fc.assert(
      fc.property(fc.array(fc.tuple(gap, value), { minLength: 1, maxLength: 120 }), (steps) => {
        follow(steps);
      }),
      { numRuns: 60 },
    );
  });

  test('a constant figure is watched and tells nothing; weeks alone cannot be judged', () => {
    const constant = follow(Array.from({ length: 100 }, () => [1, 17.25] as const));
    expect(constant).toMatchObject({ told: 0, standing: 'watching' });
    const { normal } = draws(77);
    const weekly = follow(
      Array.from({ length: 150 }, (_x, i) => [7, 17 + 0.15 * normal() + (i > 80 ? 1 : 0)] as const),
    );
    expect(weekly).toMatchObject({ told: 0, standing: 'cannot_judge' });
  });

  test('after a gap of months the level is learned anew: a difference across the gap is no change', () => {
    const days = machineDays(draws(78), 90, { scatter: 0.15, memory: 2 });
    const before = follow(days.map((figure) => [1, figure] as const));
    const after = days.map((figure, i) => [i === 0 ? 120 : 1, figure + 2] as const);
    expect(follow(after.slice(0, 20), before.state)).toMatchObject({ told: 0, standing: 'learning' });
    expect(follow(after, before.state)).toMatchObject({ told: 0, standing: 'watching' });
  });
});

/** Trends and forecasts by hand: short series whose answers need no second program, and each decision at its bound. */
import { describe, expect, test } from 'vitest';
import {
  autocorrelatedTrend,
  forecastCrossing,
  leastSquaresLine,
  mannKendall,
  seasonalKendall,
  senSlope,
} from '../../../src/trend/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const upTo = (n: number) => Array.from({ length: n }, (_x, i) => i);

describe('a forecast at its bounds', () => {
  // eighths, so that the line is exact
  const days = upTo(16);
  const rising = days.map((day) => day / 8);
  const of = (level: number, options = {}) => forecastCrossing(days, rising, { level, ...options });

  test('further ahead than the readings reach back is far; just as far is not', () => {
    expect(of(3.75)).toMatchObject({ outcome: 'expected', time: 30, earliest: 30, latest: 30 });
    expect(of(3.75).flags).toEqual(['season_untold']);
    expect(of(3.75 + 1 / 1024).flags).toEqual(['season_untold', 'far_beyond']);
  });

  test('the level itself is reached; above it, it is to come', () => {
    expect(of(15 / 8)).toMatchObject({ outcome: 'reached', now: 15 / 8, time: null });
    expect(of(15 / 8 + 1 / 1024)).toMatchObject({ outcome: 'expected', time: 15 + 1 / 128 });
    expect(of(15 / 8 - 1 / 1024).outcome).toBe('reached');
    expect(of(15 / 8, { direction: 'falling' }).outcome).toBe('reached');
    expect(of(15 / 8 - 1 / 1024, { direction: 'falling' }).outcome).toBe('never');
  });

  test('what stands still or moves away never comes there', () => {
    const level = (value: number, options: object) =>
      forecastCrossing(days, Array(16).fill(value), { level: 5, ...options }).outcome;
    expect([level(4, {}), level(6, {}), level(5, {})]).toEqual(['never', 'reached', 'reached']);
    expect([level(4, { direction: 'falling' }), level(6, { direction: 'falling' })]).toEqual(['reached', 'never']);
    const falling = rising.map((value) => -value);
    expect(forecastCrossing(days, falling, { level: -3.75, direction: 'falling' })).toMatchObject({ time: 30 });
    expect(forecastCrossing(days, falling, { level: 1 }).outcome).toBe('never');
  });

  test('hardly any slope beside much scatter: not before a time, and no more', () => {
    const noisy = upTo(24).map((i) => 10 + ([0, 3, -2, 1, -3, 2][i % 6] as number) + i / 1000);
    const found = forecastCrossing(upTo(24), noisy, { level: 1e6 });
    expect(found).toMatchObject({ outcome: 'not_distinguishable', time: null, latest: null });
    expect(found.earliest as number).toBeGreaterThan(1e6 / 20);
  });

  test('400 days tell of a season, 399.9 do not, whatever the unit', () => {
    for (const unitsPerDay of [1, 24]) {
      const flags = (last: number) => {
        const times = upTo(11).map((i) => (i * last * unitsPerDay) / 10);
        return forecastCrossing(times, upTo(11), { level: 12, unitsPerDay }).flags;
      };
      expect([flags(400), flags(399.9)]).toEqual([[], ['season_untold']]);
    }
  });

  test('a swing over the year has no seam where its series takes over from the sine', () => {
    const times = upTo(13);
    const scatter = times.map((i) => i / 4 + ((i * 5) % 7) / 30);
    // the half of twelve units is 0.01 of a year's 2 pi
    const seam = (12 * Math.PI) / 365.25 / 0.01;
    const ask = (unitsPerDay: number) =>
      forecastCrossing(times, scatter, { level: 6, season: 2, confidence: 0.8, unitsPerDay });
    const [series, sine] = [ask(seam * (1 + 1e-10)), ask(seam * (1 - 1e-10))];
    expect(series.outcome).toBe('expected');
    for (const name of ['low', 'high', 'earliest', 'latest', 'yearlyWouldNeed'] as const) {
      const [one, other] = [series[name] as number, sine[name] as number];
      expect(Math.abs(one - other), name).toBeLessThan(1e-8 * Math.abs(other));
    }
    // over so short a time the swing is steepest: season x w, twelve units a span; the need is slope / w
    const w = (2 * Math.PI) / (365.25 * seam);
    expect(series.yearlyWouldNeed as number).toBeCloseTo(series.slope / (w * (1 - 0.01 ** 2 / 10)), 6);
  });

  test('what is refused, by name', () => {
    const ten = upTo(10);
    expectRefused('too_few', 'times', 'at least 2 different times', () =>
      forecastCrossing(Array(10).fill(3), ten, { level: 12 }),
    );
    expectRefused('negative', 'options.season', '0', () => forecastCrossing(ten, ten, { level: 12, season: -1 }));
    expectRefused('out_of_range', 'options.unitsPerDay', 'above 0', () =>
      forecastCrossing(ten, ten, { level: 12, unitsPerDay: 0 }),
    );
  });
});

describe('a trend at its bounds', () => {
  test('of two values: a slope and no verdict; of level values none', () => {
    expect(autocorrelatedTrend([1, null, 2])).toEqual({
      ...{ n: 2, slope: 0.5, low: null, high: null, p: null, s: 1, tau: 1, correlation: null, spacing: 2 },
      ...{ effectiveN: null, dependence: 'not_told', verdict: 'not_distinguishable', flags: [] },
    });
    const level = autocorrelatedTrend(Array(12).fill(7));
    expect(level).toMatchObject({ slope: 0, low: 0, high: 0, p: 1, s: 0, tau: 0, verdict: 'not_distinguishable' });
    const [up, down] = [1, -1].map((sign) => autocorrelatedTrend(upTo(12).map((i) => (sign * i) / 8)));
    expect(up).toMatchObject({ slope: 1 / 8, low: 1 / 8, high: 1 / 8, p: 0, tau: 1, verdict: 'rising' });
    expect(down).toMatchObject({ slope: -1 / 8, low: -1 / 8, high: -1 / 8, p: 0, tau: -1, verdict: 'falling' });
  });

  test('300,000 points are the most, one more is refused', () => {
    const most = Array<number>(300000).fill(1);
    expectRefused('length_mismatch', 'values', 'as many values as times: 300000', () => senSlope(most, [1, 2]));
    expectRefused('out_of_range', 'times', 'at most 300000 numbers', () => senSlope([...most, 2], [1, 2]));
    const missing = Array<null>(300000).fill(null);
    expectRefused('too_few', 'values', 'at least 2 numbers', () => autocorrelatedTrend(missing));
    expectRefused('out_of_range', 'values', 'at most 300000 numbers', () => autocorrelatedTrend([...missing, null]));
  });

  test('what each takes for granted of neighbours', () => {
    const values = [1, 2, 4, 3, 5, 8, 7, 6];
    expect(senSlope(upTo(8), values).independence).toBe('assumed');
    expect(mannKendall(values).independence).toBe('assumed');
    for (const correction of ['hamed_rao', 'yue_wang', 'pre_whitening', 'trend_free_pre_whitening'] as const)
      expect(mannKendall(values, { correction, lags: 1 }).independence).toBe(correction);
  });

  test('limits are told from the rank of 1 on: of five points in a row not, of six they are', () => {
    // n points: variance n (n - 1) (2 n + 5) / 18, and 1.96 of its root; of 5 pairs 10, spread 8.002: rank 0.999
    const of = (n: number) =>
      senSlope(
        upTo(n),
        upTo(n).map((i) => i * i),
      );
    expect([of(3).low, of(4).low, of(5).low, of(5).high]).toEqual([null, null, null, null]);
    expect([of(6).low, of(6).high]).not.toContain(null);
  });

  test('over hardly any time the steepest stretch of a swing would have to make the slope', () => {
    const times = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0.001];
    const { yearlyWouldNeed, slope } = forecastCrossing(times, [1, 1, 1, 1, 1, 1, 1, 1, 1, 2], { level: 9 });
    expect(yearlyWouldNeed as number).toBeCloseTo(slope / ((2 * Math.PI) / 365.25), 3);
  });

  test('no slope is -0', () => {
    expect(Object.is(senSlope([0, 1], [0, -0]).slope, 0)).toBe(true);
    expect(Object.is(autocorrelatedTrend([0, -0]).slope, 0)).toBe(true);
  });

  test('a correction that leaves no variance has no answer', () => {
    // neighbours that alternate: 1 + 2 (1 - 1/12) x (-11/12) is below 0
    const alternating = upTo(12).map((i) => i % 2);
    expectRefused('no_answer', 'options.correction', 'correlations that leave a variance', () =>
      mannKendall(alternating, { correction: 'yue_wang', lags: 1 }),
    );
    const of = (options: object) => () => mannKendall(alternating, { correction: 'yue_wang', ...options });
    expect(of({ method: 'exact' })).toThrow("options.method: received 'exact', expected no times and no exact method");
    expect(of({ times: upTo(12) })).toThrow('options.times: received an array of 12, expected no times');
    // a line leaves nothing to be alike
    expect(mannKendall(upTo(12), { correction: 'yue_wang', lags: 1 }).variance).toBeGreaterThan(0);
  });
});

describe('values that are not there', () => {
  const times = [3, 1, 4, 1.5, 9, 2, 6, 5, 3.5, 8, 10, 7];
  const values = [2, 7, 1, 8, 2.5, 8.5, 1.5, 8.25, 4, 5, 9, 0];
  const gaps = [0, 4, 4, 9, 12];
  /** The same, with a null before the first, fifth, fifth again, tenth and after the last. */
  const withGaps = () => {
    const [x, y]: [number[], (number | null)[]] = [[], []];
    for (let i = 0; i <= 12; i += 1) {
      for (const gap of gaps) if (gap === i) x.push(-50 * i) && y.push(null);
      if (i < 12) x.push(times[i] as number) && y.push(values[i] as number);
    }
    return [x, y] as const;
  };
  const [x, y] = withGaps();

  test('are left out, each with its time', () => {
    expect(y.filter((value) => value === null)).toHaveLength(5);
    expect(senSlope(x, y)).toEqual(senSlope(times, values));
    expect(leastSquaresLine(x, y)).toEqual(leastSquaresLine(times, values));
    expect(forecastCrossing(x, y, { level: 12 })).toEqual(forecastCrossing(times, values, { level: 12 }));
    expect(mannKendall(y, { times: x })).toEqual(mannKendall(values, { times }));
    const weeks = { period: 4, seasons: 2 };
    expect(seasonalKendall(x, y, weeks)).toEqual(seasonalKendall(times, values, weeks));
    // without times, steps stay steps
    expect(mannKendall([1, null, 3, 2])).toEqual(mannKendall([1, 3, 2], { times: [0, 2, 3] }));
  });

  test('do not count, and are refused where steps must be equal', () => {
    const eight = [...values.slice(0, 7), null];
    expectRefused('too_few', 'values', 'at least 8 numbers', () =>
      forecastCrossing(times.slice(0, 8), eight, { level: 12 }),
    );
    expectRefused('wrong_type', 'values[1]', 'a finite number', () =>
      mannKendall([1, null, 3, 2, 5], { correction: 'yue_wang' }),
    );
    expectRefused('wrong_type', 'values[1]', 'a finite number', () => senSlope([0, 1], [1, undefined as never]));
    expectRefused('wrong_type', 'times[1]', 'a finite number', () => senSlope([0, null as never, 2], [1, null, 3]));
    expectRefused('length_mismatch', 'values', 'as many values as times: 3', () =>
      senSlope([0, 1, 2], [1, 2, null, 3]),
    );
  });
});

describe('a line of least squares', () => {
  test('ten thousand equal values cost no digit', () => {
    const line = leastSquaresLine(upTo(10000), Array(10000).fill(0.3));
    expect(line).toMatchObject({ r2: 1 });
    expect(Math.abs(line.intercept - 0.3)).toBeLessThan(1e-15);
    expect(Math.abs(line.residual)).toBeLessThan(1e-15);
    expect(Math.abs(line.slope)).toBeLessThan(1e-18);
  });

  test('nor do times far from 0', () => {
    const line = leastSquaresLine(
      upTo(3).map((i) => 1e15 + i),
      [1, 3, 5],
    );
    expect([line.slope, line.residual, line.slopeError, line.r2]).toEqual([2, 0, 0, 1]);
    expectRefused('no_answer', 'times', 'at least two different times', () => leastSquaresLine([2, 2, 2], [1, 2, 3]));
  });
});

/** Averages, sums, a line and exact chances: figures of short series worked out by hand, bounds met and passed. */
import { describe, expect, test } from 'vitest';
import { cusum, ewma, leastSquaresLine, mannKendall, senSlope } from '../../../src/trend/index.ts';
import { expectRefused, type Refused } from '../../inputs/refused.ts';

describe('EWMA', () => {
  test('by hand: half of each value, half of what was', () => {
    const of = (options: object) => ewma([4, 8, 0], { lambda: 0.5, start: 2, ...options });
    expect(of({})).toStrictEqual({ values: [3, 5.5, 2.75] });
    const reach = 3 * 2 * Math.sqrt(0.5 / 1.5);
    const steady = of({ sigma: 2 });
    expect(steady.low).toEqual(Array(3).fill(expect.closeTo(2 - reach, 12)));
    expect(steady.high).toEqual(Array(3).fill(expect.closeTo(2 + reach, 12)));
    expect(steady.signals).toEqual([1]);
    const growing = of({ sigma: 2, limits: 'growing', width: 2 });
    expect(growing.high).toEqual(
      [1, 2, 3].map((t) => expect.closeTo(2 + 2 * 2 * Math.sqrt((1 / 3) * (1 - 0.25 ** t)), 12)),
    );
    expect(of({ sigma: 2, limits: 'steady' })).toEqual(steady);
  });

  test('on a limit is not outside, next to it is', () => {
    // lambda 1: the value itself, limits at 10 - 6 and 10 + 6
    const at = (value: number, limits: 'steady' | 'growing') =>
      ewma([value], { lambda: 1, start: 10, sigma: 2, limits }).signals;
    for (const limits of ['steady', 'growing'] as const) {
      expect([at(4, limits), at(16, limits)]).toEqual([[], []]);
      expect([at(3.999, limits), at(16.001, limits)]).toEqual([[0], [0]]);
    }
    expect(ewma([10, 11], { lambda: 1, start: 10, sigma: 0 })).toMatchObject({ low: [10, 10], signals: [1] });
  });

  test.each<Refused>([
    ['out_of_range', 'options.lambda', 'a number above 0, up to 1', () => ewma([1], { lambda: 1.0001, start: 0 })],
    ['out_of_range', 'options.width', 'a number above 0', () => ewma([1], { lambda: 1, start: 0, sigma: 1, width: 0 })],
    [
      'unknown_option',
      'options.limits',
      "'steady', 'growing'",
      () => ewma([1], { lambda: 1, start: 0, sigma: 1, limits: 'x' as never }),
    ],
    [
      'unknown_option',
      'options.lamda',
      "'lambda', 'start', 'sigma', 'width', 'limits'",
      () => ewma([1], { lamda: 1 } as never),
    ],
    ['wrong_type', 'values', 'an array of numbers', () => ewma('1' as never, { lambda: 1, start: 0 })],
    [
      'wrong_type',
      'values[0]',
      'an array of numbers without a hole',
      () => ewma(new Array(1) as never, { lambda: 1, start: 0 }),
    ],
    ['not_a_number', 'values[1]', 'a finite number', () => ewma([1, Number.NaN], { lambda: 1, start: 0 })],
    ['infinite', 'options.start', 'a finite number', () => ewma([1], { lambda: 1, start: Infinity })],
  ])('%s: %s, %s', expectRefused);
});

describe('CUSUM', () => {
  const options = { target: 10, slack: 1, decision: 4 };

  test('by hand: what lies beyond the slack adds up, and never falls below nothing', () => {
    expect(cusum([13, 12, 9, 14, 10], options)).toStrictEqual({
      ...{ high: [2, 3, 1, 4, 3], low: [0, 0, 0, 0, 0] },
      ...{ signals: [], began: null },
    });
    expect(cusum([7, 8, 11, 6], options)).toMatchObject({ high: [0, 0, 0, 0], low: [2, 3, 1, 4], signals: [] });
    // on the decision is no signal, beyond it is
    expect(cusum([15, 11.5], options)).toMatchObject({ high: [4, 4.5], signals: [1], began: 0 });
    expect(cusum([5, 8.5], options)).toMatchObject({ low: [4, 4.5], signals: [1], began: 0 });
    expect(cusum([10, 8, 15.5, 12], options)).toMatchObject({ high: [0, 0, 4.5, 5.5], signals: [2, 3], began: 2 });
    expect(cusum([12, 3.5, 3.5], options)).toMatchObject({ low: [0, 5.5, 11], signals: [1, 2], began: 1 });
  });

  test('goes on from sums that stood, each its own', () => {
    expect(cusum([11.5], { ...options, from: { high: 3.6, low: 0 } })).toMatchObject({ signals: [0], began: 0 });
    const both = cusum([10, 6], { ...options, from: { high: 1.5, low: 2 } });
    expect(both).toMatchObject({ high: [0.5, 0], low: [1, 4] });
  });

  test.each<Refused>([
    ['wrong_type', 'options.from', 'sums { high, low }', () => cusum([1], { ...options, from: 3 as never })],
    ['unknown_option', 'options.from.up', "'high', 'low'", () => cusum([1], { ...options, from: { up: 1 } as never })],
    [
      'unknown_option',
      'options.start',
      "'target', 'slack', 'decision', 'from'",
      () => cusum([1], { ...options, start: 1 } as never),
    ],
    [
      'infinite',
      'values',
      'values whose sum a double can hold',
      () => cusum([1.7e308, 1.7e308], { ...options, target: 0 }),
    ],
    [
      'infinite',
      'values',
      'values whose sum a double can hold',
      () => cusum([-1.7e308, -1.7e308], { ...options, target: 0 }),
    ],
    [
      'negative',
      'options.from.high',
      'a number of 0 or more',
      () => cusum([1], { ...options, from: { high: -1, low: 0 } }),
    ],
    ['wrong_type', 'options.target', 'a finite number', () => cusum([1], { slack: 1, decision: 4 } as never)],
  ])('%s: %s, %s', expectRefused);
});

test('a line of least squares by hand', () => {
  // deviations -1, 0, 1 and -3, 1, 2: slope 5/2, left -0.5, 1, -0.5
  const line = leastSquaresLine([1, 2, 3], [2, 6, 7]);
  expect(line).toEqual({
    ...{ slope: 2.5, intercept: 0, residual: expect.closeTo(Math.sqrt(1.5), 14) },
    ...{
      slopeError: expect.closeTo(Math.sqrt(0.75), 14),
      interceptError: expect.closeTo(Math.sqrt(1.5 * (1 / 3 + 2)), 14),
    },
    r2: expect.closeTo(1 - 1.5 / 14, 14),
  });
  expectRefused('no_answer', 'times', 'at least two different times', () => leastSquaresLine([5, 5, 5], [1, 2, 3]));
  expectRefused('too_few', 'times', 'at least 3 numbers', () => leastSquaresLine([5, 6], [1, 2]));
  expectRefused('length_mismatch', 'values', 'as many values as times: 3', () =>
    leastSquaresLine([5, 6, 7], [1, 2, 3, 4]),
  );
});

describe('Mann-Kendall', () => {
  const first = (n: number) => Array.from({ length: n }, (_x, i) => i);

  test('counts out the chance up to 10 values of different times, up to 18 where asked', () => {
    const basis = (n: number, options: object = {}) => mannKendall(first(n), options).basis;
    expect([10, 11].map((n) => basis(n))).toEqual(['exact', 'normal']);
    expect(basis(18, { method: 'exact' })).toBe('exact');
    expect(basis(5, { method: 'normal' })).toBe('normal');
    expect(basis(5, { times: [0, 0, 1, 2, 3] })).toBe('normal');
    const words = 'at most 18 points, no two of one time';
    expectRefused('out_of_range', 'options.method', words, () => basis(19, { method: 'exact' }));
    expectRefused('out_of_range', 'options.method', words, () => basis(3, { method: 'exact', times: [0, 0, 1] }));
    expectRefused('unknown_option', 'options.method', "'exact', 'normal'", () => basis(3, { method: 'fast' }));
    expectRefused('unknown_option', 'options.correction', "'hamed_rao', 'yue_wang', 'pre_whitening'", () =>
      basis(9, { correction: 'none' }),
    );
    expectRefused('unknown_option', 'options.lag', "'times', 'method', 'correction', 'lags'", () =>
      basis(9, { lag: 2 }),
    );
  });

  test('by hand', () => {
    // all of 24 orders, one rises and one falls throughout
    expect(mannKendall([1, 2, 3, 4])).toMatchObject({ n: 4, s: 6, tau: 1, p: 1 / 12, z: 5 / Math.sqrt(26 / 3) });
    expect(mannKendall([4, 3, 2, 1])).toMatchObject({ s: -6, tau: -1, p: 1 / 12, z: -5 / Math.sqrt(26 / 3) });
    expect(mannKendall([7, 7, 7])).toMatchObject({ s: 0, variance: 0, z: 0, p: 1, tau: 0, lag1: null });
    expect(mannKendall([1, 2])).toMatchObject({ s: 1, p: 1, lag1: null });
  });

  test('neighbours beside the line: ranks by hand', () => {
    // the line is level at 2: it leaves 0, 1, -1, 1, -1, 0, whose ranks less their mean are 0, 2, -2, 2, -2, 0
    const { lag1 } = mannKendall([2, 3, 1, 3, 1, 2]);
    expect(senSlope(first(6), [2, 3, 1, 3, 1, 2]).slope).toBe(0);
    expect(lag1).toBeCloseTo((((-4 - 4 - 4) / 5) * (5 / 6)) / (16 / 6), 14);
  });
});

test('figures and bounds of a series', () => {
  const senOf = (values: number[]) =>
    senSlope(
      values.map((_value, i) => i),
      values,
    ).slope;
  expect(senOf([0, 1e60])).toBe(1e60);
  expect(senOf([0, 1e-60])).toBe(1e-60);
  expect(Object.is(senOf([-0, 0]), 0)).toBe(true);
  const words = '0, or an amount from 1e-60 to 1e60';
  expectRefused('out_of_range', 'values[1]', words, () => senOf([0, 1.001e60]));
  expectRefused('out_of_range', 'values[1]', words, () => senOf([0, -0.999e-60]));
  expectRefused('too_few', 'times', 'at least 2 different times', () => senSlope([3, 3], [1, 2]));
  expectRefused('too_few', 'times', 'at least 2 numbers', () => senSlope([3], [1]));
});

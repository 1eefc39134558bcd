/** The published examples of trend statistics, to their printed digits. */
import { describe, expect, test } from 'vitest';
import { cusum } from '../../../src/trend/cusum.ts';
import { ewma } from '../../../src/trend/ewma.ts';
import { exactChance } from '../../../src/trend/kendallChance.ts';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';
import reference from './trend.json' with { type: 'json' };

const near = (actual: number | null | undefined, expected: number, within: number) =>
  expect(Math.abs((actual ?? Number.NaN) - expected), `${actual} for ${expected}`).toBeLessThanOrEqual(within);

describe('Mann-Kendall', () => {
  test.each(reference.mannKendall)('$name ($source)', ({ values, expected, within }) => {
    const result = mannKendall(values, { method: 'normal' });
    expect(result.s).toBe(expected.s);
    if (expected.variance !== undefined) near(result.variance, expected.variance, within.variance ?? 0);
    if (expected.z !== undefined) near(result.z, expected.z, within.z ?? 0);
    if (expected.tau !== undefined) near(result.tau, expected.tau, within.tau ?? 0);
    if (expected.pNormal !== undefined) near(result.p, expected.pNormal, within.pNormal ?? 0);
  });

  test.each(Object.entries(reference.exactOneSided.byPoints))('exact chance at %s points (computed)', (points, row) => {
    for (const [s, oneSided] of Object.entries(row as Record<string, number>)) {
      // the table is one-sided: P(S >= s); by symmetry twice that is P(|S| >= s)
      if (Number(s) > 0) near(exactChance(Number(points), [], Number(s)) / 2, oneSided, reference.exactOneSided.within);
    }
  });

  test('small series are counted out, larger ones and tied times are not, unless asked', () => {
    const ten = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    expect(mannKendall(ten)).toMatchObject({ basis: 'exact', s: 45, p: 2 / 3628800, tau: 1 });
    expect(mannKendall([...ten, 11]).basis).toBe('normal');
    expect(mannKendall([...ten, 11], { method: 'exact' })).toMatchObject({ basis: 'exact', p: 2 / 39916800 });
    expect(mannKendall([1, 2, 3], { times: [1, 1, 2] })).toMatchObject({ basis: 'normal', s: 2 });
  });
});

describe('Sen slope', () => {
  test.each(reference.senSlope)('$name ($source)', ({ times, values, expected, within }) => {
    const result = senSlope(times, values);
    near(result.slope, expected.slope, within.slope);
    near(result.intercept, expected.intercept, within.intercept);
    near(result.low, expected.low, within.low);
    near(result.high, expected.high, within.high);
  });
});

test(`EWMA (${reference.ewma.source})`, () => {
  const { values, options, expected, within } = reference.ewma;
  const result = ewma(values, options);
  expected.ewma.forEach((average, i) => {
    near(result.values[i], average, within.values);
    near(result.high?.[i], expected.UCL, within.limits);
    near(result.low?.[i], expected.LCL, within.limits);
  });
  expect(result.signals).toEqual([]);
});

describe('CUSUM', () => {
  test.each(reference.cusum)('$name ($source)', ({ values, options, expected, within }) => {
    const result = cusum(values, options);
    expected.high.forEach((sum, i) => {
      near(result.high[i], sum, within);
      near(result.low[i], expected.low[i] as number, within);
    });
    expect(result.signals[0] ?? null).toBe(expected.firstSignal);
  });
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leastSquaresLine } from '../../../src/trend/index.ts';

test('moves with the points: shifted in time by decades, scaled, and turned', () => {
  const series = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 4, maxLength: 40 });
  fc.assert(
    fc.property(series, fc.integer({ min: 0, max: 2e12 }), (values, shift) => {
      const times = values.map((_value, i) => i * 60);
      const here = leastSquaresLine(times, values);
      const there = leastSquaresLine(
        times.map((time) => time + shift),
        values,
      );
      expect(there.slope).toBeCloseTo(here.slope, 9);
      expect(
        leastSquaresLine(
          times,
          values.map((value) => -2 * value),
        ).slope,
      ).toBeCloseTo(-2 * here.slope, 9);
      expect(here.r2).toBeGreaterThanOrEqual(0);
      expect(here.r2).toBeLessThanOrEqual(1);
    }),
  );
});

test('a level series is explained whole', () => {
  expect(leastSquaresLine([1, 2, 3], [7, 7, 7])).toMatchObject({ slope: 0, intercept: 7, residual: 0, r2: 1 });
});

test.each([
  ['too_few', [1, 2], [1, 2]],
  ['length_mismatch', [1, 2, 3], [1, 2, 3, 4]],
  ['no_answer', [5, 5, 5], [1, 2, 3]],
  ['not_a_number', [1, 2, Number.NaN], [1, 2, 3]],
] as const)('%s', (code, times, values) => {
  expect(() => leastSquaresLine(times, values)).toThrowError(expect.objectContaining({ name: 'MotescaleError', code }));
});

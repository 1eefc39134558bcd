/**
 * Student's t against its closed forms, and the variance of sums of dependent points against the sum over all pairs.
 */
import { describe, expect, test } from 'vitest';
import { studentBeyond, studentLimit } from '../../../src/numeric/student.ts';
import { dependentSum, fadings, layoutOf } from '../../../src/trend/dependence/layout.ts';

describe("Student's t", () => {
  test('closed forms: 1 degree (arc tangent), 2 degrees (square root), 4 degrees', () => {
    for (const t of [0.01, 0.3, 1, 2.5, 9, 400]) {
      const near = (freedom: number, wanted: number) =>
        expect(Math.abs(studentBeyond(t, freedom) / wanted - 1)).toBeLessThan(1e-12);
      near(1, (2 / Math.PI) * Math.atan(1 / t));
      near(2, 2 / (Math.sqrt(2 + t * t) * (Math.sqrt(2 + t * t) + t)));
    }
    for (const freedom of [1, 1.7, 3.3, 12.5, 80, 4000]) {
      const limit = studentLimit(0.05, freedom);
      expect(Math.abs(studentBeyond(limit, freedom) - 0.05)).toBeLessThan(1e-12);
      expect(studentBeyond(-limit, freedom)).toBe(studentBeyond(limit, freedom));
    }
  });
});

test.each([
  [30, 0.5, 2.6035595101160354, 2.866666666790843],
  [30, 0.9, 6.170121158689327, 13.254346949651296],
  [400, 0.9, 17.653037518984494, 18.55000000000002],
])('n %d, memory %d: how much memory inflates slope and mean (computed by brute force)', (n, memory, slope, mean) => {
  const layout = layoutOf(Array.from({ length: n }, (_x, i) => i));
  const kept = fadings(layout, memory);
  expect(Math.abs(dependentSum(kept, layout.fromMean, 1) / layout.squares / slope - 1)).toBeLessThan(1e-12);
  const ones = Array<number>(n).fill(1);
  expect(Math.abs(dependentSum(kept, ones, 1) / n / mean - 1)).toBeLessThan(1e-12);
  let pairs = 0;
  for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) pairs += i === j ? 1 : 0.5 * memory ** Math.abs(i - j);
  expect(Math.abs(dependentSum(kept, ones, 0.5) / pairs - 1)).toBeLessThan(1e-10);
});

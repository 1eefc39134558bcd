/** Tails of distributions: against exact sums, closed forms and their own ends. */
import type { Decimal } from 'decimal.js';
import { expect, test } from 'vitest';
import { chiSquareTails } from '../../../src/numeric/chiSquare.ts';
import { studentBeyond } from '../../../src/numeric/student.ts';
import { binomialAtLeast, poissonAtLeast, poissonAtMost } from '../../../src/numeric/tails.ts';
import { Exact } from '../../doubles.ts';

const near = (found: number, twin: Decimal, share: number) => {
  if (twin.isZero()) expect(found).toBe(0);
  else expect(Math.abs(new Exact(found).div(twin).minus(1).toNumber())).toBeLessThan(share);
};

test.each([
  [1, 1, 2],
  [3, 1, 4],
  [12, 3, 4],
  [40, 1, 8],
  [40, 7, 8],
])('of %d tries with a chance of %d/%d, k or more: each k, those beyond too', (trials, up, of) => {
  const p = new Exact(up).div(of);
  const q = new Exact(1).minus(p);
  let [atLeast, chance] = [new Exact(0), p.pow(trials)];
  const sums: Decimal[] = [];
  for (let k = trials; k >= 0; k -= 1) {
    atLeast = atLeast.plus(chance);
    sums[k] = atLeast;
    if (k > 0)
      chance = chance
        .times(k)
        .div(trials - k + 1)
        .times(q)
        .div(p);
  }
  sums.forEach((sum, k) => {
    near(binomialAtLeast(k, trials, up / of, 1 - up / of), sum, 1e-12);
  });
  expect(binomialAtLeast(-1, trials, up / of, 1 - up / of)).toBe(1);
  expect(binomialAtLeast(trials + 1, trials, up / of, 1 - up / of)).toBe(0);
});

test.each([0.25, 3, 40])('of %d expected: n or fewer, n or more', (mean) => {
  const most = Math.ceil(mean + 60);
  const chances: Decimal[] = [];
  for (let n = 0; n <= most + 40; n += 1)
    chances.push(n === 0 ? new Exact(-mean).exp() : (chances[n - 1] as Decimal).times(mean).div(n));
  const sum = (from: number, upTo: number) =>
    chances.slice(from, upTo).reduce((all, one) => all.plus(one), new Exact(0));
  for (let n = 0; n <= most; n += 1) {
    if (n <= mean) near(poissonAtMost(n, mean), sum(0, n + 1), 1e-12);
    else near(poissonAtLeast(n, mean), sum(n, chances.length), 1e-12);
  }
});

test('chi-square of an even number of degrees is a sum of few terms; of nothing it is surely exceeded', () => {
  for (const freedom of [2, 4, 10, 60])
    for (const x of [1e-6, 0.5, 3, freedom, 2 * freedom + 40]) {
      let [term, sum] = [new Exact(1), new Exact(1)];
      for (let i = 1; i < freedom / 2; i += 1) {
        term = term.times(x / 2).div(i);
        sum = sum.plus(term);
      }
      near(chiSquareTails(x, freedom).above, sum.times(new Exact(-x / 2).exp()), 1e-11);
      expect(chiSquareTails(x, freedom).below).toBeCloseTo(1 - chiSquareTails(x, freedom).above, 14);
    }
  expect(chiSquareTails(0, 4)).toEqual({ above: 1, below: 0 });
  expect(chiSquareTails(1e9, 4)).toEqual({ above: 0, below: 1 });
});

test("Student's t at its ends: no distance is always exceeded, one beyond all doubles never", () => {
  for (const freedom of [1, 2.5, 4000]) {
    expect(studentBeyond(0, freedom)).toBe(1);
    expect(studentBeyond(1e-200, freedom)).toBe(1);
    expect(studentBeyond(1e200, freedom)).toBe(0);
    expect(studentBeyond(Infinity, freedom)).toBe(0);
  }
});

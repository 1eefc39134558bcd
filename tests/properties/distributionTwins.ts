/** Poisson and normal probabilities from their definitions, in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import { d, pi } from './twin.ts';

/** The chance that a Poisson variable is `n` at most: the sum of its terms, from 0 up. */
export function poissonUpTo(n: number, mean: Decimal): Decimal {
  let term = d(1);
  let total = n < 0 ? d(0) : term;
  for (let i = 1; i <= n; i += 1) {
    term = term.times(mean).div(i);
    total = total.plus(term);
  }
  return total.times(mean.neg().exp());
}

/** The chance that a Poisson variable is `n` at least: the sum of its terms from there up. */
export function poissonFrom(n: number, mean: Decimal): Decimal {
  let term = mean.neg().exp();
  for (let i = 1; i <= n; i += 1) term = term.times(mean).div(i);
  let total = term;
  for (let i = n + 1; term.gt(total.times('1e-45')) || mean.gt(i); i += 1) {
    term = term.times(mean).div(i);
    total = total.plus(term);
  }
  return total;
}

/** The chance that a standard normal variable is `z` at most: its Taylor series, good for z up to about 8. */
export function normalUpTo(z: Decimal): Decimal {
  let term = z;
  let total = z;
  for (let n = 1; term.abs().gt('1e-45'); n += 1) {
    term = term
      .times(z)
      .times(z)
      .div(-2 * n);
    total = total.plus(term.div(2 * n + 1));
  }
  return total.div(pi.times(2).sqrt()).plus('0.5');
}

/** The z that a standard normal variable exceeds with chance 1 - p: Newton's method from 0. */
export function normalQuantileTwin(p: Decimal): Decimal {
  let z = d(0);
  for (let round = 0; round < 60; round += 1) {
    const density = z.times(z).div(-2).exp().div(pi.times(2).sqrt());
    const step = normalUpTo(z).minus(p).div(density);
    z = z.minus(step);
    if (step.abs().lt('1e-40')) break;
  }
  return z;
}

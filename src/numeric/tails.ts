/**
 * Tail probabilities of the Poisson and binomial distributions, as sums of positive terms only: accurate in relative
 * terms however small the tail, and for counts up to 1e9 (the sums take a few times the square root of the count).
 *
 * Source: C. Loader, Fast and Accurate Computation of Binomial Probabilities (2000): probabilities from deviance and
 * Stirling error.
 */
import { exp } from './exponential.ts';
import { log, log1p } from './logarithm.ts';

/** P(X = n) for a Poisson variable. */
function poisson(n: number, mean: number): number {
  if (n === 0) return exp(-mean);
  return exp(-stirlingError(n) - deviance(n, mean)) / Math.sqrt(2 * Math.PI * n);
}

/** P(X <= n) for a Poisson variable, best for n below the mean. */
export function poissonAtMost(n: number, mean: number): number {
  let term = 1;
  let sum = 1;
  for (let i = n; i > 0 && counts(term, sum); i -= 1) {
    term *= i / mean;
    sum += term;
  }
  return poisson(n, mean) * sum;
}

/** P(X >= n) for a Poisson variable, best for n above the mean. */
export function poissonAtLeast(n: number, mean: number): number {
  let term = 1;
  let sum = 1;
  for (let i = n + 1; counts(term, sum); i += 1) {
    term *= mean / i;
    sum += term;
  }
  return poisson(n, mean) * sum;
}

/** P(X >= k) of `trials` tries with chance `p`, where q = 1 - p is given too, so that neither loses digits near 1. */
export function binomialAtLeast(k: number, trials: number, p: number, q: number): number {
  if (k <= 0) return 1;
  if (k <= trials * p) return 1 - upperSum(trials - k + 1, trials, q, p);
  return upperSum(k, trials, p, q);
}

/** Whether a term still changes the sum: 2^-55 of it and less is lost. */
function counts(term: number, sum: number): boolean {
  return term > sum / 9007199254740992 / 4;
}

/** P(X >= k) for k above the mean. */
function upperSum(k: number, trials: number, p: number, q: number): number {
  if (k > trials) return 0;
  let term = 1;
  let sum = 1;
  for (let i = k; i < trials && counts(term, sum); i += 1) {
    term *= ((trials - i) / (i + 1)) * (p / q);
    sum += term;
  }
  return binomial(k, trials, p, q) * sum;
}

/** P(X = k), for k of 1 and more. */
function binomial(k: number, trials: number, p: number, q: number): number {
  if (k === trials) return exp(trials * (q < 0.5 ? log1p(-q) : log(p)));
  const rest = trials - k;
  const exponent =
    stirlingError(trials) -
    stirlingError(k) -
    stirlingError(rest) -
    deviance(k, trials * p) -
    deviance(rest, trials * q);
  return exp(exponent) * Math.sqrt(trials / (2 * Math.PI * k * rest));
}

/** x ln(x / m) + m - x, which is never negative. */
export function deviance(x: number, m: number): number {
  const excess = x - m;
  return x * log1p(excess / m) - excess;
}

/** ln n! less its leading part n ln n - n + ln(2 pi n) / 2, for whole n >= 1 and any n >= 12. */
export function stirlingError(n: number): number {
  if (n < 12) {
    let factorial = 1;
    for (let i = 2; i <= n; i += 1) factorial *= i;
    return log(factorial) - n * log(n) + n - 0.5 * log(2 * Math.PI * n);
  }
  return stirlingSeries(n);
}

/** What ln gamma is above its leading part, for x of 12 and more: NIST DLMF 5.11.1. */
export function stirlingSeries(x: number): number {
  const z = 1 / (x * x);
  return (1 / 12 - z * (1 / 360 - z * (1 / 1260 - z * (1 / 1680 - z * (1 / 1188 - (z * 691) / 360360))))) / x;
}

/**
 * The upper tail of chi-square: the chance of a sum of squares at least so large. Relative accuracy 1e-11 or better
 * for up to 1e6 degrees of freedom, in either tail.
 *
 * Source: NIST Digital Library of Mathematical Functions, 8.7.1 (series of positive terms below the mean) and 8.9.2
 * (continued fraction above), with the factor in front from deviance and Stirling error as in tails.ts.
 */
import { exp } from './exponential.ts';
import { log1p } from './logarithm.ts';
import { deviance, stirlingError } from './tails.ts';

/** P(X >= x) and P(X <= x) for chi-square of `freedom` degrees of freedom, 1 or more. */
export function chiSquareTails(x: number, freedom: number): { above: number; below: number } {
  const a = freedom / 2;
  const y = x / 2;
  if (y <= 0) return { above: 1, below: 0 };
  // y^a e^-y / gamma(a + 1)
  const front = y > 1000 + 40 * a ? 0 : exp(-remainder(a) - deviance(a, y)) / Math.sqrt(2 * Math.PI * a);
  if (y < a + 1) {
    let term = 1;
    let sum = 1;
    for (let n = a + 1; term > sum * 1e-17; n += 1) {
      term *= y / n;
      sum += term;
    }
    return { above: 1 - front * sum, below: front * sum };
  }
  const above = a * front * fraction(a, y);
  return { above, below: 1 - above };
}

/** gamma(a, y) over y^a e^-y, by the method of Lentz. */
function fraction(a: number, y: number): number {
  let b = y + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let result = d;
  for (let n = 1; n < 100000; n += 1) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (numerator * d + b);
    c = b + numerator / c;
    const factor = c * d;
    result *= factor;
    if (Math.abs(factor - 1) < 1e-16) break;
  }
  return result;
}

/** The Stirling error of any a above 0: below 12 from that of a + 1. */
function remainder(a: number): number {
  return a >= 12 ? stirlingError(a) : remainder(a + 1) + (a + 0.5) * log1p(1 / a) - 1;
}

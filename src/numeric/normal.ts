/**
 * The standard normal distribution: the chance of a value up to z, and the z with a given chance.
 *
 * Sources: NIST Digital Library of Mathematical Functions, 7.6.2 (series of positive terms, here up to |z| = 1.5) and
 * 7.9.1 in the form of Laplace's continued fraction (beyond). Accuracy, also of the small tail: 1e-14 relative for |z|
 * up to 37, where doubles end.
 */
import { exp } from './exponential.ts';
import { log } from './logarithm.ts';

/** P(Z <= z). */
export function normalBelow(z: number): number {
  if (z > 0) return 1 - normalBelow(-z);
  return z < -1.5 ? density(z) / millsFraction(-z) : 0.5 - density(z) * series(-z);
}

/** The z with P(Z <= z) = `share`, for a share above 0 and below 1. */
export function normalQuantile(share: number): number {
  if (share > 0.5) return -normalQuantile(1 - share);
  // log P is concave and this start lies below the root, so that Newton's steps rise towards it and never past it
  let z = -Math.sqrt(-2 * log(share));
  for (let round = 0; round < 60; round += 1) {
    const below = normalBelow(z);
    const step = (log(share / below) * below) / density(z);
    z += step;
    if (step <= 1e-16 * -z) return z;
  }
  return z;
}

/** The bell curve. z^2 is taken in two parts, so that its rounding does not grow with z. */
function density(z: number): number {
  const coarse = Math.floor(z * 1024) / 1024;
  return (exp(-0.5 * coarse * coarse) * exp(-0.5 * (z - coarse) * (z + coarse))) / Math.sqrt(2 * Math.PI);
}

/** z + z^3/3 + z^5/15 + ...: the integral of the bell curve from 0, over the curve. */
function series(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 3; term > sum * 1e-17; n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return sum;
}

/** The curve over its tail: z + 1/(z + 2/(z + 3/(z + ...))), for z of 1.5 and more. */
function millsFraction(z: number): number {
  let fraction = z;
  for (let n = 160; n > 0; n -= 1) fraction = z + n / fraction;
  return fraction;
}

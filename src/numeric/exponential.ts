/**
 * The exponential from + - * / alone, so that every engine returns the same bits. At most 1 ulp off.
 *
 * Source: the reduction of FDLIBM 5.3, e_exp.c (Sun Microsystems, 1993): x = k ln 2 + r, exp r = 1 + 2 r / (R(r) - r)
 * with R(r) = r coth(r/2), here by its series in Bernoulli numbers (NIST Digital Library of Mathematical Functions,
 * 4.19 and 24.2), so that every constant is a ratio of whole numbers.
 */
import { powerOfTen } from './decimal.ts';
import { ln2High, ln2Low, log } from './logarithm.ts';
import { scaleBinary } from './powersOfTwo.ts';

/** e^x. Beyond the range of a double: Infinity above, 0 below. */
export function exp(x: number): number {
  if (x > 709.8) return Infinity;
  if (x < -745.2) return 0;
  const k = Math.floor(x / (ln2High + ln2Low) + 0.5);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  const c = r - residue(r * r);
  return scaleBinary(1 - (low - (r * c) / (2 - c) - high), k);
}

/** e^x - 1, accurate also where x is tiny. */
export function expm1(x: number): number {
  if (x > -0.35 && x < 0.35) {
    const c = x - residue(x * x);
    return x + (x * c) / (2 - c);
  }
  return exp(x) - 1;
}

/** x^y for x > 0. The relative error is below 2^-52 (1 + |y ln x|). */
export function power(x: number, y: number): number {
  return exp(y * log(x));
}

const ln10: number = /* @__PURE__ */ log(10);

/** log10 x for x > 0; exact at whole powers of ten that a double holds exactly. */
export function log10(x: number): number {
  const quotient = log(x) / ln10;
  const whole = Math.floor(quotient + 0.5);
  return Math.abs(quotient - whole) < 1e-12 && powerOfTen(whole) === x ? whole : quotient;
}

/** r coth(r/2) - 2 as a series in z = r^2, for |r| up to about ln 2 / 2. */
function residue(z: number): number {
  return (
    z * (1 / 6 - z * (1 / 360 - z * (1 / 15120 - z * (1 / 604800 - z * (1 / 23950080 - (z * 691) / 653837184000)))))
  );
}

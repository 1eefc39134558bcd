/**
 * The natural logarithm from + - * / alone, so that every engine returns the same bits. At most 1 ulp off.
 *
 * Source: the reduction of FDLIBM 5.3, e_log.c (Sun Microsystems, 1993): x = 2^k m, f = m - 1, s = f / (2 + f), log m =
 * f - (f^2/2 - s (f^2/2 + R(s^2))). The series of the inverse hyperbolic tangent replaces its fitted polynomial, so
 * that every constant is a ratio of whole numbers.
 */
import { splitBinary } from './powersOfTwo.ts';

const two17 = 131072;
const two33 = 65536 * two17;
const two26 = 67108864;

/** ln 2 in two parts; the first has so few bits that k times it is exact for every exponent k. */
export const ln2High: number = 5954088942 / two33;
export const ln2Low: number = (110001101 * two26 + 24722550) / (two26 * two26 * two33);

/** ln x for x > 0, and -Infinity for the 0 that a quotient may have become. */
export function log(x: number): number {
  if (x === 0) return -Infinity;
  const split = splitBinary(x);
  let m = split.mantissa;
  let k = split.exponent;
  if (m > 1.4142) {
    m *= 0.5;
    k += 1;
  }
  return k * ln2High - (remainderOf(m - 1, k * ln2Low) - (m - 1));
}

/** ln(1 + x) for x > -1, accurate also where x is tiny. */
export function log1p(x: number): number {
  if (x > -0.25 && x < 0.375) return x - remainderOf(x, 0);
  const sum = 1 + x;
  return log(sum) + (x - (sum - 1)) / sum;
}

/** What must be taken from f to give log(1 + f) + low, for |f| up to about 0.42. */
function remainderOf(f: number, low: number): number {
  const s = f / (2 + f);
  const z = s * s;
  const half = 0.5 * f * f;
  const far = 2 / 15 + z * (2 / 17 + z * (2 / 19 + z * (2 / 21 + z * (2 / 23 + z * (2 / 25)))));
  const series = 2 / 3 + z * (2 / 5 + z * (2 / 7 + z * (2 / 9 + z * (2 / 11 + z * (2 / 13 + z * far)))));
  return half - (s * (half + z * series) + low);
}

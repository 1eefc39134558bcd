/**
 * Exact scaling by powers of two, from multiplication alone: the step every portable log and exp starts or ends with.
 * The powers are products, not long literals, because small engines misread literals of seventeen digits.
 */
import { readChord, readWords, type Words } from './words.ts';

const two16 = 65536;
const two20 = 1048576;
const two32 = two16 * two16;

/**
 * Splits a positive finite number into `(1 + (upper + lower / 2^32) / 2^20) * 2^exponent`: the 52 bits behind the
 * point in two whole numbers. Exact.
 */
export function splitWords(x: number): Words {
  const read = readWords(x);
  if (read !== null) return read;
  let mantissa = x;
  let exponent = 0;
  // the bounds are no double's: what is not positive and finite must not keep a gateway here for ever
  for (; mantissa >= two16 && exponent < 1100; exponent += 16) mantissa /= two16;
  for (; mantissa < 1 && exponent > -1100; exponent -= 16) mantissa *= two16;
  for (; mantissa >= 2; exponent += 1) mantissa /= 2;
  const scaled = (mantissa - 1) * two20;
  const upper = Math.floor(scaled);
  return { exponent, upper, lower: (scaled - upper) * two32 };
}

/** Splits a positive finite number into `mantissa * 2^exponent`, the mantissa from 1 to below 2. Exact. */
export function splitBinary(x: number): { mantissa: number; exponent: number } {
  const { exponent, upper, lower } = splitWords(x);
  return { mantissa: 1 + (upper + lower / two32) / two20, exponent };
}

/** Of a positive number, its logarithm to base 2 or up to 0.0861 less, as the chord between powers of two gives it. */
export function chordLog2(x: number): number {
  const read = readChord(x);
  if (read !== null) return read;
  const { exponent, upper } = splitWords(x);
  return exponent + upper / two20;
}

/** `x * 2^exponent` for a whole exponent; rounded once, where the result is subnormal. */
export function scaleBinary(x: number, exponent: number): number {
  // 2^1024 is no double
  if (exponent > 1023) return scaleBinary(scaleBinary(x, exponent - 512), 512);
  if (exponent < -1023) return scaleBinary(scaleBinary(x, exponent + 512), -512);
  let scaled = x;
  let left = Math.abs(exponent);
  // the small powers first: a subnormal result is then rounded by the last step only
  for (let power = 2; left > 0; power *= power) {
    if (left % 2 === 1) scaled *= exponent < 0 ? 1 / power : power;
    left = Math.floor(left / 2);
  }
  return scaled;
}

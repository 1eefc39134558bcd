/**
 * Exact scaling by powers of two, from multiplication alone: the step every portable log and exp starts or ends with.
 * The powers are products, not long literals, because small engines misread literals of seventeen digits.
 */
const two16 = 65536;
const two20 = 1048576;
const two32 = two16 * two16;
const two64 = two32 * two32;
const two128 = two64 * two64;
const two256 = two128 * two128;
const two512 = two256 * two256;
const powers: readonly number[] = [2, 4, 16, 256, two16, two32, two64, two128, two256, two512];
const inverses: readonly number[] = [
  1 / 2,
  1 / 4,
  1 / 16,
  1 / 256,
  1 / two16,
  1 / two32,
  1 / two64,
  1 / two128,
  1 / two256,
  1 / two512,
];

/** A double, and the same eight bytes as two integers; `top` is the one that holds the exponent. */
interface Halves {
  readonly double: Float64Array;
  readonly integers: Int32Array;
  readonly top: 0 | 1;
}

/** Null on engines without typed arrays. */
const halves: Halves | null = /* @__PURE__ */ halvesOfOne();

function halvesOfOne(): Halves | null {
  if (typeof Float64Array === 'undefined') return null;
  const double = new Float64Array([1]);
  const integers = new Int32Array(double.buffer);
  return { double, integers, top: integers[1] === 0 ? 0 : 1 };
}

/**
 * Splits a positive finite number into `(1 + (upper + lower / 2^32) / 2^20) * 2^exponent`: the 52 bits behind the
 * point in two whole numbers. Exact.
 */
export function splitWords(x: number): { exponent: number; upper: number; lower: number } {
  if (halves !== null) {
    const { double, integers, top } = halves;
    double[0] = x;
    const half = integers[top] as number;
    // below that it is subnormal
    if (half >= two20)
      return { exponent: (half >> 20) - 1023, upper: half & (two20 - 1), lower: (integers[1 - top] as number) >>> 0 };
  }
  const { mantissa, exponent } = splitSlowly(x);
  const scaled = (mantissa - 1) * two20;
  const upper = Math.floor(scaled);
  return { exponent, upper, lower: (scaled - upper) * two32 };
}

/**
 * Splits a positive finite number into `mantissa * 2^exponent` with the mantissa from 1 up to, not including, 2. Exact.
 */
export function splitBinary(x: number): { mantissa: number; exponent: number } {
  const { exponent, upper, lower } = splitWords(x);
  return { mantissa: 1 + (upper + lower / two32) / two20, exponent };
}

function splitSlowly(x: number): { mantissa: number; exponent: number } {
  let mantissa = x;
  let exponent = 0;
  if (mantissa < 1 / two512) {
    mantissa *= two512;
    exponent = -512;
  }
  for (let i = powers.length - 1; i >= 0; i -= 1) {
    const power = powers[i] as number;
    const inverse = inverses[i] as number;
    if (mantissa >= power) {
      mantissa *= inverse;
      exponent += 1 << i;
    } else if (mantissa < inverse * 2) {
      mantissa *= power;
      exponent -= 1 << i;
    }
  }
  return { mantissa, exponent };
}

/** `x * 2^exponent` for a whole exponent; rounded once, where the result is subnormal. */
export function scaleBinary(x: number, exponent: number): number {
  let scaled = x;
  let left = Math.abs(exponent);
  const steps = exponent < 0 ? inverses : powers;
  for (let i = 0; left > 0 && i < steps.length; i += 1) {
    // the small powers first: a subnormal result is then rounded by the last step only
    if (left % 2 === 1) scaled *= steps[i] as number;
    left = Math.floor(left / 2);
  }
  while (left > 0) {
    scaled *= exponent < 0 ? (inverses[9] as number) : (powers[9] as number);
    scaled *= exponent < 0 ? (inverses[9] as number) : (powers[9] as number);
    left -= 1;
  }
  return scaled;
}

/** The words of a double, read from its bytes: sooner than by division, on engines that have typed arrays. */

/** A positive number is `(1 + (upper + lower / 2^32) / 2^20) * 2^exponent`. */
export interface Words {
  readonly exponent: number;
  readonly upper: number;
  readonly lower: number;
}

const two20 = 1048576;

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
  return { double, integers, top: integers[1] ? 1 : 0 };
}

/** Null where they cannot be read, or where the number is subnormal or not positive. */
export function readWords(x: number): Words | null {
  if (halves === null) return null;
  const { double, integers, top } = halves;
  double[0] = x;
  const half = integers[top] as number;
  if (half < two20) return null;
  return { exponent: (half >> 20) - 1023, upper: half & (two20 - 1), lower: (integers[1 - top] as number) >>> 0 };
}

/** `exponent + upper / 2^20` of the same: its logarithm to base 2, or up to 0.0861 less; null where not read. */
export function readChord(x: number): number | null {
  if (halves === null) return null;
  const { double, integers, top } = halves;
  double[0] = x;
  const half = integers[top] as number;
  return half < two20 ? null : half / two20 - 1023;
}

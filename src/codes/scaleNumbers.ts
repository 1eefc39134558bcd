/**
 * Scale numbers of ISO 4406 for a whole column of counts at once, exactly, a few nanoseconds each.
 *
 * Between two powers of two from 1/128 to 4,194,304 lies exactly one upper limit of the standard. So the sign and
 * exponent of a double, read from its top twelve bits, leave two scale numbers and one comparison with the printed
 * limit.
 */
import { requireUnsigned } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { boundsOf, low20, topHalf } from './columnBounds.ts';
import { iso4406 } from './tables/iso4406.ts';

/** From here on the top twelve bits say infinite, NaN, or negative. */
const placeOfBad = 2047;
/** Stands where a scale number would, beyond all of them, for what is no count. */
const bad = 128;

/**
 * Scale numbers of a column of counts per mL, as bytes: exactly `scaleNumber` of each. Needs typed arrays, which the
 * smallest ES5 engines lack; `scaleNumber` works everywhere.
 *
 * @param perMl counts per mL
 * @param into where to put the numbers, at least as long as the column; a new array where left out
 * @throws `negative`, `not_a_number`, `infinite` with the index of the first bad count, and what stands in `into` then
 * means nothing; `length_mismatch`, `wrong_type`.
 *
 * @example
 * ```ts
 * import { scaleNumbers } from 'motescale/codes';
 * scaleNumbers(Float64Array.of(0, 0.64, 0.65, 3e6)); // => Uint8Array.of(0, 6, 7, 29)
 * ```
 */
export function scaleNumbers(perMl: Float64Array, into?: Uint8Array): Uint8Array {
  if (typeof Float64Array === 'undefined')
    throw motescaleError('wrong_type', 'perMl', perMl, 'an engine with typed arrays; scaleNumber works on all');
  if (!(perMl instanceof Float64Array)) throw motescaleError('wrong_type', 'perMl', perMl, 'a Float64Array');
  const { length } = perMl;
  const numbers = into ?? new Uint8Array(length);
  if (!(numbers instanceof Uint8Array)) throw motescaleError('wrong_type', 'into', into, 'a Uint8Array');
  if (numbers.length < length)
    throw motescaleError('length_mismatch', 'into', numbers, `an array of at least ${length} bytes`);
  let end = numbersOf(perMl, numbers, length);
  if (end < length && perMl[end] === 0) {
    // a negative zero, which plus 0 is none
    const counts = new Float64Array(length);
    for (let i = 0; i < length; i += 1) counts[i] = (perMl[i] as number) + 0;
    end = numbersOf(counts, numbers, length);
  }
  if (end < length) requireUnsigned(perMl[end], `perMl[${end}]`, 'particles per mL, 0 or more');
  return numbers;
}

function numbersOf(perMl: Float64Array, numbers: Uint8Array, length: number): number {
  kernel = kernel ?? makeKernel();
  return kernel(perMl, new Int32Array(perMl.buffer, perMl.byteOffset, 2 * length), numbers, length);
}

/**
 * Puts the numbers of so many counts, up to the first with a sign or that is none, and returns where that stands, else
 * the length. `halves` are the same counts as pairs of integers.
 */
type Kernel = (perMl: Float64Array, halves: Int32Array, numbers: Uint8Array, length: number) => number;

/** Made on first use and kept: its tables never change. */
let kernel: Kernel | null = null;

/** One addition gives the number, but for counts that share the upper bits with a limit, which are compared. */
function makeKernel(): Kernel {
  const { limits, carries } = boundsOf(iso4406, [0]);
  const steps = carries as Int32Array;
  for (let at = placeOfBad; at < steps.length; at += 1) steps[at] = bad << 20;
  const top = topHalf();
  // in hand: what stands at the top of a bundled file is looked up anew for each count
  const [low, none] = [low20, bad];
  return (perMl, halves, numbers, length) => {
    for (let i = 0; i < length; i += 1) {
      const half = halves[2 * i + top] as number;
      const sum = (steps[half >>> 20] as number) + (half & low);
      let number = sum >>> 20;
      if ((sum & low) === low) number += Number((perMl[i] as number) > (limits[number] as number));
      numbers[i] = number;
      if (number === none) return i;
    }
    return length;
  };
}

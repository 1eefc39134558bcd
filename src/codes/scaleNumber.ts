/**
 * The bare scale number of ISO 4406: of one count, of a whole column of counts at once, and on a continuous scale for trends.
 */
import { requireNonNegative } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { classIndex } from './classIndex.ts';
import { iso4406 } from './tables/iso4406.ts';

/**
 * The ISO 4406 scale number of a count per mL: 0 to 28, and 29 for more than 2,500,000 (`>28`).
 *
 * Source: ISO 4406:1999, 2017, 2021, Table 1; upper limits inclusive.
 *
 * @example
 * ```ts
 * import { scaleNumber } from 'motescale/codes';
 * scaleNumber(1300); // => 17
 * scaleNumber(1300.1); // => 18
 * ```
 */
export function scaleNumber(perMl: number): number {
  const count = requireNonNegative(perMl, 'perMl', 'particles per mL, 0 or more');
  return classIndex(iso4406, 0, (limit) => count <= limit);
}

/**
 * Scale numbers of a column of counts per mL, as bytes: exactly `scaleNumber` of each, at about twice the cost of adding the column up.
 *
 * Between two powers of two from 1/128 to 2,097,152 lies exactly one upper limit. So the exponent of the double, read from its top bits,
 * leaves one comparison with a printed limit. Needs typed arrays, which the smallest ES5 engines lack; `scaleNumber` works everywhere.
 *
 * @param perMl counts per mL
 * @param into where to put the numbers, at least as long as the column; a new array where left out
 * @throws `negative`, `not_a_number`, `infinite` with the index; `length_mismatch`; nothing before the bad value is lost.
 *
 * @example
 * ```ts
 * import { scaleNumbers } from 'motescale/codes';
 * scaleNumbers(Float64Array.of(0, 0.64, 0.65, 3e6)); // => Uint8Array.of(0, 6, 7, 29)
 * ```
 */
export function scaleNumbers(perMl: Float64Array, into?: Uint8Array): Uint8Array {
  if (!(perMl instanceof Float64Array))
    throw motescaleError('wrong_type', 'perMl', perMl, 'a Float64Array of counts per mL');
  const { length } = perMl;
  const numbers = into ?? new Uint8Array(length);
  if (numbers.length < length) {
    throw motescaleError('length_mismatch', 'into', numbers, `an array of at least ${length} bytes`);
  }
  const limits = new Float64Array(scaleCount);
  for (let i = 0; i < scaleCount; i += 1) limits[i] = (iso4406.limits[i] as readonly number[])[0] as number;
  const halves = new Uint32Array(perMl.buffer, perMl.byteOffset, 2 * length);
  const top = topHalf();
  for (let i = 0; i < length; i += 1) {
    const bits = halves[2 * i + top] as number;
    if (bits >= infinityBits) requireNonNegativeZeroAllowed(perMl[i] as number, i);
    const place = (bits >>> 20) - placeOfFirst;
    if (bits >= signBit || place < 0) numbers[i] = 0;
    else if (place >= scaleCount) numbers[i] = scaleCount;
    else numbers[i] = (perMl[i] as number) > (limits[place] as number) ? place + 1 : place;
  }
  return numbers;
}

/** Scale numbers 0 to 28. */
const scaleCount = 29;
/** The biased exponent of 1/128, the power of two below 0.01, the limit of scale number 0. */
const placeOfFirst = 1023 - 7;
/** Top halves from here on are infinite, NaN, or negative. */
const infinityBits = 0x7ff00000;
const signBit = 0x80000000;

function requireNonNegativeZeroAllowed(count: number, i: number): void {
  requireNonNegative(count, `perMl[${i}]`, 'particles per mL, 0 or more');
}

/** Which half of a double holds the exponent on this machine: 1 where the low bytes come first. */
function topHalf(): 0 | 1 {
  return new Uint32Array(new Float64Array([1]).buffer)[1] === 0 ? 0 : 1;
}

/**
 * The scale number of ISO 4406 on a continuous scale, for trends: equal to the scale number exactly at each upper limit, in between on a
 * logarithmic scale, and never falling as the count rises (not even by one bit: every step of the computation is itself monotone).
 *
 * Below 0.01 per mL it runs straight to -1 at a count of zero. Above 2,500,000 it rises by one with each doubling.
 *
 * @example
 * ```ts
 * import { continuousScaleNumber } from 'motescale/codes';
 * continuousScaleNumber(1300); // => 17
 * continuousScaleNumber(1800); // ~> 17.50
 * ```
 */
export function continuousScaleNumber(perMl: number): number {
  const count = requireNonNegative(perMl, 'perMl', 'particles per mL, 0 or more');
  const index = classIndex(iso4406, 0, (limit) => count <= limit);
  if (index === 0) return count / limitOf(0) - 1;
  if (index < scaleCount) {
    const below = limitOf(index - 1);
    return index - 1 + logShare(below, count) / logShare(below, limitOf(index));
  }
  let doublings = scaleCount - 1;
  let above = limitOf(scaleCount - 1);
  while (count > 2 * above) {
    above *= 2;
    doublings += 1;
  }
  return doublings + logShare(above, count) / logShare(above, 2 * above);
}

function limitOf(index: number): number {
  return (iso4406.limits[index] as readonly number[])[0] as number;
}

/**
 * ln(x / base) / 2 for x from base to a little over twice it, as the series of the inverse hyperbolic tangent. All terms are positive and
 * each operation is monotone in x, so the result is too.
 */
function logShare(base: number, x: number): number {
  const s = 1 - (2 * base) / (x + base);
  const z = s * s;
  let series = 0;
  for (let n = 35; n >= 1; n -= 2) series = 1 / n + z * series;
  return s * series;
}

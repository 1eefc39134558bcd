/** The bare scale number of ISO 4406: of one count, on a continuous scale for trends, and back. */
import { requireNonNegative, requireUnsigned } from '../checks.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { classIndex, limitAt } from './classIndex.ts';
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
  const count = requireUnsigned(perMl, 'perMl', 'particles per mL, 0 or more');
  return classIndex(iso4406, 0, (limit) => count <= limit);
}

/**
 * The scale number of ISO 4406 on a continuous scale, for trends: equal to the scale number exactly at each upper
 * limit, in between on a logarithmic scale, and never falling as the count rises (not even by one bit: every step of
 * the computation is itself monotone).
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
  const last = iso4406.classes.length - 1;
  if (index <= last) {
    const below = limitOf(index - 1);
    return index - 1 + logShare(below, count) / logShare(below, limitOf(index));
  }
  let doublings = last;
  let above = limitOf(last);
  while (count / 2 > above) {
    above *= 2;
    doublings += 1;
  }
  return doublings + logShare(above, count) / logShare(above, 2 * above);
}

/**
 * `continuousScaleNumber` read backwards: particles per mL at a number of -1 or more; at whole numbers up to 28 exactly
 * the limits of ISO 4406:1999, 2017, 2021, Table 1.
 */
export function countAtScaleNumber(number: number): number {
  if (number <= 0) return (number + 1) * limitOf(0);
  const last = iso4406.limits.length - 1;
  const index = Math.min(Math.floor(number), last);
  let below = limitOf(index);
  let share = number - index;
  for (; share >= 1; share -= 1) below *= 2;
  const above = index < last ? limitOf(index + 1) : 2 * below;
  return share === 0 ? below : Math.min(above, below * exp(share * log(above / below)));
}

const limitOf = (index: number) => limitAt(iso4406, index, 0) as number;

/**
 * ln(x / base) / 2 for x from base to a little over twice it, as the series of the inverse hyperbolic tangent. All
 * terms are positive and each operation is monotone in x, so the result is too.
 */
function logShare(base: number, x: number): number {
  const s = 1 - (2 * base) / (x + base);
  const z = s * s;
  let series = 0;
  for (let n = 35; n >= 1; n -= 2) series = 1 / n + z * series;
  return s * series;
}

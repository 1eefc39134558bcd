/** `continuousScaleNumber` read backwards, for what was worked out on that scale and is to be drawn as counts. */
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { limitAt } from './classIndex.ts';
import { iso4406 } from './tables/iso4406.ts';

/**
 * Particles per mL at a continuous scale number of -1 or more: exactly the printed limits at whole numbers up to 28.
 * Source: ISO 4406:1999, 2017, 2021, Table 1.
 */
export function countAtScaleNumber(number: number): number {
  const limitOf = (index: number) => limitAt(iso4406, index, 0) as number;
  if (number <= 0) return (number + 1) * limitOf(0);
  const last = iso4406.limits.length - 1;
  const index = Math.min(Math.floor(number), last);
  let below = limitOf(index);
  let share = number - index;
  for (; share >= 1; share -= 1) below *= 2;
  const above = index < last ? limitOf(index + 1) : 2 * below;
  return share === 0 ? below : Math.min(above, below * exp(share * log(above / below)));
}

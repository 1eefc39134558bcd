/** How many readings with one value are too many. */
import { log } from '../../numeric/logarithm.ts';

/** How many readings running come by chance as seldom as the limit; without end where a repeat is no wonder. */
export function runFor(limitChance: number, logChance: number): number {
  return logChance < 0 ? 1 + Math.ceil(log(limitChance) / logChance) : Infinity;
}

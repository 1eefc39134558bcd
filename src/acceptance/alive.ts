/**
 * Whether a reading shows that the counter lives: one that is dead, dark, dry or not connected gives zeros or a stray
 * particle now and then, and by these alone would prove any target.
 */
import { placeOf } from '../codes/classIndex.ts';
import type { Code } from '../codes/types.ts';
import { codeGiven } from '../judging/codeVerdict.ts';
import { particlesCounted } from '../reading/counted.ts';
import type { ReadingLimits } from '../reading/readingLimits.ts';
import { isEmpty } from '../reading/remembered/level.ts';
import type { AcceptanceReading, PreparedAcceptance } from './types.ts';

/** Noise without light is seldom as much (our choice); fewer than these ISO 4406 marks with `>=`. */
const leastOfLife = 20;

/** Whether readings have to show it: unless the limits switch off the check for a counter that died. */
export function asksForLife({ stuckChance, qualities }: ReadingLimits): boolean {
  return stuckChance !== null && qualities.no_particles !== 'good';
}

/**
 * Enough particles in all, which are those of the smallest size counted; where nobody knows how many were counted, one.
 * Without counts, a class in the table of the proof that is not the cleanest, and no `>=` at the smallest size. Of a
 * reading with neither it is never asked.
 */
export function showsLife({ code: { table } }: PreparedAcceptance, reading: AcceptanceReading): boolean {
  const { counts } = reading;
  if (counts !== undefined) {
    const counted = particlesCounted(reading, counts);
    return counted === null ? !isEmpty(counts.perMl) : (counted[0] as number) >= leastOfLife;
  }
  const known = (codeGiven(table, reading) as Code).parts.filter(({ mark }) => mark !== 'not_counted');
  return known[0]?.mark !== 'few_counted' && known.some((part) => placeOf(table, part.class) > 0);
}

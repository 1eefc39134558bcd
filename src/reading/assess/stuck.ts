/**
 * Counts that never change are not measured: particles arrive at random.
 *
 * Compared are the counts alone, at all sizes: a counter can freeze while its thermometer lives. They are judged only where a repeat by
 * chance is all but impossible, from 100 particles counted at the smallest size. By the law of Poisson two counts of an unchanged oil, of n
 * particles each, are equal with a chance of about 1 / (2 sqrt(pi n)): 0.028 for 100, below 1e-6 for four repeats running, and the other
 * sizes must repeat as well. Of clean oil with fewer particles (4, 1 and 0 again and again) a repeat says nothing, of zeros least of all.
 * Where the number counted is not known, three digits of the count per mL stand for it: a smaller count leaves too few values to differ in.
 */
import type { CumulativeCounts } from '../../counts/index.ts';
import { decimalPlaces, powerOfTen } from '../../numeric/decimal.ts';
import { shown } from '../../numeric/shown.ts';
import type { Reading } from '../reading.ts';
import type { Check } from './check.ts';

/** From how many particles on a repeat is no chance: common practice, see `sources.samplingPractice`. */
const fewestToJudge = 100;

/** How many readings running, the last among them, have the same counts, and how many are known at all. */
export interface Repeats {
  readonly same: number;
  readonly known: number;
}

/** The repeats of a reading after others, oldest first. */
export function repeatsAfter(earlier: readonly Reading[], reading: Reading): Repeats {
  const { perMl } = reading.counts;
  let same = 1;
  while (same <= earlier.length && alike(perMl, (earlier[earlier.length - same] as Reading).counts.perMl)) same += 1;
  return { same, known: earlier.length + 1 };
}

/** The very same counts several times running. */
export const valuesStuck: Check = {
  codes: ['values_stuck'],
  find: ({ reading, limits: { stuckReadings }, repeats: { same, known } }) => {
    if (stuckReadings === null || known < stuckReadings || unitsCounted(reading.counts) < fewestToJudge) return null;
    if (same < stuckReadings) return [];
    const text = `The last ${same} readings have the same counts to the last digit (limit ${shown(stuckReadings)}): the counter or its connection has stopped.`;
    return [{ code: 'values_stuck', figure: same, limit: stuckReadings, text }];
  },
};

/** Particles counted at the smallest size; where not known, the count per mL in units of its last decimal place. */
function unitsCounted({ counted, perMl }: CumulativeCounts): number {
  if (counted !== undefined) return counted[0] as number;
  const most = perMl[0] as number;
  // a quotient that no decimal writes out says no more than its whole number
  return most * powerOfTen(Math.max(decimalPlaces(most), 0));
}

function alike(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((count, i) => count === b[i]);
}

/** A reading assessed beside the readings before it, of which a state remembers what `advanceRepeats` keeps. */
import type { Needed } from '../reading/assess/check.ts';
import { assess } from '../reading/assessReading.ts';
import type { Assessment, FindingCode, ReadingLimits, TimedReading } from '../reading/index.ts';
import type { Repeats } from '../reading/remembered/repeats.ts';
import type { CodePlan } from './codePlan.ts';

/**
 * Assessed; `repeats` has taken the reading in, and is null where it came out of order. The clock is judged by the
 * order of arrival. A code that came with counts is compared with theirs in the tables of `codes`.
 */
export function assessArrived(
  limits: ReadingLimits,
  reading: TimedReading,
  repeats: Repeats | null,
  codes: readonly CodePlan[],
  needed: readonly Needed[] = [],
): Assessment {
  const assessment = assess(limits, reading, repeats, codes, needed);
  const unchecked = assessment.unchecked as FindingCode[];
  const place = unchecked.indexOf('clock_backwards');
  if (place >= 0) unchecked.splice(place, 1);
  return assessment;
}

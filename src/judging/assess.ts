/**
 * A reading assessed beside the readings before it, of which a state remembers what `advanceRepeats` keeps.
 */
import { assess } from '../reading/assessReading.ts';
import type { Assessment, FindingCode, ReadingLimits, TimedReading } from '../reading/index.ts';
import type { Repeats } from '../reading/repeats.ts';

/**
 * Assessed; `repeats` has taken the reading in, and is null where it came out of order. The clock is judged by the
 * order of arrival.
 */
export function assessArrived(limits: ReadingLimits, reading: TimedReading, repeats: Repeats | null): Assessment {
  const assessment = assess(limits, reading, repeats);
  const unchecked = assessment.unchecked as FindingCode[];
  const place = unchecked.indexOf('clock_backwards');
  if (place >= 0) unchecked.splice(place, 1);
  return assessment;
}

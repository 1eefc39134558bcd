/**
 * A reading assessed beside the readings before it, of which a state remembers what `advanceRepeats` keeps.
 */
import { assess } from '../reading/assessReading.ts';
import type { Assessment, ReadingLimits, TimedReading } from '../reading/index.ts';
import type { Repeats } from '../reading/repeats.ts';

/**
 * Assessed; `repeats` has taken the reading in, and is null where it came out of order. The clock is judged by the
 * order of arrival.
 */
export function assessArrived(limits: ReadingLimits, reading: TimedReading, repeats: Repeats | null): Assessment {
  const assessment = assess(limits, reading, repeats);
  return { ...assessment, unchecked: assessment.unchecked.filter((code) => code !== 'clock_backwards') };
}

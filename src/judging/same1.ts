/** Counts that had come again and again by version 0.1.0, which kept no more of them than a fingerprint. */
import type { Reading } from '../reading/reading.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../reading/remembered/repeats.ts';
import { countsPrint1 } from './fingerprint.ts';

/** With the counts of a reading as the last ones, as often as they had come, if they are those; else as it was. */
export function withSame1(repeats: Repeats, { counts }: Reading): Repeats {
  // most have none, and this is asked of each reading
  if (repeats.same === undefined || counts === undefined) return repeats;
  const { same, ...rest } = repeats;
  if (countsPrint1(counts.perMl) !== same[0]) return repeats;
  const { sizes, perMl, runs } = advanceRepeats(noRepeats, { counts });
  return { ...rest, known: same[1], sizes, perMl, runs: runs.map(() => same[1]) };
}

/** Where the rules of a proof come from. What it asks of other entries has its source there. */
import { fingerprintSource } from '../judging/fingerprint.ts';
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'consecutiveReadings' | 'fingerprint', Source>> = {
  consecutiveReadings: {
    document: 'rule of the trade',
    edition: 'no document',
    place: 'n consecutive readings within the target; numbers, time and volume are the user’s',
    standing: 'common practice',
  },
  fingerprint: fingerprintSource,
};

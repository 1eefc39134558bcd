/** Where the figures and formulas of buckets of time come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'longestGap', Source>> = {
  longestGap: {
    document: 'rule of the trade',
    edition: 'no document',
    place: 'a reading stands for two or three times the usual distance of readings at most',
    standing: 'common practice',
  },
};

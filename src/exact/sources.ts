/** Where the figures and formulas of decimal rounding come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'rounding', Source>> = {
  rounding: {
    document: 'ASTM E29, Standard Practice for Using Significant Digits in Test Data; ISO 80000-1',
    edition: '2022; 2009',
    place: 'E29 section 6.4; ISO 80000-1 annex B, rule A',
    standing: 'from memory',
  },
};

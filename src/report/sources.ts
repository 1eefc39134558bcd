/** Where the figures and formulas of files and charts come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'csv' | 'formula', Source>> = {
  csv: {
    document: 'RFC 4180, Common Format and MIME Type for Comma-Separated Values (CSV) Files',
    edition: '2005',
    place: 'section 2, rules 1 to 7',
    standing: 'from memory',
  },
  // What spreadsheets run. That they read `a/b/c` as a date, `00` as 0 and the like is common practice.
  formula: {
    document: 'OWASP, CSV Injection',
    edition: 'web page, without edition',
    place: 'characters that start a formula: = + - @, tab, carriage return; also in full width',
    standing: 'from memory',
  },
};

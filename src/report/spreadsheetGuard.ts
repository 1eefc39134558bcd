/**
 * Spreadsheets read some text their own way: as a formula, which can reach files and networks, or as a date, which makes 2007-09-10 of
 * the code 10/9/7. An apostrophe before such text stops that, and is taken off again on reading.
 */
import type { Source } from '../source.ts';

/** What spreadsheets run. That they read `a/b/c` as a date is common practice. */
export const formulaSource: Source = {
  document: 'OWASP, CSV Injection',
  edition: 'web page, without edition',
  place: 'characters that start a formula: = + - @, tab, carriage return; also in full width',
  standing: 'from memory',
};

// = + - @ also in full width, at the start or after blanks; a tab or line end at the start; an apostrophe, so that the guard can be undone.
// The blanks are spelt out, since small engines know fewer of them by \s.
const formula =
  /^([\t-\r \u00A0\u1680\u2000-\u200B\u2028\u2029\u202F\u205F\u3000\uFEFF]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r\n]|')/;
const date = /^ *\d{1,4} *[/.-] *\d{1,4}( *[/.-] *\d{1,4})? *$/;

/** Text as it goes into the file. */
export function guarded(text: string, guard: 'formulas' | 'formulas and dates' | 'nothing'): string {
  const touched = guard !== 'nothing' && (formula.test(text) || (guard === 'formulas and dates' && date.test(text)));
  return touched ? `'${text}` : text;
}

/** Text as it was before `guarded`. An apostrophe that guards nothing stays. */
export function unguarded(text: string, guard: 'formulas' | 'formulas and dates' | 'nothing'): string {
  if (guard === 'nothing' || text.charAt(0) !== "'") return text;
  const rest = text.slice(1);
  return formula.test(rest) || date.test(rest) ? rest : text;
}

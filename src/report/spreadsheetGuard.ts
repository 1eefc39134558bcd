/**
 * Spreadsheets read some text their own way: as a formula, which can reach files and networks, or as a date, a time or another number, which
 * makes 2007-09-10 of the code 10/9/7 and 0 of the class 00. An apostrophe before such text stops that, and is taken off again on reading.
 */
import type { Source } from '../source.ts';

/** What spreadsheets run. That they read `a/b/c` as a date, `00` as 0 and the like is common practice. */
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
const clock = ' *\\d{1,4} *:[ \\d:.,]*([ap]m?)?';
const day = '\\d{1,4} *[/.-] *\\d{1,4}( *[/.-] *\\d{1,4})?';
const month =
  '(jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?)';
const between = '[ ,./-]*';
const figure = '[\\d.,]*\\d[\\d.,]*';

/** Forms of text, between blanks, that a spreadsheet takes for something else. Month names are the English ones. */
const misread: readonly string[] = [
  // 10/9/7, 1.50, 10/9/7 8:30; 10:9:7, 5 pm
  `${day}( ${clock})?`,
  clock,
  '\\d{1,2} *[ap]m',
  '\\d{1,2} +[ap]',
  // MAR1, 1-Mar, 1 Mar 2026
  `(\\d{1,4}${between})?${month}${between}\\d{1,4}(${between}\\d{1,4})?( ${clock})?`,
  `\\d{1,4}${between}${month}`,
  // 00, 007; longer than the 15 digits that are kept
  '0\\d+',
  '\\d{16,}',
  // .5, 1,5, 1,234.5, 1E5, 5-, (5), $5, 50 %, 1 000, 1 1/2
  '[\\d,]*[.,][\\d.,]*',
  `${figure}e[+-]?\\d+`,
  `${figure} *-`,
  `\\( *${figure} *\\)`,
  `[$\u00A2-\u00A5\u20AC] *${figure}`,
  `${figure} *[%$\u00A2-\u00A5\u20AC]`,
  "\\d{1,3}([ '\u2019\u00A0\u202F]\\d{3})+([.,]\\d+)?",
  '\\d+ +\\d+ */ *\\d+',
];

/** What `reportRows` writes, and a spreadsheet is to read as that very time. */
const timeOfRow = /^\d{4}-\d\d-\d\d \d\d:\d\d(:\d\d)?$/;

/** Whether a spreadsheet would make a date, a time or another number of the text; 7, which stays 7, is let be. */
function isMisread(text: string): boolean {
  if (timeOfRow.test(text) || !/\d/.test(text)) return false;
  // of all forms only digits come that long
  if (text.length > 100) return /^[ \d.,]+$/.test(text);
  return new RegExp(`^ *(${misread.join('|')}) *$`, 'i').test(text);
}

/** Text as it goes into the file. */
export function guarded(text: string, guard: 'formulas' | 'formulas and dates' | 'nothing'): string {
  const touched = guard !== 'nothing' && (formula.test(text) || (guard === 'formulas and dates' && isMisread(text)));
  return touched ? `'${text}` : text;
}

/** Text as it was before `guarded`. An apostrophe that guards nothing stays. */
export function unguarded(text: string, guard: 'formulas' | 'formulas and dates' | 'nothing'): string {
  if (guard === 'nothing' || text.charAt(0) !== "'") return text;
  const rest = text.slice(1);
  return formula.test(rest) || isMisread(rest) ? rest : text;
}

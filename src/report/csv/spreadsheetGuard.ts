/**
 * Spreadsheets read some text their own way: as a formula, which can reach files and networks, or as a date, a time or
 * another number, which makes 2007-09-10 of the code 10/9/7 and 0 of the class 00. An apostrophe before such text stops
 * that, and is taken off again on reading.
 */
import type { CheckedFormat } from './csvFormat.ts';

// = + - @ also in full width, at the start or after blanks; a tab or line end at the start; an apostrophe, so that the
// guard can be undone. The blanks are spelt out, since small engines know fewer of them by \s.
const formula =
  /^([\0\t-\r \xA0\u1680\u2000-\u200B\u2028\u2029\u202F\u205F\u3000\uFEFF]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r\n]|')/;

/** Forms of text that a spreadsheet takes for something else, one expression each: small engines know no long ones. */
const misread: readonly RegExp[] = [
  // 10/9/7, 1.50, 10/9/7 8:30
  /^ *\d{1,4} *[/.-] *\d{1,4}(?: *[/.-] *\d{1,4})?(?: +\d{1,2}:[\d:., ]*(?:[ap]m?)?)? *$/i,
  // 10:9:7, 8:30 pm; 5 pm, 5 p
  /^ *\d{1,4} *:[\d:., ]*(?:[ap]m?)? *$/i,
  /^ *\d{1,2}(?: +[ap]m?|[ap]m) *$/i,
  // 00, 007; longer than the 15 digits that are kept
  /^ *(?:0\d+|\d{16,}) *$/,
  // .5, 1,5, 1,234.5; 1E5; 5-
  /^ *\d*[.,][\d.,]* *$/,
  /^ *[.,]*\d[\d.,]*(?:e[+-]?\d+| *-) *$/i,
  // (5), $5, 50 %
  /^ *\( *[.,]*\d[\d.,]* *\) *$/,
  /^ *[$\u00A2-\u00A5\u20AC] *[.,]*\d[\d.,]* *$/,
  /^ *[.,]*\d[\d.,]* *[%$\u00A2-\u00A5\u20AC] *$/,
  // 1 000, 1 1/2
  /^ *\d{1,3}(?:[ '\u2019\u00A0\u202F]\d{3})+(?:[.,]\d+)? *$/,
  /^ *\d+ +\d+ *\/ *\d+ *$/,
];

/** MAR1, 1-Mar, 1 Mar 2026: digits before an English month, after it, or both. */
const dated =
  /^ *(\d{0,4})[ ,./-]*([a-z]{3,9})[ ,./-]*(\d{0,4})(?:[ ,./-]+\d{1,4})?(?: +\d{1,2}:[\d:., ]*(?:[ap]m?)?)? *$/i;
const months = 'january february march april may june july august september october november december';

/** What `reportRows` writes, and a spreadsheet is to read as that very time. */
const timeOfRow = /^\d{4}-\d\d-\d\d \d\d:\d\d(:\d\d)?$/;

/** A code of several sizes: one that is no date, `18/16/>=11` or `>28/20/15`, is guarded as 10/9/7 in its column is. */
const code = /^(?:(?:[<>]=?)?\d{1,2}|[*-])(?:\/(?:(?:[<>]=?)?\d{1,2}|[*-]))+$/;

/** Whether a spreadsheet would make a date, a time or another number of the text; 7, which stays 7, is let be. */
function isMisread(text: string): boolean {
  if (code.test(text)) return true;
  if (timeOfRow.test(text) || !/\d/.test(text)) return false;
  // of all forms only digits come that long
  if (text.length > 100) return /^[ \d.,]+$/.test(text);
  for (const form of misread) if (form.test(text)) return true;
  const parts = dated.exec(text);
  return parts !== null && isMonth(parts[2] as string);
}

/** A month in full, or its first three letters; `sept` too. */
function isMonth(word: string): boolean {
  const name = word.toLowerCase();
  return months.split(' ').some((month) => name === month || name === month.slice(0, 3)) || name === 'sept';
}

/** Text as it goes into the file. */
export function guarded(text: string, guard: CheckedFormat['guard']): string {
  const touched = guard !== 'nothing' && (formula.test(text) || (guard === 'formulas and dates' && isMisread(text)));
  return touched ? `'${text}` : text;
}

/** Text as it was before `guarded`. An apostrophe that guards nothing stays. */
export function unguarded(text: string, guard: CheckedFormat['guard']): string {
  if (guard === 'nothing' || text.charAt(0) !== "'") return text;
  const rest = text.slice(1);
  return formula.test(rest) || isMisread(rest) ? rest : text;
}

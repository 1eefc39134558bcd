/** Codes in pasted text: a line of a laboratory report, a note, a mail. */
import { requireFilledArray, requireText } from '../../checks.ts';
import { mostTold, motescaleError, noteLost, noteProblem, type Problem, requireTold } from '../../errors.ts';
import { requireTable } from '../requireTable.ts';
import { iso4406, iso4406Microscope } from '../tables/iso4406.ts';
import type { ClassTable, Code } from '../types.ts';
import { parseGiven } from './givenCode.ts';
import { plainSigns } from './parseCode.ts';

/** A code found in a text. */
export interface FoundCode {
  /** The id of its table. */
  readonly table: string;
  /** As it stands in the text. */
  readonly text: string;
  readonly code: Code;
  /** Where it starts in the text, from 0. */
  readonly position: number;
}

/** A scale number or a sign for one. Small engines take few classes of characters in one expression. */
const place = '(?:> ?=? ?\\d\\d?|≥ ?\\d\\d?|\\d\\d?|\\*|-)';
/** What a code may not touch: it would be part of a longer number, a word, or a path. */
const joined = /[\w./]/;
const longestText = 100000;

/**
 * All codes of scale numbers in a text, in order: `ISO 4406: 18/16/13`, `-/16/13`, `>=7`, with blanks around the
 * slashes, wrapped to the next line at a slash, with an en dash for a size not counted, or with the slashes and digits
 * of other keyboards (`⁄`, `∕`, `１８／１６／１３`). A comma beside a code parts it from its neighbour, as in a row of CSV.
 * An arrow (`->`, `=>`) parts two codes. `>20`, a number beyond the counter's own range, is read as `*`, and told.
 * Nothing is guessed: numbers joined by other signs (`18-16-13`) are no code, nor is what touches a letter, a digit or
 * a point (`31/12/2026`), or what a decimal comma makes of a number (`18,5/16/13`). What stands alone and is shaped
 * like a code, but is none (`35/16/13`, `18/16/13/10`, `-/-/-`), is left out and told: **it may be the dirtier one of
 * two.**
 *
 * A text that reads as a code of several tables is given to the first. A fraction (`1/2`) and a date without its year
 * (`12/10`) read as two-part codes: name `[iso4406]` alone where the text has such. A date with two digits for its year
 * (`18/11/26`) reads as a three-part code.
 *
 * @param text up to 100,000 characters
 * @param tables tables whose results are scale numbers; `iso4406` and `iso4406Microscope` where left out
 * @param told gets an entry for each of the first 100 pieces left out or read as another: `path` is where it starts
 * @throws `wrong_type`, `empty`, `out_of_range`; `wrong_table` for a table that writes its results another way.
 *
 * @example
 * ```ts
 * import { findCodes, iso4406, type Problem } from 'motescale/codes';
 * const found = findCodes('Lock 3, ISO 4406: 18 / 16 / 13 (target 17/15/12)');
 * found.map(({ code }) => code.text); // => ['18/16/13', '17/15/12']
 * found[0]?.text; // => '18 / 16 / 13'
 * found[0]?.position; // => 18
 * const told: Problem[] = [];
 * const dirty = findCodes('was 35/19/16, is 20/18/>15 -> 18/16/13', [iso4406], told);
 * dirty.map(({ code }) => code.text); // => ['20/18/*', '18/16/13']
 * told.map(({ received, expected }) => `${received}: ${expected}`);
 * // => ["'35/19/16': left out: a code of these tables", "'20/18/>15': read as 20/18/*"]
 * ```
 */
export function findCodes(
  text: string,
  tables: readonly ClassTable[] = [iso4406, iso4406Microscope],
  told: Problem[] = [],
): FoundCode[] {
  if (requireText(text, 'text').length > longestText)
    throw motescaleError('out_of_range', 'text', text, `a text of at most ${longestText} characters`);
  requireFilledArray(tables, 'tables', 'an array of class tables');
  for (let i = 0; i < tables.length; i += 1) requireScaled(tables[i] as ClassTable, `tables[${i}]`);
  requireTold(told);
  const found: FoundCode[] = [];
  let toldOnes = 0;
  const plain = plainSigns(text)
    .replace(/[\r\n]/g, ' ')
    .replace(/[-=]>/g, '  ');
  const pattern = new RegExp(`${place}(?: ? ? ?/ ? ? ?${place})+`, 'g');
  for (let match = pattern.exec(plain); match !== null; match = pattern.exec(plain)) {
    const position = match.index;
    const after = position + match[0].length;
    if (follows(plain, position) || continues(plain, after)) continue;
    const read = readWith(tables, match[0]);
    const piece = text.slice(position, after);
    const isOther = read === null || read.text.split('*').length > match[0].split('*').length;
    toldOnes += Number(isOther);
    if (isOther && toldOnes <= mostTold) {
      if (read === null) noteLost(told, [position], 'bad_code', piece, 'a code of these tables');
      else noteProblem(told, [position], 'bad_code', piece, `read as ${read.text}`);
    }
    if (read === null) continue;
    const last = found[found.length - 1];
    const before = plain.slice(Math.max(0, position - near), position + 1);
    if (/(^|\W)\d+,\d$/.test(before) && rises(read)) {
      // what stood before the comma is the rest of the number
      if (last !== undefined && last.position + last.text.length === position - 1) found.pop();
    } else found.push({ table: read.table, text: piece, code: read, position });
  }
  return found;
}

/** So many signs around a code are looked at for more of it. */
const near = 40;

/** Whether it is the rest of something. A slash may stand a few blanks away, at the end of the line before. */
function follows(plain: string, at: number): boolean {
  const before = plain.slice(Math.max(0, at - near), at);
  return joined.test(before.charAt(before.length - 1)) || /[\d*-] *\/ *$/.test(before);
}

/** A full stop ends a sentence, unless a digit follows. */
function continues(plain: string, at: number): boolean {
  const next = plain.charAt(at);
  if (next === '.') return /\d/.test(plain.charAt(at + 1));
  return joined.test(next) || /^ *\/ *[\d*>≥-]/.test(plain.slice(at, at + near));
}

/** Whether the first number is below the second, which no sample has. */
function rises({ parts }: Code): boolean {
  const numbers = parts.map(({ class: named }) => Number(named === null ? Number.NaN : named.replace('>', '')));
  const [first, second] = numbers.filter((number) => number === number);
  return first !== undefined && second !== undefined && first < second;
}

function readWith(tables: readonly ClassTable[], piece: string): Code | null {
  const spaced = piece.replace(/> =/g, '>=');
  for (const table of tables) {
    try {
      const code = parseGiven(table, spaced);
      // of `*` alone it is not known whether it is one
      if (/\d/.test(piece)) return code;
    } catch (_error) {
      // no code of this table; the next may read it
    }
  }
  return null;
}

function requireScaled(table: ClassTable, parameter: string): void {
  requireTable(table, parameter);
  if (table.notation === 'scale_numbers' || table.notation === 'scale_numbers_after_dash') return;
  const expected = 'a table of scale numbers: a bare class cannot be told in a text';
  throw motescaleError('wrong_table', parameter, table.id, expected);
}

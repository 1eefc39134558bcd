/** The separator of a CSV file, where it is another than the one given. */
import type { MotescaleError } from '../../errors.ts';
import { badCsv, type Field, type Line } from './csvLines.ts';

/** `sep=;`, by which spreadsheets tell the separator: how long the line is. It is no header. */
export function separatorLine(text: string, at: number, separator: string): number {
  const found = /^sep=([,;\t])(?:\r\n|\r|\n|$)/i.exec(text.slice(at, at + 8));
  if (found === null) return 0;
  if (found[1] !== separator) throw badCsv(text, at, 'the separator of the format');
  return found[0].length;
}

/** The other separator that a header of one cell has, in quotes, where the line has more cells; else nothing. */
export function otherSeparator(head: Line, line: Line): string {
  const first = head.fields[0] as Field;
  if (head.fields.length > 1 || first.quoted || line.fields.length === 1) return '';
  const other = [';', '\t', ','].filter((one) => first.text.indexOf(one) >= 0)[0];
  return other === undefined ? '' : inQuotes(other);
}

/** A sign that the header has outside quotes, and how often: the separator may be that one. */
export interface Suspect {
  readonly sign: string;
  readonly count: number;
}

/** A comma that is the decimal sign, or stands in one of several heads, is no suspect. */
export function suspectsIn(head: Line, decimal: string | undefined): readonly Suspect[] {
  const signs = head.fields.length === 1 ? [';', '\t', ','] : [';', '\t'];
  return signs
    .filter((sign) => sign !== decimal)
    .map((sign) => ({ sign, count: countIn(head, sign) }))
    .filter(({ count }) => count > 0);
}

/**
 * The suspects that a line with as many cells as the header leaves: of a header of several cells those that the line
 * has as often. A line of one cell that has the sign of such a header refuses the file.
 */
export function suspectsLeft(text: string, head: Line, line: Line, suspects: readonly Suspect[]): readonly Suspect[] {
  if (suspects.length === 0) return suspects;
  if (head.fields.length > 1) return suspects.filter(({ sign, count }) => countIn(line, sign) === count);
  const found = suspects.filter(({ sign }) => countIn(line, sign) > 0);
  if (found.length > 0) throw separatorAsked(text, head, found);
  return suspects;
}

export function separatorAsked(text: string, head: Line, suspects: readonly Suspect[]): MotescaleError {
  const { sign } = suspects[0] as Suspect;
  return badCsv(text, head.start, `the option separator: header and lines have ${inQuotes(sign)}`);
}

function countIn({ fields }: Line, sign: string): number {
  let count = 0;
  for (const { text, quoted } of fields) if (!quoted) count += text.split(sign).length - 1;
  return count;
}

function inQuotes(sign: string): string {
  return `'${sign === '\t' ? '\\t' : sign}'`;
}

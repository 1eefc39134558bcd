/** How a CSV file is written: RFC 4180, and the ways spreadsheets depart from it. */
import { requireBoolean, requireObject, requireOneOf } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { largestWhole } from '../../rules/bounds.ts';

/** What a cell holds; null is an empty cell. */
export type Cell = string | number | null;

/** A table: one name for each column, and rows as long as the header. */
export interface CsvTable {
  readonly header: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  /** Where each row began, by the lines of the file from 1; only of a file read with `keepReadable`. */
  readonly lines?: readonly number[];
  /** How many lines were left out; likewise. */
  readonly leftOut?: number;
}

/** The members of a table. */
export const tableMembers: readonly string[] = ['header', 'rows', 'lines', 'leftOut'];

/** How to write a CSV file, or how one was written. */
export interface CsvFormat {
  /**
   * Between cells: `','`, `';'` or `'\t'`. A comma where left out; spreadsheets set to a decimal comma want
   * a semicolon.
   */
  readonly separator?: string;
  /** In numbers: `'.'` or `','`. A point where left out. */
  readonly decimal?: string;
  /**
   * Starts the file with a byte-order mark, by which spreadsheets know UTF-8 and so `µ`. Left out, there is none; a
   * reader skips it anyway.
   */
  readonly byteOrderMark?: boolean;
  /** Ends each line. CRLF where left out, as RFC 4180 has it; a reader takes either. */
  readonly lineEnd?: '\r\n' | '\n';
  /** What to keep a spreadsheet from reading its own way, see `toCsv`. `formulas and dates` where left out. */
  readonly guard?: 'formulas' | 'formulas and dates' | 'nothing';
}

/**
 * The format that spreadsheets set to a decimal comma open by a double click: semicolons, decimal comma, byte-order
 * mark.
 */
export const decimalCommaFormat: CsvFormat = { separator: ';', decimal: ',', byteOrderMark: true };

/** Of writing and of reading: what was written by a format is read by the same. */
const members = ['separator', 'decimal', 'byteOrderMark', 'lineEnd', 'guard', 'cells', 'quotedNumbers', 'keepReadable'];

const guards = ['formulas', 'formulas and dates', 'nothing'] as const;

/** A format with nothing left out. */
export interface CheckedFormat extends Required<CsvFormat> {
  readonly separator: ',' | ';' | '\t';
  readonly decimal: '.' | ',';
}

/** Checks a format and returns it with nothing left out. */
export function checkFormat(format: CsvFormat): CheckedFormat {
  requireObject(format, 'format', 'a format such as { separator, decimal }', members);
  const separator = requireOneOf(format.separator ?? ',', 'format.separator', [',', ';', '\t']);
  const decimal = requireOneOf(format.decimal ?? '.', 'format.decimal', ['.', ',']);
  if (separator === decimal) {
    throw motescaleError('bad_configuration', 'format.decimal', decimal, 'another character than the separator');
  }
  const byteOrderMark = requireBoolean(format.byteOrderMark ?? false, 'format.byteOrderMark');
  const lineEnd = requireOneOf(format.lineEnd ?? '\r\n', 'format.lineEnd', ['\r\n', '\n']);
  const guard = requireOneOf(format.guard ?? 'formulas and dates', 'format.guard', guards);
  return { separator, decimal, byteOrderMark, lineEnd, guard };
}

/** Without the blanks around it: those that stand around numbers, or between thousands. */
export function withoutBlanks(text: string): string {
  let from = 0;
  let to = text.length;
  while (from < to && blanks.indexOf(text.charAt(from)) >= 0) from += 1;
  while (to > from && blanks.indexOf(text.charAt(to - 1)) >= 0) to -= 1;
  return text.slice(from, to);
}

const blanks = ' \t\u00A0\u202F';

/** With the signs of a number as a program writes them: a true minus is `-`, and a plus goes without saying. */
export function plainSign(text: string): string {
  return text.replace(/^\+(?=\d)/, '').replace(/^\u2212(?=\d)/, '-');
}

/** The number that an unquoted cell stands for; null of text, as `007` and whole numbers too long for a double. */
export function numberIn(text: string, decimal: '.' | ','): number | null {
  const form = decimal === '.' ? pointNumber : commaNumber;
  if (!form.test(text)) return null;
  const number = Number(decimal === '.' ? text : text.replace(',', '.'));
  const losesDigits = Math.abs(number) > largestWhole && /^-?\d+$/.test(text) && String(number) !== text;
  return isFinite(number) && !losesDigits ? number : null;
}

const pointNumber = /^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/;
const commaNumber = /^-?(0|[1-9]\d*)(,\d+)?([eE][+-]?\d+)?$/;

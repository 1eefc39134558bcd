/** The text of a CSV file as a table. */
import { requireBoolean, requireOneOf } from '../checks.ts';
import {
  errorAt,
  type MotescaleError,
  mostTold,
  motescaleError,
  noteProblem,
  type Problem,
  requireTold,
} from '../errors.ts';
import { isGrouped } from '../numeric/grouped.ts';
import { type Cell, type CsvFormat, type CsvTable, checkFormat, numberIn } from './csvFormat.ts';
import { unguarded } from './spreadsheetGuard.ts';

/** How a CSV file was written, and what its cells should become. */
export interface CsvReading extends CsvFormat {
  /**
   * `typed`, where left out: an unquoted number becomes a number, an empty unquoted cell null. `text`: all cells stay
   * text, as in RFC 4180, which knows nothing else.
   */
  readonly cells?: 'typed' | 'text';
  /**
   * Whether a line with more or fewer cells than the header, or a blank one, is left out and told, and the others kept.
   * False where left out: one such line refuses the file.
   */
  readonly keepReadable?: boolean;
}

/**
 * Reads CSV to RFC 4180: the first line is the header, every line has as many cells, quotes stand around whole cells
 * and are doubled within. Lines may end with CRLF, LF or CR; a byte-order mark is skipped; blank lines at the end are
 * left out where there are two columns or more.
 *
 * It undoes `toCsv` with the same format exactly. For whole columns as `Float64Array`, hand the table to `csvColumns`.
 * Apostrophes that `toCsv` puts before formulas, dates and the like are taken off, unless `guard` is `nothing`. It
 * guesses nothing: separator and decimal sign are as given, a cell such as `007` or a whole number too long for a
 * double stays text. A column such as `12.000`, `4.500` between semicolons or tabs may be thousands or decimals: it is
 * refused until `decimal` is given. A first line `sep=;` is taken off. Source: RFC 4180, section 2.
 *
 * @param told with `keepReadable`, gets an entry for each of the first 100 lines left out: `path` is its line, and
 * `received` how it begins; `leftOut` of the table counts them all, `lines` says where each row began
 * @throws `bad_csv`, with `line` and `position` in the text, and what stands there as `received`: no header, a quote
 * within an unquoted cell, text after a closing quote, a quote never closed, a line with more or fewer cells than the
 * header, points that may stand between thousands, a line `sep=` of another separator. Where the header is one cell
 * with another separator in it, the text says so, and `keepReadable` is no help. `wrong_type` unless given text.
 *
 * @example
 * ```ts
 * import { type Problem, parseCsv } from 'motescale/report';
 * parseCsv('unit;perMl\ngate 3;12,5\n', { separator: ';', decimal: ',' }).rows; // => [['gate 3', 12.5]]
 * parseCsv('code,perMl\n"18/16/13",', { cells: 'text' }).rows; // => [['18/16/13', '']]
 * const told: Problem[] = [];
 * parseCsv('time,4,6\n1,1890,402\n2,18\n3,1700,380\n', { keepReadable: true }, told);
 * // => { header: ['time', '4', '6'], rows: [[1, 1890, 402], [3, 1700, 380]], lines: [2, 4], leftOut: 1 }
 * told.map(({ path, received }) => `line ${path[0]}: ${received}`); // => ["line 3: '2,18'"]
 * ```
 */
export function parseCsv(text: string, format: CsvReading = {}, told: Problem[] = []): CsvTable {
  if (typeof text !== 'string') throw motescaleError('wrong_type', 'text', text, 'the text of a CSV file');
  const style = checkFormat(format);
  const typed = requireOneOf(format.cells ?? 'typed', 'format.cells', ['typed', 'text']) === 'typed';
  const keeps = requireBoolean(format.keepReadable ?? false, 'format.keepReadable');
  requireTold(told);
  let at = text.charAt(0) === '\uFEFF' ? 1 : 0;
  at += separatorLine(text, at, style.separator);
  if (at === text.length) throw badCsv(text, 0, 'a header line');
  const head = lineAt(text, at, style.separator);
  at = head.next;
  const columns = head.fields.length;
  const rows: Cell[][] = [];
  const doubts = typed && format.decimal === undefined && style.separator !== ',' ? ([] as Doubt[]) : null;
  let blanks: Line[] = [];
  const lines: number[] = [];
  const lineOf = lineCounter(text);
  let leftOut = 0;
  const leave = ({ fields, start }: Line) => {
    leftOut += 1;
    if (leftOut > mostTold) return;
    const came = text.slice(start, start + longestTold).split(/[\r\n]/)[0];
    noteProblem(told, [lineOf(start)], 'bad_csv', came, `left out: ${cellsWanted(columns, fields.length)}`);
  };
  while (at < text.length) {
    const line = lineAt(text, at, style.separator);
    at = line.next;
    if (columns > 1 && isBlank(line)) {
      blanks.push(line);
      continue;
    }
    // a blank line is left out without a word only where none but blank ones follow
    const other = otherSeparator(head, line, style.separator);
    if (!keeps || other !== '') requireCells(text, blanks[0] ?? line, columns, other);
    blanks.forEach(leave);
    blanks = [];
    if (line.fields.length !== columns) {
      leave(line);
      continue;
    }
    if (keeps) lines.push(lineOf(line.start));
    for (let i = 0; doubts !== null && i < columns; i += 1) noteDoubt(doubts, i, line.fields[i] as Field);
    rows.push(line.fields.map((field) => cellOf(field, style, typed)));
  }
  (doubts ?? []).forEach(({ at: place, all, rounded }) => {
    if (all && rounded) throw badCsv(text, place, 'the option decimal: these points may stand between thousands');
  });
  const header = head.fields.map((field) => unguarded(field.text, style.guard));
  return keeps ? { header, rows, lines, leftOut } : { header, rows };
}

/** Of a line that is told. */
const longestTold = 200;

/** The line at a position, counted as an editor counts, from 1; asked of positions in order. */
function lineCounter(text: string): (at: number) => number {
  let line = 1;
  let before = 0;
  return (at) => {
    line += text.slice(before, at).split(/\r\n|[\r\n]/).length - 1;
    before = at;
    return line;
  };
}

/** The other separator that a header of one cell has, where the line has more or fewer cells; else nothing. */
function otherSeparator(head: Line, line: Line, separator: string): string {
  const first = head.fields[0] as Field;
  if (head.fields.length > 1 || first.quoted || line.fields.length === 1) return '';
  const other = [';', '\t', ','].filter((one) => one !== separator && first.text.indexOf(one) >= 0)[0];
  return other === undefined ? '' : `; the header has '${other === '\t' ? '\\t' : other}'`;
}

function cellsWanted(columns: number, came: number): string {
  return `as many cells as in the header: ${columns}, and not ${came}`;
}

/** `sep=;`, by which spreadsheets tell the separator: how long the line is. It is no header. */
function separatorLine(text: string, at: number, separator: string): number {
  const found = /^sep=([,;\t])(?:\r\n|\r|\n|$)/i.exec(text.slice(at, at + 8));
  if (found === null) return 0;
  if (found[1] !== separator) throw badCsv(text, at, 'the separator of the format');
  return found[0].length;
}

/**
 * A column in which each number could have points between thousands, `12.000`. No number is written so by `toCsv`: it
 * writes no zero at the end of decimals.
 */
interface Doubt {
  /** Position of its first cell that is filled. */
  readonly at: number;
  all: boolean;
  rounded: boolean;
}

function noteDoubt(doubts: Doubt[], column: number, { text, quoted, end }: Field): void {
  if (text === '' && !quoted) return;
  const doubt = doubts[column] ?? { at: end - text.length, all: true, rounded: false };
  doubts[column] = doubt;
  if (quoted || !isGrouped(text)) doubt.all = false;
  else if (/0$/.test(text)) doubt.rounded = true;
}

function requireCells(text: string, { fields, start }: Line, columns: number, other: string): void {
  if (fields.length === columns) return;
  throw badCsv(text, start, `${cellsWanted(columns, fields.length)}${other}`);
}

/** What came is the text from the trouble to the end of its line. Lines count as an editor counts them, from 1. */
function badCsv(text: string, at: number, expected: string): MotescaleError {
  const came = text.slice(at).split(/[\r\n]/)[0];
  const line = text.slice(0, at).split(/\r\n|[\r\n]/).length;
  const error = errorAt(at, 'bad_csv', 'text', came, expected);
  error.message = `text, line ${line}: received ${error.received}, expected ${expected}`;
  (error as { line?: number }).line = line;
  return error;
}

interface Field {
  readonly text: string;
  readonly quoted: boolean;
  /** Position behind the field. */
  readonly end: number;
}

interface Line {
  readonly fields: readonly Field[];
  readonly start: number;
  /** Where the next line starts. */
  readonly next: number;
}

function lineAt(text: string, start: number, separator: string): Line {
  const fields: Field[] = [];
  let at = start;
  for (;;) {
    const field = text.charAt(at) === '"' ? quotedField(text, at) : bareField(text, at, separator);
    fields.push(field);
    at = field.end;
    if (at >= text.length || text.charAt(at) !== separator) break;
    at += 1;
  }
  if (at < text.length && !isLineEnd(text.charAt(at))) {
    throw badCsv(text, at, 'a separator or the end of the line');
  }
  return { fields, start, next: at + (text.charAt(at) === '\r' && text.charAt(at + 1) === '\n' ? 2 : 1) };
}

function bareField(text: string, from: number, separator: string): Field {
  let end = from;
  while (end < text.length) {
    const character = text.charAt(end);
    if (character === separator || isLineEnd(character)) break;
    if (character === '"') {
      throw badCsv(text, end, 'quotes only around a whole cell, doubled within');
    }
    end += 1;
  }
  return { text: text.slice(from, end), quoted: false, end };
}

function quotedField(text: string, from: number): Field {
  let content = '';
  let part = from + 1;
  for (;;) {
    const close = text.indexOf('"', part);
    if (close < 0) throw badCsv(text, from, 'a closing quote');
    content += text.slice(part, close);
    if (text.charAt(close + 1) !== '"') return { text: content, quoted: true, end: close + 1 };
    content += '"';
    part = close + 2;
  }
}

function cellOf(field: Field, style: Required<CsvFormat>, typed: boolean): Cell {
  if (typed && !field.quoted) {
    if (field.text === '') return null;
    const number = numberIn(field.text, style.decimal);
    if (number !== null) return number;
  }
  return unguarded(field.text, style.guard);
}

function isBlank({ fields }: Line): boolean {
  const first = fields[0] as Field;
  return fields.length === 1 && first.text === '' && !first.quoted;
}

function isLineEnd(character: string): boolean {
  return character === '\n' || character === '\r';
}

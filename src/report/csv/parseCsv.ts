/** The text of a CSV file as a table. */
import { requireBoolean, requireOneOf, requireText } from '../../checks.ts';
import { mostTold, noteLost, noteProblem, type Problem, requireTold } from '../../errors.ts';
import { type Cell, type CheckedFormat, type CsvFormat, type CsvTable, checkFormat, numberIn } from './csvFormat.ts';
import {
  badCsv,
  bareText,
  type Field,
  isBlank,
  type Line,
  lineCounter,
  nextLine,
  readLine,
  restOfLine,
  type Trouble,
} from './csvLines.ts';
import { otherSeparator, separatorAsked, separatorLine, suspectsIn, suspectsLeft } from './csvSeparator.ts';
import { type Doubts, doubtAt, noteDoubt, type Thousands, thousandsIn, withoutMixed } from './csvThousands.ts';
import { unguarded } from './spreadsheetGuard.ts';

/** How a CSV file was written, and what its cells should become. */
export interface CsvReading extends CsvFormat {
  /**
   * `typed`, where left out: an unquoted number becomes a number, also with blanks around it, a plus or a true minus
   * (U+2212) before it; an unquoted cell that is empty or holds blanks alone null. `text`: all cells stay text with
   * their blanks, as in RFC 4180, which knows no other.
   */
  readonly cells?: 'typed' | 'text';
  /** Whether cells in quotes are numbers or empty as others are, of a file that quotes each cell. False if left out. */
  readonly quotedNumbers?: boolean;
  /**
   * Whether a line with more or fewer cells than the header, with a stray quote, or a blank one, is left out and told,
   * and the others kept. False where left out: one such line refuses the file.
   */
  readonly keepReadable?: boolean;
}

/**
 * Reads CSV to RFC 4180: the first line is the header, every line has as many cells, quotes stand around whole cells
 * and are doubled within. Lines may end with CRLF, LF or CR; a byte-order mark is skipped; blank lines at the end are
 * left out where there are two columns or more. A first line `sep=;` is taken off. A title above the header is not: cut
 * it off, `text.slice(text.indexOf('\n') + 1)`.
 *
 * It undoes `toCsv` with the same format exactly. For whole columns as `Float64Array`, hand the table to `csvColumns`.
 * Apostrophes that `toCsv` puts before formulas, dates and the like are taken off, unless `guard` is `nothing`. It
 * guesses nothing: separator and decimal sign are as given, a cell such as `007`, one in quotes (but for
 * `quotedNumbers`) or a whole number too long for a double stays text.
 *
 * **Thousands.** `12.885` between semicolons or tabs may be 12885 or 12.885. Until `decimal` is given, a file is
 * refused where a column has such cells and none whose point must stand before decimals (`1.5`, `0.125`), whatever else
 * is in it (`n.d.`, `<0.5`, `0`); and where a number of the file has a decimal comma. Between commas only such a number
 * refuses it, in quotes. Three decimals in every cell are right with `decimal: '.'`. Where `decimal` is given,
 * signs between thousands are read: `1.234,5` with `','`, `1,234.5` with `'.'` (between commas in quotes), spaces and
 * apostrophes with either. Where their column has `1.23` beside `1.234` and a decimal comma, both stay text. Source:
 * RFC 4180, section 2; of thousands, common practice.
 *
 * With `keepReadable` a quote within a cell, or one never closed, costs the line it stands in. One that another quote
 * far below closes may take the lines between with it, as text of its cell, where that makes as many cells as wanted.
 *
 * @param told with `keepReadable`, gets an entry for each of the first 100 lines left out: `line` is its number, and
 * `received` how it begins; `leftOut` of the table counts them all, `lines` says where each row began. With and
 * without, gets one for the first U+FFFD, which stands for signs that were lost: a file of Windows was read as UTF-8
 * @throws `bad_csv`, with `line` and `position` in the text, and what stands there as `received`: no header, a quote
 * within an unquoted cell, text after a closing quote, a quote never closed, a line with more or fewer cells than the
 * header, a header that was read as UTF-8 and is UTF-16, points that may stand between thousands, a line `sep=` of
 * another separator. Where the header is one cell with another separator in it, the text says so, also where a line
 * below is one cell with the same one; so it does where every line has as many other semicolons or tabs as the header
 * (`cells: 'text'` takes both). There `keepReadable` is no help, nor where it would keep no line, or the header is one
 * cell and most lines have more, as below a title. `wrong_type` unless given text.
 *
 * @example
 * ```ts
 * import { type Problem, parseCsv } from 'motescale/report';
 * parseCsv('unit;perMl\ngate 3;12,5\n', { separator: ';', decimal: ',' }).rows; // => [['gate 3', 12.5]]
 * parseCsv('time;4\n1;12.885\n2;n.d.\n', { separator: ';', decimal: ',' }).rows; // => [[1, 12885], [2, 'n.d.']]
 * parseCsv('code,perMl\n"18/16/13",', { cells: 'text' }).rows; // => [['18/16/13', '']]
 * const told: Problem[] = [];
 * parseCsv('time,4,6\n1,1890,402\n2,18\n3,1700,380\n', { keepReadable: true }, told);
 * // => { header: ['time', '4', '6'], rows: [[1, 1890, 402], [3, 1700, 380]], lines: [2, 4], leftOut: 1 }
 * told.map(({ line, received }) => `line ${line}: ${received}`); // => ["line 3: '2,18'"]
 * ```
 */
export function parseCsv(text: string, format: CsvReading = {}, told: Problem[] = []): CsvTable {
  requireText(text, 'text', 'the text of a CSV file');
  const style = checkFormat(format);
  const typed = requireOneOf(format.cells ?? 'typed', 'format.cells', ['typed', 'text']) === 'typed';
  const unquotes = requireBoolean(format.quotedNumbers ?? false, 'format.quotedNumbers');
  const keeps = requireBoolean(format.keepReadable ?? false, 'format.keepReadable');
  requireTold(told);
  let at = text.charAt(0) === '\uFEFF' ? 1 : 0;
  at += separatorLine(text, at, style.separator);
  if (at === text.length) throw badCsv(text, 0, 'a header line');
  const head = readLine(text, at, style.separator);
  if ('expected' in head) throw badCsv(text, head.at, head.expected);
  if (head.fields.some((field) => !field.quoted && field.text.indexOf('\0') >= 0))
    throw badCsv(text, at, 'text that was read in its encoding: this looks like UTF-16');
  noteLostSigns(text, told);
  at = head.next;
  const columns = head.fields.length;
  const rows: Cell[][] = [];
  const doubts: Doubts | null = typed && format.decimal === undefined ? { comma: false, columns: [] } : null;
  const thousands: Thousands | null = typed && doubts === null ? { cells: [], otherwise: [] } : null;
  let suspects = typed ? suspectsIn(head, format.decimal) : [];
  let blanks: Line[] = [];
  const lines: number[] = [];
  const lineOf = lineCounter(text);
  let leftOut = 0;
  const firstLeftOut: Line[] = [];
  const firstTold: Trouble[] = [];
  const tell = (start: number, expected: string) => {
    if (leftOut === 0) firstTold.push({ at: start, expected });
    leftOut += 1;
    if (leftOut > mostTold) return;
    const came = restOfLine(text, start, start + longestTold);
    noteLost(told, [], 'bad_csv', came, expected, { line: lineOf(start) });
  };
  const leave = (line: Line) => {
    if (firstLeftOut.length === 0) firstLeftOut.push(line);
    tell(line.start, cellsWanted(columns, line));
  };
  while (at < text.length) {
    const line = readLine(text, at, style.separator);
    if ('expected' in line) {
      if (!keeps) throw badCsv(text, line.at, line.expected);
      blanks.forEach(leave);
      blanks = [];
      tell(at, line.expected);
      at = nextLine(text, at);
      continue;
    }
    // a quote that another one far below seems to close costs its own line, not all between
    at = keeps && line.fields.length !== columns ? nextLine(text, at) : line.next;
    if (columns > 1 && isBlank(line)) {
      blanks.push(line);
      continue;
    }
    const other = otherSeparator(head, line);
    // a blank line is left out without a word only where none but blank ones follow
    if (!keeps || other !== '') requireCells(text, blanks[0] ?? line, columns, other);
    blanks.forEach(leave);
    blanks = [];
    if (line.fields.length !== columns) {
      leave(line);
      continue;
    }
    suspects = suspectsLeft(text, head, line, suspects);
    if (keeps) lines.push(lineOf(line.start));
    const fields = unquotes ? line.fields.map(unquoted) : line.fields;
    for (let i = 0; doubts !== null && i < columns; i += 1) noteDoubt(doubts, i, fields[i] as Field, style.guard);
    const cells = fields.map((field, i) => {
      const cell = cellOf(field, style, typed);
      if (thousands === null || typeof cell !== 'string') return cell;
      return thousandsIn(thousands, [rows.length, i], field, style) ?? cell;
    });
    rows.push(cells);
  }
  if (columns > 1 && rows.length > 0 && suspects.length > 0) throw separatorAsked(text, head, suspects);
  const isTitled = columns === 1 && firstLeftOut.length > 0 && leftOut > rows.filter(([cell]) => cell !== null).length;
  if (isTitled) requireCells(text, firstLeftOut[0] as Line, columns, '');
  const [notKept] = firstTold;
  if (rows.length === 0 && notKept !== undefined) throw badCsv(text, notKept.at, notKept.expected);
  const doubted = doubts === null ? null : doubtAt(doubts, style.separator);
  if (doubted !== null)
    throw badCsv(text, doubted, "the option decimal, '.' or ',': these points may stand between thousands");
  if (thousands !== null) withoutMixed(rows, thousands);
  const header = head.fields.map((field) => unguarded(field.text, style.guard));
  return keeps ? { header, rows, lines, leftOut } : { header, rows };
}

/** Tells the first sign that stands for one that was lost in reading the file: of another encoding than it has. */
function noteLostSigns(text: string, told: Problem[]): void {
  const at = text.indexOf('\uFFFD');
  if (at < 0) return;
  const start = Math.max(text.lastIndexOf('\n', at), text.lastIndexOf('\r', at)) + 1;
  const came = restOfLine(text, start, at + longestTold);
  const expected = 'kept: text that was read in its encoding: U+FFFD stands for signs that were lost';
  noteProblem(told, [], 'bad_csv', came, expected, { line: lineCounter(text)(at) });
}

/** As if it stood without its quotes. */
function unquoted(field: Field): Field {
  return field.quoted ? { text: field.text, quoted: false, end: field.end - 1 } : field;
}

/** Of a line that is told. */
const longestTold = 200;

function cellsWanted(columns: number, line: Line): string {
  const cells = `as many cells as in the header: ${columns}`;
  if (isBlank(line)) return `${cells}, and no blank line`;
  const { length } = line.fields;
  const isEnded = columns > 1 && length === columns + 1 && bareText(line.fields[columns] as Field) === '';
  return `${cells}, and not ${length}${isEnded ? '; the line ends with a separator, the header does not' : ''}`;
}

function requireCells(text: string, line: Line, columns: number, other: string): void {
  if (line.fields.length === columns) return;
  const title = columns === 1 ? '; cut off a title above the header' : '';
  throw badCsv(text, line.start, `${cellsWanted(columns, line)}${other === '' ? title : `; the header has ${other}`}`);
}

function cellOf(field: Field, style: CheckedFormat, typed: boolean): Cell {
  if (typed && !field.quoted) {
    const bare = bareText(field);
    if (bare === '') return null;
    const number = numberIn(bare, style.decimal);
    if (number !== null) return number;
  }
  return unguarded(field.text, style.guard);
}

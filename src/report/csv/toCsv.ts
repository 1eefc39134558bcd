/** A table as the text of a CSV file. */
import { requireArray, requireFilledArray, requireFinite, requireObject, requireText } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import {
  type Cell,
  type CheckedFormat,
  type CsvFormat,
  type CsvTable,
  checkFormat,
  tableMembers,
  withoutBlanks,
} from './csvFormat.ts';
import { hasGroups, looksLikeNumber } from './csvThousands.ts';
import { guarded } from './spreadsheetGuard.ts';

/**
 * Writes a table as CSV to RFC 4180. `parseCsv` with the same format gives the same table back, text as text, numbers
 * to the last bit (a zero below zero as 0), and null apart from an empty text.
 *
 * Text that a spreadsheet would run as a formula is made harmless: an apostrophe goes before text that starts with `=`,
 * `+`, `-` or `@` (also after blanks, also in full width), with a tab, a line end, or an apostrophe. Numbers need none.
 * So the code `-/18/13` shows as `'-/18/13`. The same is done to text of which spreadsheets else make a date, a time or
 * another number: of the code 10/9/7 a day in September, of 10:9:7 a time, of MAR1 a day in March, of the class 00 a 0,
 * of 1E5 100000, of a number of 16 digits or more one that ends in zeros (`guard: 'formulas'` lets them be). Every code
 * `a/b/c` is guarded, 22/18/13 and 18/16/>=11 as well as 13/11/8, so that a column holds one kind; a time as
 * `reportRows` writes it, and a number such as 7, which stays 7, are not. `parseCsv` takes the apostrophe off; another
 * reader must, or be given `guard: 'nothing'`.
 *
 * Text is quoted where RFC 4180 asks for it, and where it holds another separator or looks like a number, also like
 * `1 234`. Between semicolons or tabs `12.885` may be taken for thousands: without `decimal` it is written `12.8850`,
 * where the point can only stand before decimals. Source: RFC 4180, section 2.
 *
 * @throws `empty` without columns; `length_mismatch` for a row of another length than the header; `wrong_type`,
 * `not_a_number`, `infinite` for a cell; `unknown_option`, `bad_configuration` (decimal equal to the separator) for the
 * format.
 *
 * @example
 * ```ts
 * import { decimalCommaFormat, toCsv } from 'motescale/report';
 * const table = { header: ['unit', 'perMl', 'note'], rows: [['gate 3', 12.5, '=1+1'], ['gate 4', 7, null]] };
 * toCsv(table); // => "unit,perMl,note\r\ngate 3,12.5,'=1+1\r\ngate 4,7,\r\n"
 * toCsv(table, decimalCommaFormat); // => "\uFEFFunit;perMl;note\r\ngate 3;12,5;'=1+1\r\ngate 4;7;\r\n"
 * ```
 */
export function toCsv(table: CsvTable, format: CsvFormat = {}): string {
  const checked = checkFormat(format);
  const style = { ...checked, signOpen: format.decimal === undefined && checked.separator !== ',' };
  requireObject(table, 'table', 'a table { header, rows }', tableMembers);
  const { length } = requireFilledArray(table.header, 'table.header', 'an array of column names');
  requireArray(table.rows, 'table.rows', 'an array of rows');
  const lines = [
    line(
      table.header.map((name, i) => requireText(name, `table.header[${i}]`, cellExpected)),
      'table.header',
      style,
    ),
  ];
  table.rows.forEach((row, i) => {
    const parameter = `table.rows[${i}]`;
    requireArray(row, parameter, 'an array of cells');
    if (row.length !== length) {
      throw motescaleError('length_mismatch', parameter, row, `an array of ${length}, one cell for each column`);
    }
    lines.push(line(row, parameter, style));
  });
  return (style.byteOrderMark ? '\uFEFF' : '') + lines.join(style.lineEnd) + style.lineEnd;
}

/** A format, and whether a reader of the same one doubts points with three digits behind them. */
type Style = CheckedFormat & { readonly signOpen: boolean };

function line(cells: readonly Cell[], parameter: string, style: Style): string {
  return cells.map((cell, i) => written(cell, `${parameter}[${i}]`, style)).join(style.separator);
}

const cellExpected = 'text, a finite number, or null';

function written(cell: Cell, parameter: string, style: Style): string {
  if (cell === null) return '';
  if (typeof cell === 'number') {
    const digits = String(requireFinite(cell, parameter, cellExpected));
    if (style.signOpen && hasGroups(digits)) return `${digits}0`;
    return style.decimal === ',' ? digits.replace('.', ',') : digits;
  }
  const text = guarded(requireText(cell, parameter, cellExpected), style.guard);
  const bare = withoutBlanks(text);
  const quoted =
    bare === '' ||
    text.indexOf('\0') >= 0 ||
    /[",;\t\r\n\uFEFF]|^ | $/.test(text) ||
    looksLikeNumber(bare, style.decimal);
  return quoted ? `"${text.replace(/"/g, '""')}"` : text;
}

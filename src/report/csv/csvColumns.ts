/** A table column by column, for what works on whole columns. */
import {
  isFiniteNumber,
  requireArray,
  requireBoolean,
  requireFilledArray,
  requireMembers,
  requireObject,
  requireText,
} from '../../checks.ts';
import { mostTold, motescaleError, noteLost, type Problem, requireTold } from '../../errors.ts';
import { type Cell, type CsvTable, tableMembers, withoutBlanks } from './csvFormat.ts';
import { hasDecimals } from './csvThousands.ts';

/** A column by its head: of numbers alone, NaN where a cell is empty; or its cells as they are. */
export interface CsvColumn {
  readonly head: string;
  /** Null where a cell is a text, or all are empty; with `keepReadable` where none is a number. */
  readonly numbers: Float64Array | null;
  readonly cells: readonly Cell[];
  /** How many cells are texts; only with `keepReadable`. Where `numbers` is null and this is 0, all are empty. */
  readonly leftOut?: number;
}

/**
 * The columns of a table that `parseCsv` has read. One whose cells are numbers or empty has them as a `Float64Array`
 * too, with NaN as not known: so `classifyColumns` and `scaleNumbers` take it.
 *
 * @param table of `parseCsv`; its heads differ from each other, also without blanks around them
 * @param told with `keepReadable`, gets an entry for each of the first 100 texts that became NaN: `line`, the head
 * as `column`, and `received` the text; `leftOut` of a column counts them all. A column of texts without one number,
 * as of times or remarks, has one entry, of its first text, which says how many there are. Lines are those of
 * `parseCsv` with `keepReadable`, else row by row from 2
 * @param options `keepReadable`: a column in which at least one cell is a number has `numbers`, with NaN for texts too.
 * Left out, one text leaves it without
 * @throws `bad_csv` for a head that stands twice, or is empty in two columns; `length_mismatch` for a row of another
 * length; `wrong_type`, `empty`; on engines without typed arrays `wrong_type`.
 *
 * @example
 * ```ts
 * import { classifyColumns, iso4406 } from 'motescale/codes';
 * import { csvColumns, type Problem, parseCsv } from 'motescale/report';
 * const [time, at4] = csvColumns(parseCsv('time,4\n08:00,1890\n08:10,\n'));
 * time?.cells; // => ['08:00', '08:10']
 * at4?.numbers; // => Float64Array.of(1890, NaN)
 * if (at4?.numbers) classifyColumns(iso4406, { 4: at4.numbers }).worst; // => Int16Array.of(18, -1)
 * const told: Problem[] = [];
 * const dirty = parseCsv('time,4\n08:00,1890\n08:10,>30000\n08:20,err\n');
 * csvColumns(dirty, told, { keepReadable: true })[1]?.numbers; // => Float64Array.of(1890, NaN, NaN)
 * told.map(({ line, column, received }) => `${line}: ${column}: ${received}`);
 * // => ["2: time: '08:00'", "3: 4: '>30000'", "4: 4: 'err'"]
 * told[0]?.expected; // => 'left out: a number; of 3 texts none is one'
 * ```
 */
export function csvColumns(
  table: CsvTable,
  told: Problem[] = [],
  options: { readonly keepReadable?: boolean | undefined } = {},
): CsvColumn[] {
  if (typeof Float64Array === 'undefined')
    throw motescaleError('wrong_type', 'table', table, 'an engine with typed arrays');
  requireMembers(requireObject(table, 'table', 'a table { header, rows }'), 'table', tableMembers);
  requireTold(told);
  requireObject(options, 'options', 'options { keepReadable }', ['keepReadable']);
  const keeps = requireBoolean(options.keepReadable ?? false, 'options.keepReadable');
  const { header, rows, lines } = table;
  requireFilledArray(header, 'table.header', 'an array of heads');
  requireArray(rows, 'table.rows', 'an array of rows');
  for (let k = 0; k < rows.length; k += 1) {
    const row: unknown = rows[k];
    if (!Array.isArray(row)) throw motescaleError('wrong_type', `table.rows[${k}]`, row, 'an array of cells');
    if (row.length !== header.length)
      throw motescaleError('length_mismatch', `table.rows[${k}]`, row, `${header.length} cells, as in the header`);
    for (let i = 0; i < row.length; i += 1)
      if (!isCell(row[i]))
        throw motescaleError('wrong_type', `table.rows[${k}][${i}]`, row[i], 'a text, a finite number or null');
  }
  const heads = header.map((head, i) => withoutBlanks(requireText(head, `table.header[${i}]`)));
  let toldOnes = 0;
  return header.map((head, i) => {
    const twin = heads.indexOf(heads[i] as string);
    if (twin !== i) throw motescaleError('bad_csv', `table.header[${i}]`, head, headWanted(heads[i] === '', i, twin));
    const cells = rows.map((row) => row[i] as Cell);
    const numbers = numbersIn(cells, keeps);
    if (!keeps) return { head, numbers, cells };
    const texts: number[] = [];
    cells.forEach((cell, row) => {
      if (typeof cell === 'string') texts.push(row);
    });
    const named = texts.slice(0, numbers === null ? 1 : mostTold - toldOnes);
    if (numbers !== null) toldOnes += named.length;
    const more = numbers === null ? `; of ${texts.length} texts none is one` : '';
    for (const row of named) {
      const cell = cells[row] as string;
      const number = hasDecimals(cell, ',') ? 'a number with a decimal point' : 'a number';
      const place = { line: lines?.[row] ?? row + 2, column: head };
      noteLost(told, ['rows', row, i], 'wrong_type', cell, `${number}${more}`, place);
    }
    return { head, numbers, cells, leftOut: texts.length };
  });
}

function headWanted(isEmpty: boolean, i: number, twin: number): string {
  if (!isEmpty) return `a head of its own for column ${spotOf(i)}: column ${spotOf(twin)} has it too`;
  const cause = 'cut off a title or empty columns, join two head lines';
  return `a head for column ${spotOf(i)}: column ${spotOf(twin)} has none either; ${cause}`;
}

/** A column as its user counts, and by the letters of a spreadsheet: `28 (AB)`. */
function spotOf(i: number): string {
  let letters = '';
  for (let rest = i; rest >= 0; rest = Math.floor(rest / 26) - 1)
    letters = String.fromCharCode(65 + (rest % 26)) + letters;
  return `${i + 1} (${letters})`;
}

function isCell(cell: unknown): cell is Cell {
  return cell === null || typeof cell === 'string' || isFiniteNumber(cell);
}

function numbersIn(cells: readonly Cell[], keeps: boolean): Float64Array | null {
  const numbers = new Float64Array(cells.length);
  let some = false;
  for (let k = 0; k < cells.length; k += 1) {
    const cell = cells[k] as Cell;
    if (cell === null || (keeps && typeof cell === 'string')) numbers[k] = 0 / 0;
    else if (typeof cell === 'number') {
      numbers[k] = cell;
      some = true;
    } else return null;
  }
  return some ? numbers : null;
}

/** Classes of whole columns of counts at once, as the file of a year or of a fleet has them. */
import { linesOf, noneOf, requireBoolean, requireObject } from '../checks.ts';
import { checkCounts, requireSizing } from '../counts/checkCounts.ts';
import { perMlBetween } from '../counts/differential.ts';
import { perMlRule, requirePerMl } from '../counts/ranges.ts';
import type { CumulativeCounts, Sizing } from '../counts/types.ts';
import { motescaleError, type Problem, requireTold } from '../errors.ts';
import { subtractDecimals } from '../numeric/decimal.ts';
import { classOfPerMl } from './classIndex.ts';
import { boundsOf } from './columnBounds.ts';
import { type Ends, placeAround } from './columnCount.ts';
import { fillBetween, fillClasses } from './columnFill.ts';
import { hasSizes, requireSizingOf } from './columnSizes.ts';
import { readableRows } from './readableRows.ts';
import { requireLabels, requireTable } from './requireTable.ts';
import type { ClassColumn, ClassTable } from './types.ts';
import { notationOf } from './written/formatParts.ts';

/** Classes row by row, as places in `table.classes`; its length stands for beyond the last, -1 for not known. */
export interface ColumnClasses {
  readonly table: string;
  /** The columns judged that the sizes can fill. */
  readonly columns: readonly { readonly column: string; readonly classes: Int16Array }[];
  /** The worst of the columns known. */
  readonly worst: Int16Array;
  /** 1 where a column that is not known could be worse than that, 0 else. */
  readonly open: Uint8Array;
  /** How many counts were taken for not known, and how many rows rise with size; only with `keepReadable`. */
  readonly leftOut?: { readonly counts: number; readonly rows: number };
}

/** More classes an `Int16Array` could not number. */
const mostClasses = 32000;

/**
 * The classes of whole columns of counts, row by row those of `classify`, a few nanoseconds each. NaN is a count that
 * is not known: its columns are -1, the worst is that of the others, and `open` says whether it could be worse. A row
 * with NaN takes some microseconds.
 *
 * Counts per mL carry no number of particles: no scale number is marked `>=`. Needs typed arrays, which the smallest
 * ES5 engines lack; `classify` works everywhere.
 *
 * @param table a class table
 * @param perMl counts per mL of each size and larger, by size in µm, all of one length; 0 to 1e12, or NaN
 * @param options `sizing`: how they were measured, `iso11171` where left out; `columns`: the labels of the columns to
 * judge, all where left out; `keepReadable`: a count that is none (-999) is taken for not known, and a row whose counts
 * rise with size has no class (-1, `open` 1), and the others are kept. Left out, one such count is refused; `lines`:
 * those of the file in which the rows stood, `table.lines` of `parseCsv`, for what is told
 * @param told with `keepReadable`, gets an entry for each of the first 100 of both: `path` is the size and the row,
 * `line` that of `lines`
 * @throws `counts_rise_with_size`, `negative`, `infinite`, `out_of_range` with the size and the index of the first bad
 * count; `length_mismatch`, `missing_size`, `sizing_not_convertible`, `unknown_option`, `wrong_type`.
 *
 * @example
 * ```ts
 * import { classifyColumns, iso4406, type Problem } from 'motescale/codes';
 * const at4 = Float64Array.of(1890, 2700, 0.5);
 * const found = classifyColumns(iso4406, { 4: at4, 6: Float64Array.of(402, NaN, 0) });
 * found.columns[1]; // => { column: '6', classes: Int16Array.of(16, -1, 0) }
 * found.worst; // => Int16Array.of(18, 19, 6)
 * found.open; // => Uint8Array.of(1, 1, 1)
 * const told: Problem[] = [];
 * const dirty = { 4: Float64Array.of(1890, 100, -999), 6: Float64Array.of(402, 402, 33) };
 * classifyColumns(iso4406, dirty, { keepReadable: true }, told).worst; // => Int16Array.of(18, -1, 12)
 * told.map(({ path, received }) => `${path.join(': ')}: ${received}`); // => ['4: 2: -999', '6: 1: 402']
 * ```
 */
export function classifyColumns(
  table: ClassTable,
  perMl: Readonly<Record<number, Float64Array>>,
  options: {
    readonly sizing?: Sizing | undefined;
    readonly columns?: readonly string[] | undefined;
    readonly keepReadable?: boolean | undefined;
    readonly lines?: readonly number[] | undefined;
  } = {},
  told: Problem[] = [],
): ColumnClasses {
  requireTable(table);
  requireObject(options, 'options', undefined, ['sizing', 'columns', 'keepReadable', 'lines']);
  const keeps = requireBoolean(options.keepReadable ?? false, 'options.keepReadable');
  requireTold(told);
  const { sizes, columns: given, length } = requireColumns(perMl);
  const lineAt = linesOf(options.lines, { length }, 'options.lines');
  const sizing = options.sizing === undefined ? 'iso11171' : requireSizing(options.sizing, 'options.sizing');
  requireSizingOf(table, sizing, 'options.sizing');
  const labels = options.columns === undefined ? null : requireLabels(table, options.columns, 'options.columns');
  if (table.classes.length > mostClasses)
    throw motescaleError('out_of_range', 'table.classes', table.classes.length, `at most ${mostClasses} classes`);
  // the sizes, asked of one row
  const row: CumulativeCounts = { sizing, sizes, perMl: sizes.map(() => 0) };
  checkCounts(row, 'perMl', false, (_list, i) => `perMl[${sizes[i as number]}]`);
  const readable = keeps ? readableRows(sizes, given, told, lineAt) : null;
  const counts = readable?.columns ?? given;
  const partial = requireRows(sizes, counts, length);
  /** The worst class of some columns by the counts at the sizes around them. */
  const fill = (classes: Int16Array, places: readonly number[], { from, to }: Ends) => {
    const lower = counts[from] as Float64Array;
    const limits = boundsOf(table, places);
    if (to === null) fillClasses(classes, lower, limits);
    else fillBetween(classes, lower, counts[to] as Float64Array, limits, (a, b) => exactClass(table, places, a, b));
  };
  const columns: { column: string; classes: Int16Array }[] = [];
  const worst = filled(new Int16Array(length), -1);
  // columns that lack a size, by the sizes around them: what the counts there allow bounds them all
  const bounds: { readonly from: number; readonly to: number | null; readonly places: number[] }[] = [];
  const judged: number[] = [];
  // of columns with no smaller size: the class that takes every count
  let least = -1;
  table.columns.forEach((column, i) => {
    if (labels !== null && labels.indexOf(column.label) < 0) return;
    const around = placeAround(table, column, row);
    if (!around?.exact && labels !== null)
      throw motescaleError('missing_size', 'perMl', sizes, `the sizes of column ${column.label}`);
    if (!hasSizes(column)) return;
    judged.push(i);
    if (around === null) {
      least = Math.max(least, classOfPerMl(table, i, Infinity));
      return;
    }
    if (!around.exact) {
      const { from, to } = around;
      const alike = bounds.filter((bound) => bound.from === from && bound.to === to)[0];
      if (alike === undefined) bounds.push({ from, to, places: [i] });
      else alike.places.push(i);
      return;
    }
    const classes = new Int16Array(length);
    fill(classes, [i], around);
    columns.push({ column: column.label, classes });
    for (let k = 0; k < length; k += 1) worst[k] = Math.max(worst[k] as number, classes[k] as number);
  });
  if (columns.length === 0) throw motescaleError('missing_size', 'perMl', sizes, `sizes of ${table.title}`);
  const open = new Uint8Array(length);
  if (notationOf(table) !== 'single') filled(open, least >= 0 || bounds.length > 0 ? 1 : 0);
  else {
    const classes = new Int16Array(length);
    if (least >= 0) for (let k = 0; k < length; k += 1) open[k] = Number(least > (worst[k] as number));
    for (const bound of bounds) {
      fill(classes, bound.places, bound);
      // no branch here either
      for (let k = 0; k < length; k += 1)
        open[k] = (open[k] as number) | Number((classes[k] as number) > (worst[k] as number));
    }
  }
  const found = { table: table.id, columns, worst, open };
  for (let k = 0; k < length; k += 1)
    if (partial[k] === 1) judgeAlone(table, rowAt(sizing, sizes, counts, k), judged, found, k);
  return readable === null ? found : { ...found, leftOut: readable.leftOut };
}

/** `fill`, which some engines with typed arrays lack. */
function filled<List extends Int16Array | Uint8Array>(list: List, value: number): List {
  for (let k = 0; k < list.length; k += 1) list[k] = value;
  return list;
}

/** What `csvColumns` made null of. */
const nullHint =
  '; null is a column of csvColumns in which a cell is text, or all are empty: keepReadable makes NaN of text';

/** The columns in order of size, of one length. */
function requireColumns(perMl: Readonly<Record<number, Float64Array>>): {
  sizes: number[];
  columns: Float64Array[];
  length: number;
} {
  if (typeof Float64Array === 'undefined')
    throw motescaleError('wrong_type', 'perMl', perMl, 'an engine with typed arrays; classify works on all');
  requireObject(perMl, 'perMl', 'columns by size, such as { 4: Float64Array.of(1890) }');
  const keys = Object.keys(perMl).sort((a, b) => Number(a) - Number(b));
  if (keys.length === 0) throw motescaleError('empty', 'perMl', perMl, 'a column for at least one size');
  let length = -1;
  const columns = keys.map((key) => {
    const column: unknown = perMl[key as unknown as number];
    if (!/^\d+(\.\d+)?$/.test(key)) throw noneOf(['sizes in µm'], 'wrong_type', 'perMl', key);
    if (!(column instanceof Float64Array))
      throw motescaleError('wrong_type', `perMl[${key}]`, column, `a Float64Array${column === null ? nullHint : ''}`);
    if (length >= 0 && column.length !== length)
      throw motescaleError('length_mismatch', `perMl[${key}]`, column, `${length} counts, as the others`);
    length = column.length;
    return column;
  });
  return { sizes: keys.map(Number), columns, length };
}

/** Throws at the first count that is none, or that rises with size; tells the rows with one not known. */
function requireRows(sizes: readonly number[], columns: readonly Float64Array[], length: number): Uint8Array {
  const partial = new Uint8Array(length);
  const { most } = perMlRule;
  columns.forEach((column, i) => {
    const before = i === 0 ? null : (columns[i - 1] as Float64Array);
    for (let k = 0; k < length; k += 1) {
      const count = column[k] as number;
      if (count >= 0 && count <= most && (before === null || !(count > (before[k] as number)))) continue;
      const name = `perMl[${sizes[i]}][${k}]`;
      if (count === count) {
        requirePerMl(count, name);
        const at = `at most ${(before as Float64Array)[k]}, the count of the smaller size`;
        throw motescaleError('counts_rise_with_size', name, count, at);
      }
      partial[k] = 1;
    }
  });
  return partial;
}

function exactClass(table: ClassTable, places: readonly number[], from: number, to: number): number {
  const count = subtractDecimals(from, to);
  let worst = 0;
  for (const place of places) worst = Math.max(worst, classOfPerMl(table, place, count));
  return worst;
}

/** The counts of one row that are known. */
function rowAt(
  sizing: Sizing,
  sizes: readonly number[],
  columns: readonly Float64Array[],
  k: number,
): CumulativeCounts {
  const known: number[] = [];
  const perMl: number[] = [];
  columns.forEach((column, i) => {
    const count = column[k] as number;
    if (count !== count) return;
    const most = perMl[perMl.length - 1];
    if (most !== undefined && count > most)
      throw motescaleError('counts_rise_with_size', `perMl[${sizes[i]}][${k}]`, count, `at most ${most}`);
    known.push(sizes[i] as number);
    perMl.push(count);
  });
  return { sizing, sizes: known, perMl };
}

/** A row with counts not known: what bounds a column that lacks one may still show that it is no worse. */
function judgeAlone(
  table: ClassTable,
  row: CumulativeCounts,
  judged: readonly number[],
  found: ColumnClasses,
  k: number,
): void {
  const single = notationOf(table) === 'single';
  let worst = -1;
  let bound = -1;
  for (const place of judged) {
    const column = table.columns[place] as ClassColumn;
    const around = placeAround(table, column, row);
    const most = around === null ? Infinity : perMlBetween(row, around.from, around.to);
    const index = classOfPerMl(table, place, most);
    const isKnown = around?.exact === true;
    if (isKnown) worst = Math.max(worst, index);
    else bound = Math.max(bound, single ? index : table.classes.length + 1);
    const given = found.columns.filter(({ column: label }) => label === column.label)[0];
    if (given !== undefined) given.classes[k] = isKnown ? index : -1;
  }
  found.worst[k] = worst;
  found.open[k] = bound > worst ? 1 : 0;
}

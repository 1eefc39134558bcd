/**
 * Signs between thousands: `12.000` is twelve thousand in some files, and 12 in others. Where the decimal sign was
 * given they are read; where it was not, points that may be such signs are found, and the file is refused.
 */
import { isGrouped } from '../../numeric/grouped.ts';
import { type Cell, type CheckedFormat, type CsvFormat, numberIn, plainSign } from './csvFormat.ts';
import { bareText, type Field } from './csvLines.ts';

/** The number of `1,234.5`, `1 234.5` or `1'234.5`, or with a decimal comma of `1.234,5`; null for any other text. */
export function groupedNumber(text: string, decimal: '.' | ','): number | null {
  const sign = (/^-?[1-9]\d{0,2}([.,' \u2019\u00A0\u202F])/.exec(text) ?? [])[1];
  if (sign === undefined || sign === decimal) return null;
  const [whole, ...parts] = text.split(decimal) as [string, ...string[]];
  const groups = whole.split(sign);
  if (groups.slice(1).some((group) => !/^\d{3}$/.test(group))) return null;
  return numberIn([groups.join(''), ...parts].join(decimal), decimal);
}

/** Whether a cell without quotes would be taken for a number, or for one that is in doubt. */
export function looksLikeNumber(written: string, decimal: '.' | ','): boolean {
  const text = plainSign(written);
  return numberIn(text, decimal) !== null || groupedNumber(text, decimal) !== null || hasGroups(text);
}

/** `12.000`, also below zero. */
export function hasGroups(text: string): boolean {
  if (text.charAt(text.length - 4) !== '.') return false;
  return isGrouped(text.charAt(0) === '-' ? text.slice(1) : text);
}

/**
 * Whether text in quotes was not written by `toCsv`, should it look like `1,234` or `41,5`: there it has an apostrophe,
 * unless the guard was turned down.
 */
function isForeign(guard: CsvFormat['guard']): boolean {
  return guard === 'formulas and dates';
}

/** What is to be said of points in a file whose decimal sign was not given. */
export interface Doubts {
  /** Whether some number of the file has a decimal comma. */
  comma: boolean;
  /** By column: where the first point stands that may be a sign of thousands, and whether another point cannot be. */
  readonly columns: { at: number | null; decimals: boolean }[];
}

/** Notes a cell. Texts, empty cells and numbers without a point say nothing. */
export function noteDoubt(doubts: Doubts, column: number, field: Field, guard: CsvFormat['guard']): void {
  const { quoted, end } = field;
  const text = bareText(field);
  if (text.indexOf(',') >= 0 && (!quoted || isForeign(guard)) && hasDecimals(text, ',')) doubts.comma = true;
  if (quoted || text.indexOf('.') < 0) return;
  const doubt = doubts.columns[column] ?? { at: null, decimals: false };
  doubts.columns[column] = doubt;
  if (hasGroups(text)) doubt.at = doubt.at ?? end - field.text.length;
  else if (!doubt.decimals && hasDecimals(text, '.')) doubt.decimals = true;
}

/** Whether the sign stands before decimals, and cannot stand between thousands; for text that holds it. */
export function hasDecimals(text: string, sign: '.' | ','): boolean {
  if (groupedNumber(text, sign) !== null) return true;
  return numberIn(text, sign) !== null && !hasGroups(text.replace(sign, '.'));
}

/**
 * The first cell that can be read in two ways, or null. A decimal comma shows that points stand between thousands, so
 * between semicolons and tabs all of them are doubted, whatever else their column holds. Between commas it is needed
 * for a doubt.
 */
export function doubtAt({ comma, columns }: Doubts, separator: string): number | null {
  let first: number | null = null;
  columns.forEach(({ at, decimals }) => {
    const doubted = separator === ',' ? comma && !decimals : comma || !decimals;
    if (first === null && doubted) first = at;
  });
  return first;
}

/** Cells with signs between thousands, in a file whose decimal sign was given. */
export interface Thousands {
  /** Those with the other sign, point or comma: row, column, text. */
  readonly cells: (readonly [row: number, column: number, text: string])[];
  /** By column: whether that sign also stands where no thousands end, as in `1.23` with a decimal comma. */
  readonly otherwise: boolean[];
}

/** The number of a cell that `numberIn` takes for text, or null; notes what shows that its column has none of these. */
export function thousandsIn(
  { cells, otherwise }: Thousands,
  [row, column]: readonly [row: number, column: number],
  field: Field,
  { decimal, separator, guard }: CheckedFormat,
): number | null {
  const text = bareText(field);
  const other = decimal === '.' ? ',' : '.';
  // between commas, quotes may stand there for no other reason than a comma between thousands
  const isForCommas = separator === ',' && isForeign(guard) && text.indexOf(',') >= 0;
  if (field.quoted && !isForCommas) return null;
  const number = groupedNumber(text, decimal);
  if (text.indexOf(other) < 0) return number;
  if (number !== null) cells.push([row, column, field.text]);
  else if (numberIn(text, other) !== null || groupedNumber(text, other) !== null) otherwise[column] = true;
  return number;
}

/** Makes text again of the cells in columns where that sign is none of thousands. */
export function withoutMixed(rows: readonly Cell[][], { cells, otherwise }: Thousands): void {
  for (const [row, column, text] of cells) if (otherwise[column] === true) (rows[row] as Cell[])[column] = text;
}

/**
 * The sizes of a table's columns, in each sizing the table knows.
 */
import { sizings } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/**
 * A column's sizes in one sizing; null where the table names none for it. `to` is null in cumulative columns and open
 * ranges.
 */
export function columnSizes(column: ClassColumn, sizing: Sizing): { from: number; to: number | null } | null {
  const from = sizeIn(column.from, column, sizing);
  if (from === null || column.to === undefined) return from === null ? null : { from, to: null };
  const to = sizeIn(column.to, column, sizing);
  return to === null ? null : { from, to };
}

function sizeIn(sizes: ClassColumn['from'], column: ClassColumn, sizing: Sizing): number | null {
  const size: unknown = sizes[sizing];
  if (size === undefined) return null;
  if (typeof size === 'number' && size > 0 && size < Infinity) return size;
  throw motescaleError('bad_table', `table.columns['${column.label}'].${sizing}`, size, 'a size in µm above 0');
}

/** The sizings in which the table has sizes. */
export function sizingsOf(table: ClassTable): Sizing[] {
  return sizings.filter((sizing) => hasSizing(table, sizing));
}

function hasSizing({ columns }: ClassTable, sizing: Sizing): boolean {
  for (let i = 0; i < columns.length; i += 1) if ((columns[i] as ClassColumn).from[sizing] !== undefined) return true;
  return false;
}

/** Throws unless the table has sizes in this sizing; `parameter` and `member` together say where it came from. */
export function requireSizingOf(table: ClassTable, sizing: Sizing, parameter: string, member = '', hint = ''): void {
  if (hasSizing(table, sizing)) return;
  const elsewhere = table.elsewhere === undefined ? '' : `; ${table.elsewhere}`;
  const expected = `'${sizingsOf(table).join("' or '")}', the sizings of ${table.title}${elsewhere}${hint}`;
  throw motescaleError('sizing_not_convertible', `${parameter}${member}`, sizing, expected);
}

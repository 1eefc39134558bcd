/**
 * The sizes of a table's columns, in each sizing the table knows.
 */
import { sizings } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/** A column's sizes in one sizing; null where the table names none for it. `to` is null in cumulative columns and open ranges. */
export function columnSizes(column: ClassColumn, sizing: Sizing): { from: number; to: number | null } | null {
  const from = column.from[sizing];
  if (from === undefined) return null;
  requireColumnSize(from, column, sizing);
  if (column.to === undefined) return { from, to: null };
  const to = column.to[sizing];
  if (to === undefined) return null;
  requireColumnSize(to, column, sizing);
  return { from, to };
}

function requireColumnSize(size: unknown, column: ClassColumn, sizing: Sizing): void {
  if (typeof size === 'number' && size > 0 && size < Infinity) return;
  throw motescaleError('bad_table', `table.columns['${column.label}'].${sizing}`, size, 'a size in µm above 0');
}

/** The sizings in which the table has sizes. */
export function sizingsOf(table: ClassTable): Sizing[] {
  return sizings.filter((sizing) => table.columns.some((column) => column.from[sizing] !== undefined));
}

/** Throws unless the table has sizes in this sizing; `parameter` and `member` together say where it came from. */
export function requireSizingOf(table: ClassTable, sizing: Sizing, parameter: string, member = '', hint = ''): void {
  for (let i = 0; i < table.columns.length; i += 1) {
    if ((table.columns[i] as ClassColumn).from[sizing] !== undefined) return;
  }
  const elsewhere = table.elsewhere === undefined ? '' : `; ${table.elsewhere}`;
  const expected = `'${sizingsOf(table).join("' or '")}', the sizings of ${table.title}${elsewhere}${hint}`;
  throw motescaleError('sizing_not_convertible', `${parameter}${member}`, sizing, expected);
}

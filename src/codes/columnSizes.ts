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
  if (column.to === undefined) return { from, to: null };
  const to = column.to[sizing];
  return to === undefined ? null : { from, to };
}

/** The sizings in which the table has sizes. */
export function sizingsOf(table: ClassTable): Sizing[] {
  return sizings.filter((sizing) => table.columns.some((column) => column.from[sizing] !== undefined));
}

/** Throws unless the table has sizes in this sizing. */
export function requireSizingOf(table: ClassTable, sizing: Sizing, parameter: string): void {
  const known = sizingsOf(table);
  if (known.indexOf(sizing) < 0) {
    throw motescaleError(
      'sizing_not_convertible',
      parameter,
      sizing,
      `'${known.join("' or '")}', the sizings of ${table.title}${table.elsewhere === undefined ? '' : `; ${table.elsewhere}`}`,
    );
  }
}

/** The sizes of a table's columns, in each sizing the table knows. */
import { noneOf } from '../checks.ts';
import { sizings } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/**
 * A column's sizes in one sizing; null where the table names none for it. `to` is null in cumulative columns and open
 * ranges.
 */
export function columnSizes(column: ClassColumn, sizing: Sizing): { from: number; to: number | null } | null {
  const from = column.from[sizing];
  const to = column.to === undefined ? null : column.to[sizing];
  return from === undefined || to === undefined ? null : { from, to };
}

/** The sizings in which the table has sizes. */
export function sizingsOf(table: ClassTable): Sizing[] {
  return sizings.filter((sizing) => hasSizing(table, sizing));
}

/** The first sizing that the table has, in a fixed order: engines do not agree on the order of an object's members. */
export function usualSizing(table: ClassTable): Sizing {
  return sizingsOf(table)[0] ?? 'iso11171';
}

function hasSizing({ columns }: ClassTable, sizing: Sizing): boolean {
  for (const { from } of columns) if (from[sizing] !== undefined) return true;
  return false;
}

/** Throws unless the table has sizes in this sizing; `parameter` and `member` together say where it came from. */
export function requireSizingOf(table: ClassTable, sizing: Sizing, parameter: string, member = '', hint = ''): void {
  if (hasSizing(table, sizing)) return;
  const elsewhere = table.elsewhere === undefined ? '' : `; ${table.elsewhere}`;
  const more = `, the sizings of ${table.title}${elsewhere}${hint}`;
  throw noneOf(sizingsOf(table), 'sizing_not_convertible', parameter + member, sizing, more);
}

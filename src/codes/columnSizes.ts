/** The sizes of a table's columns, in each sizing the table knows. */
import { noneOf } from '../checks.ts';
import { sizings } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import type { ClassColumn, ClassTable, CountBand } from './types.ts';

/** In µm; `to` is null without an upper one. */
type SizeRange = Pick<CountBand, 'from' | 'to'>;

/** A column's sizes in one sizing; null where it has none. `to` is null in cumulative columns and open ranges. */
export function columnSizes(column: ClassColumn, sizing: Sizing): SizeRange | null {
  const from = column.from[sizing];
  const to = column.to === undefined ? null : column.to[sizing];
  return from === undefined || to === undefined ? null : { from, to };
}

/** Whether a column has sizes: fibres and mass, which no particle counter tells, have none. */
export function hasSizes({ from }: Pick<ClassColumn, 'from'>): boolean {
  return Object.keys(from).length > 0;
}

/**
 * Sizes that hold a column between them, in one sizing: its own, else the last one before it in the table. GOST 17216
 * sizes its range from 100 to 200 µm for a microscope only, and 100 µm as 70 µm(c) in the range before. Null where none
 * is known to lie below; `to` is Infinity where none is known above.
 */
export function sizesAround({ columns }: ClassTable, column: ClassColumn, sizing: Sizing): SizeRange | null {
  const own = columnSizes(column, sizing);
  // what no particle counter counts lies nowhere among them
  if (own !== null || Object.keys(column.from).length === 0) return own;
  let from = 0;
  for (const other of columns) {
    if (other === column) break;
    from = other.to?.[sizing] ?? other.from[sizing] ?? from;
  }
  return from === 0 ? null : { from, to: Infinity };
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
  // a loop: this is asked of each reading
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

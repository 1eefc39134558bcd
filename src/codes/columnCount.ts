/**
 * What the counts say of one column of a table: the count in the table's own volume, ready to be compared with the printed limit.
 */
import { perMlBetween } from '../counts/differential.ts';
import type { CumulativeCounts, Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { proportion, scaleDecimal } from '../numeric/decimal.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/** A column's sizes in one sizing; null where the table names none for it. `to` is null in cumulative columns and open ranges. */
export function columnSizes(column: ClassColumn, sizing: Sizing): { from: number; to: number | null } | null {
  const from = column.from[sizing];
  if (from === undefined) return null;
  if (column.to === undefined) return { from, to: null };
  const to = column.to[sizing];
  return to === undefined ? null : { from, to };
}

/** Throws unless the table has sizes in this sizing. */
export function requireSizingOf(table: ClassTable, sizing: Sizing, parameter: string): void {
  const known: string[] = [];
  for (const column of table.columns) {
    for (const name of Object.keys(column.from)) if (known.indexOf(name) < 0) known.push(name);
  }
  if (known.indexOf(sizing) < 0) {
    throw motescaleError(
      'sizing_not_convertible',
      parameter,
      sizing,
      `'${known.join("' or '")}', the sizings of ${table.title}`,
    );
  }
}

/** Where the sizes of a column stand among the counts; null where the counts lack one of them. */
export function columnPlace(column: ClassColumn, counts: CumulativeCounts): { from: number; to: number | null } | null {
  const sizes = columnSizes(column, counts.sizing);
  if (sizes === null) return null;
  const from = counts.sizes.indexOf(sizes.from);
  const to = sizes.to === null ? null : counts.sizes.indexOf(sizes.to);
  return from < 0 || (to !== null && to < 0) ? null : { from, to };
}

/**
 * The most a column can hold, in the table's volume, where the counts lack its sizes: no more than there are of the next smaller size counted,
 * less those of the next larger. Infinity where no smaller size was counted.
 */
export function columnBound(table: ClassTable, column: ClassColumn, counts: CumulativeCounts): number {
  const sizes = columnSizes(column, counts.sizing);
  let from = -1;
  let to: number | null = null;
  for (let i = 0; sizes !== null && i < counts.sizes.length; i += 1) {
    const size = counts.sizes[i] as number;
    if (size <= sizes.from) from = i;
    if (to === null && sizes.to !== null && size >= sizes.to) to = i;
  }
  return from < 0 ? Infinity : columnCount(table, counts, from, to);
}

/**
 * The count of a column in the table's volume. From raw counts it is one division of whole numbers, so that a count exactly on a
 * limit is found exactly on it.
 */
export function columnCount(table: ClassTable, counts: CumulativeCounts, from: number, to: number | null): number {
  if (counts.counted !== undefined && counts.volumeMl !== undefined) {
    const particles = (counts.counted[from] as number) - (to === null ? 0 : (counts.counted[to] as number));
    return proportion(particles, (counts.dilution ?? 1) * table.perVolumeMl, counts.volumeMl);
  }
  return scaleDecimal(perMlBetween(counts, from, to), table.perVolumeMl, 1);
}

/**
 * What the counts say of one column of a table: where its sizes stand among the counts, and which class the count has.
 */
import { perMlBetween } from '../counts/differential.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { scaleDecimal } from '../numeric/decimal.ts';
import { type Finding, unbounded } from './assemble.ts';
import { classOfPerMl } from './classIndex.ts';
import { columnSizes, sizesAround } from './columnSizes.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/** Where the sizes of a column stand among those counted. `to` is null in cumulative columns and open ranges. */
export interface Place {
  readonly from: number;
  readonly to: number | null;
}

/** The particles of a column: those counted at its size, without those beyond its upper one. */
export function countedIn(counted: readonly number[], { from, to }: Place): number {
  return (counted[from] as number) - (to === null ? 0 : (counted[to] as number));
}

/** Null where the counts lack one of the sizes. */
export function columnPlace(column: ClassColumn, { sizing, sizes }: CumulativeCounts): Place | null {
  const own = columnSizes(column, sizing);
  if (own === null) return null;
  const from = sizes.indexOf(own.from);
  const to = own.to === null ? null : sizes.indexOf(own.to);
  return from < 0 || (to !== null && to < 0) ? null : { from, to };
}

/** The nearest sizes counted that hold the column between them. Null where no smaller size was counted. */
export function placeAround(table: ClassTable, column: ClassColumn, { sizing, sizes }: CumulativeCounts): Place | null {
  const wanted = sizesAround(table, column, sizing);
  if (wanted === null) return null;
  let from = -1;
  let to: number | null = null;
  for (let i = 0; i < sizes.length; i += 1) {
    const size = sizes[i] as number;
    if (size <= wanted.from) from = i;
    if (to === null && wanted.to !== null && size >= wanted.to) to = i;
  }
  return from < 0 ? null : { from, to };
}

/**
 * What the counts say of a column: its class, decided per mL. The count is one division of whole numbers, or a
 * difference of decimals, and so is the limit, so that a count exactly on a limit is found exactly on it.
 *
 * Where the counts lack the column's sizes, what bounds it: no more than there are of the next smaller size counted,
 * less those of the next larger; Infinity where no smaller size was counted.
 */
export function columnFinding(table: ClassTable, column: number, counts: CumulativeCounts): Finding {
  const own = table.columns[column] as ClassColumn;
  const exact = columnPlace(own, counts);
  const place = exact ?? placeAround(table, own, counts);
  if (place === null) return unbounded;
  const perMl = perMlBetween(counts, place.from, place.to);
  const count = inTableVolume(table, perMl);
  const index = exact === null ? -1 : classOfPerMl(table, column, perMl);
  return { count, index, counted: counts.counted?.[place.from] };
}

/** A count per mL in the table's own volume. */
export function inTableVolume(table: ClassTable, perMl: number): number {
  return table.perVolumeMl === 1 ? perMl : scaleDecimal(perMl, table.perVolumeMl, 1);
}

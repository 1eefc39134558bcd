/** What the counts say of a column of a table: where its sizes stand among them, and which class the count has. */
import { perMlBetween } from '../counts/differential.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { scaleDecimal } from '../numeric/decimal.ts';
import { type Finding, type Sizes, unbounded } from './assemble.ts';
import { classOfPerMl } from './classIndex.ts';
import { columnSizes, sizesAround } from './columnSizes.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/** Places of a list of sizes; `to` is null where no size lies above, as in cumulative columns. */
export interface Ends {
  readonly from: number;
  readonly to: number | null;
}

/** Where the sizes of a column stand among those counted. */
export interface Place extends Ends {
  /** Whether the sizes are those counted, and not the nearest that hold them between them. */
  readonly exact: boolean;
}

/** The particles of a column: those counted at its size, without those beyond its upper one. */
export function countedIn(counted: readonly number[], { from, to }: Ends): number {
  return (counted[from] as number) - (to === null ? 0 : (counted[to] as number));
}

/** Where the sizes of a column were counted. Null where the counts lack one of them. */
export function columnPlace(column: ClassColumn, { sizing, sizes }: Sizes): Place | null {
  const place = placeOf(columnSizes(column, sizing), sizes);
  return place?.exact ? place : null;
}

/** The nearest sizes counted that hold the column between them. Null where no smaller size was counted. */
export function placeAround(table: ClassTable, column: ClassColumn, { sizing, sizes }: Sizes): Place | null {
  return placeOf(sizesAround(table, column, sizing), sizes);
}

function placeOf(wanted: ReturnType<typeof columnSizes>, sizes: readonly number[]): Place | null {
  if (wanted === null) return null;
  let from = -1;
  let to: number | null = null;
  for (let i = 0; i < sizes.length; i += 1) {
    const size = sizes[i] as number;
    if (size <= wanted.from) from = i;
    if (to === null && wanted.to !== null && size >= wanted.to) to = i;
  }
  const exact = sizes[from] === wanted.from && (wanted.to === null || sizes[to as number] === wanted.to);
  return from < 0 ? null : { from, to, exact };
}

/**
 * What the counts say of a column: its class, decided per mL. The count is one division of whole numbers, or a
 * difference of decimals, and so is the limit, so that a count exactly on a limit is found exactly on it.
 *
 * Where the counts lack the column's sizes, what bounds it: no more than there are of the next smaller size counted,
 * less those of the next larger; Infinity where no smaller size was counted.
 */
export function columnFinding(table: ClassTable, column: number, counts: CumulativeCounts): Finding {
  const place = placeAround(table, table.columns[column] as ClassColumn, counts);
  if (place === null) return unbounded;
  const perMl = perMlBetween(counts, place.from, place.to);
  const count = inTableVolume(table, perMl);
  const index = place.exact ? classOfPerMl(table, column, perMl) : -1;
  return { count, index, counted: counts.counted?.[place.from] };
}

/** A count per mL in the table's own volume. */
export function inTableVolume(table: ClassTable, perMl: number): number {
  return table.perVolumeMl === 1 ? perMl : scaleDecimal(perMl, table.perVolumeMl, 1);
}

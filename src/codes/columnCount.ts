/**
 * What the counts say of one column of a table: where its sizes stand among the counts, and which class the count has.
 */
import { perMlBetween } from '../counts/differential.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { scaleDecimal } from '../numeric/decimal.ts';
import type { Finding, Unfilled } from './assemble.ts';
import { classOfPerMl } from './classIndex.ts';
import { columnSizes } from './columnSizes.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/** Where the sizes of a column stand among those counted. `toIndex` is null in cumulative columns and open ranges. */
export interface Place {
  readonly fromIndex: number;
  readonly toIndex: number | null;
}

/** Null where the counts lack one of the sizes. */
export function columnPlace(column: ClassColumn, counts: CumulativeCounts): Place | null {
  const sizes = columnSizes(column, counts.sizing);
  if (sizes === null) return null;
  const fromIndex = indexOfSize(counts.sizes, sizes.from);
  if (fromIndex < 0) return null;
  if (sizes.to === null) return { fromIndex, toIndex: null };
  const toIndex = indexOfSize(counts.sizes, sizes.to);
  return toIndex < 0 ? null : { fromIndex, toIndex };
}

/** As `indexOf`, which engines make quick for arrays of one kind only. */
function indexOfSize(sizes: readonly number[], size: number): number {
  for (let i = 0; i < sizes.length; i += 1) if (sizes[i] === size) return i;
  return -1;
}

/**
 * The most a column can hold, in the table's volume, where the counts lack its sizes: no more than there are of the next smaller size counted,
 * less those of the next larger. Infinity where no smaller size was counted.
 */
export function columnBound(table: ClassTable, column: ClassColumn, counts: CumulativeCounts): number {
  const sizes = columnSizes(column, counts.sizing);
  let fromIndex = -1;
  let toIndex: number | null = null;
  for (let i = 0; sizes !== null && i < counts.sizes.length; i += 1) {
    const size = counts.sizes[i] as number;
    if (size <= sizes.from) fromIndex = i;
    if (toIndex === null && sizes.to !== null && size >= sizes.to) toIndex = i;
  }
  return fromIndex < 0 ? Infinity : inTableVolume(table, perMlBetween(counts, fromIndex, toIndex));
}

/** What the counts say of a column: its class, or what bounds it where a size is missing. */
export function columnFinding(table: ClassTable, column: number, counts: CumulativeCounts): Finding | Unfilled {
  const sized = table.columns[column] as ClassColumn;
  const place = columnPlace(sized, counts);
  if (place === null) return { atMost: columnBound(table, sized, counts) };
  return placedFinding(table, column, counts, place);
}

/**
 * The class of a column, decided per mL: the count is one division of whole numbers, or a difference of decimals, and so is the limit, so
 * that a count exactly on a limit is found exactly on it.
 */
function placedFinding(table: ClassTable, column: number, counts: CumulativeCounts, place: Place): Finding {
  const { fromIndex, toIndex } = place;
  const perMl = perMlBetween(counts, fromIndex, toIndex);
  const index = classOfPerMl(table, column, perMl);
  const count = inTableVolume(table, perMl);
  const counted = counts.counted?.[fromIndex];
  return counted === undefined ? { count, index } : { count, index, counted };
}

/** A count per mL in the table's own volume. */
export function inTableVolume(table: ClassTable, perMl: number): number {
  return table.perVolumeMl === 1 ? perMl : scaleDecimal(perMl, table.perVolumeMl, 1);
}

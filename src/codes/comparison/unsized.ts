/** Columns that a table sizes for other counters only, bounded by what was counted from their lower end. */
import { sizings } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/types.ts';
import { classOfPerMl } from '../classIndex.ts';
import { columnSizes } from '../columnSizes.ts';
import type { ClassColumn, ClassTable, CountBands } from '../types.ts';

/**
 * The place of the worst class that such a column may have: all particles from its lower end may be in it. 0 where
 * there is none, or its lower end is not among the sizes known. GOST 17216 sizes 100 to 200 µm for a microscope only,
 * and 100 µm is 70 µm(c) in the range before.
 */
export function worstUnsized(table: ClassTable, known: CumulativeCounts | CountBands): number {
  let worst = 0;
  table.columns.forEach((column, i) => {
    if (columnSizes(column, known.sizing) !== null) return;
    const from = lowerEnd(table, column, known.sizing);
    const most = from === null ? null : mostFrom(known, from);
    if (most !== null) worst = Math.max(worst, classOfPerMl(table, i, most));
  });
  return worst;
}

/** The lower end of a column in a sizing it has no size for: that of a column beside it, of the same size otherwise. */
function lowerEnd({ columns }: ClassTable, { from }: ClassColumn, sizing: Sizing): number | null {
  for (const { to = {} } of columns) {
    const size = to[sizing];
    if (size === undefined) continue;
    for (const other of sizings) if (from[other] !== undefined && from[other] === to[other]) return size;
  }
  return null;
}

/** How many per mL there are at most of a size and larger; null where it is not known. */
function mostFrom(known: CumulativeCounts | CountBands, size: number): number | null {
  if (!('bands' in known)) return known.perMl[known.sizes.indexOf(size)] ?? null;
  for (const { from, to, upTo } of known.bands) if (from === size && to === null) return upTo;
  return null;
}

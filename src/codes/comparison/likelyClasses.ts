/**
 * What probably holds: the classes that the size distribution suggests, with what was measured, interpolated and continued.
 */
import type { Basis } from '../../counts/countAt.ts';
import { type Curve, countBeyond, countInside, curveThrough } from '../../counts/interpolation.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { scaleDecimal, subtractDecimals } from '../../numeric/decimal.ts';
import { classIndex, className } from '../classIndex.ts';
import { columnCount, columnPlace, columnSizes } from '../columnCount.ts';
import { requireTable } from '../requireTable.ts';
import type { ClassSpan, ClassTable, CountBands } from '../types.ts';
import { cornersOf } from './corners.ts';
import { checkKnown } from './knowledge.ts';

/** A span of classes with the counts it rests on. */
export interface LikelySpan extends ClassSpan {
  /** How each column was come by, and the lowest and highest count found, in the table's own volume. */
  readonly basis: readonly {
    readonly column: string;
    readonly basis: Basis;
    readonly low: number;
    readonly high: number;
  }[];
}

/**
 * The classes a sample probably has in another table, by its size distribution. An estimate: `possibleClasses` says what is certain.
 *
 * Between measured sizes the `monotone` curve of `countAt` is read. Beyond them the answer is a band between two continuations, log-log
 * and log-log2: on the ISO 16889:2008 Table 4 counts known at 4, 6 and 14 µm(c) only, that band holds the published counts at 20 to 40 µm(c).
 * Where a table allows no particle at all, fewer than half a particle expected in its volume is taken as none.
 * From a code (bands) both ends of every band are taken through. Where two counts above zero are lacking, nothing is continued: the column is `unseen`.
 *
 * @param known counts, or `limitsOf(iso4406, '18/16/13')`
 * @throws `sizing_not_convertible`, and the errors of bad counts.
 *
 * @example
 * ```ts
 * import { iso4406, likelyClasses, limitsOf, nas1638 } from 'motescale/codes';
 * const span = likelyClasses(limitsOf(iso4406, '18/16/13'), nas1638);
 * span.columns[0]; // => { column: '5-15', lowest: '7', highest: '8' }
 * span.basis[0].basis; // => 'measured'
 * ```
 */
export function likelyClasses(known: CumulativeCounts | CountBands, table: ClassTable): LikelySpan {
  requireTable(table);
  checkKnown(known, table);
  const corners = cornersOf(known).map((counts) => curveThrough(counts, 'monotone'));
  const columns: { column: string; lowest: string; highest: string }[] = [];
  const basis: { column: string; basis: Basis; low: number; high: number }[] = [];
  const unseen: string[] = [];
  const lows: number[] = [];
  const highs: number[] = [];
  table.columns.forEach((column, i) => {
    const found = estimates(table, i, corners);
    if (found === null) {
      unseen.push(column.label);
      return;
    }
    const low = Math.min.apply(null, found.counts);
    const high = Math.max.apply(null, found.counts);
    const lowest = classIndex(table, i, (limit) => likelyKept(low, limit));
    const highest = classIndex(table, i, (limit) => likelyKept(high, limit));
    lows.push(lowest);
    highs.push(highest);
    columns.push({ column: column.label, lowest: className(table, lowest), highest: className(table, highest) });
    basis.push({ column: column.label, basis: found.basis, low, high });
  });
  return {
    lowest: className(table, Math.max.apply(null, [0].concat(lows))),
    highest: className(table, Math.max.apply(null, [0].concat(highs))),
    columns,
    unseen,
    basis,
  };
}

/** An estimate is an expected count: where the limit is zero, less than half a particle is most likely none. */
function likelyKept(count: number, limit: number): boolean {
  return limit === 0 ? count < 0.5 : count <= limit;
}

/** The counts of a column, in the table's volume, at every corner of the data and by both continuations; null if it cannot be had. */
function estimates(table: ClassTable, i: number, corners: readonly Curve[]): { counts: number[]; basis: Basis } | null {
  const column = table.columns[i] as ClassTable['columns'][number];
  const counts: number[] = [];
  const bases: Basis[] = [];
  for (const curve of corners) {
    const sizes = columnSizes(column, curve.counts.sizing);
    if (sizes === null) return null;
    const place = columnPlace(column, curve.counts);
    if (place !== null) {
      counts.push(columnCount(table, curve.counts, place.from, place.to));
      continue;
    }
    bases.push(basisAt(curve, sizes.from));
    if (sizes.to !== null) bases.push(basisAt(curve, sizes.to));
    for (const method of ['log-log', 'log-log2'] as const) {
      const lower = read(curve, sizes.from, method);
      const upper = sizes.to === null ? 0 : read(curve, sizes.to, method);
      if (lower === null || upper === null) return null;
      counts.push(scaleDecimal(Math.max(subtractDecimals(lower, upper), 0), table.perVolumeMl, 1));
    }
  }
  if (counts.length === 0) return null;
  const has = (basis: Basis) => bases.indexOf(basis) >= 0;
  return { counts, basis: has('extrapolated') ? 'extrapolated' : has('interpolated') ? 'interpolated' : 'measured' };
}

function basisAt(curve: Curve, size: number): Basis {
  const { sizes } = curve.counts;
  if (sizes.indexOf(size) >= 0) return 'measured';
  return size > (sizes[0] as number) && size < (sizes[sizes.length - 1] as number) ? 'interpolated' : 'extrapolated';
}

/** The count per mL at a size; null where there is nothing to continue, or no place for the size on the scales. */
function read(curve: Curve, size: number, method: 'log-log' | 'log-log2'): number | null {
  if (basisAt(curve, size) !== 'extrapolated') return countInside(curve, size);
  const { sizes, perMl } = curve.counts;
  const endsAtZero = size > (sizes[0] as number) && perMl[perMl.length - 1] === 0;
  if (!endsAtZero && (curve.positive < 2 || Math.min(size, sizes[0] as number) < 1)) return null;
  return countBeyond(curve, size, method);
}

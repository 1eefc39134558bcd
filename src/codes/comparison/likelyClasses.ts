/** What probably holds: the classes that the size distribution suggests. */
import type { Basis } from '../../counts/countAt.ts';
import { perMlBetween } from '../../counts/differential.ts';
import { type Curve, curveThrough } from '../../counts/interpolation.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { subtractDecimals } from '../../numeric/decimal.ts';
import { classIndex, className, placeOf } from '../classIndex.ts';
import { columnPlace, inTableVolume } from '../columnCount.ts';
import { columnSizes } from '../columnSizes.ts';
import type { ClassSpan, ClassTable, CountBands } from '../types.ts';
import { countAlong, fromCode, fromCounts, ways } from './continuation.ts';
import { cornersOf } from './corners.ts';
import { knowledgeOf } from './knowledge.ts';
import { possibleClasses } from './possibleClasses.ts';
import { worstUnsized } from './unsized.ts';

/** A span of classes with the counts it rests on. */
export interface LikelySpan extends ClassSpan {
  /** How each estimated column was come by, and the lowest and highest count found, in the table's own volume. */
  readonly basis: readonly {
    readonly column: string;
    readonly basis: Basis;
    readonly low: number;
    readonly high: number;
  }[];
}

/**
 * The classes a sample probably has in another table, by its size distribution. An estimate, always within
 * `possibleClasses`, which says what is certain. The class of the truth lies within it in at least 97 % of a stated
 * population of size distributions (power laws, log-log², test dust, wear), from counts and from codes:
 * docs/comparison.md has the population and the table. There counts are exact. Raw counts are taken as if they were: of
 * the oils with 20 to 100 of 4 µm(c) and larger per mL, 66 % had their NAS 1638 class within it when 1 mL was counted,
 * and 91 % when 10 mL were; of those with 500 to 3000, 95 and 98 %.
 *
 * Between measured sizes the `monotone` curve of `countAt` is read; between the only two counted, where that is a
 * straight line, a band from log-log² to as far on the other side of it. Beyond them the answer is a band between three
 * continuations: log-log, log-log², and a flatter power law. From a code (bands) both ends of every band are taken
 * through, in all mixtures between the sizes known; beyond them, in mixtures drawn in towards the middle of the bands.
 * Where a table allows no particle at all, fewer than half a particle expected in its volume may be none, and fewer
 * than a hundredth is taken as none. A column that cannot be estimated (two counts above zero are needed to continue)
 * has no `basis`; the bounds of `possibleClasses` stand for it, and if nothing bounds it either, it is `unseen`.
 *
 * @param known counts, or `limitsOf(iso4406, '18/16/13')`
 * @throws `sizing_not_convertible`, `no_answer` if bands contradict each other, and the errors of bad counts.
 *
 * @example
 * ```ts
 * import { iso4406, likelyClasses, limitsOf, nas1638 } from 'motescale/codes';
 * const span = likelyClasses(nas1638, limitsOf(iso4406, '18/16/13'));
 * span.columns[0]; // => { column: '5-15', lowest: '7', highest: '8' }
 * span.basis[0]?.basis; // => 'measured'
 * ```
 */
export function likelyClasses(table: ClassTable, known: CumulativeCounts | CountBands): LikelySpan {
  const possible = possibleClasses(table, known);
  const corners = cornersOf(known, knowledgeOf(known, table));
  const outer = corners.outer.map((counts) => curveThrough(counts, 'monotone'));
  const all = corners.all.map((counts) => curveThrough(counts, 'monotone'));
  const basis: LikelySpan['basis'][number][] = [];
  let lowest = placeOf(table, possible.lowest);
  let highest = lowest;
  const columns = possible.columns.map((bounds) => {
    const i = table.columns.map((column) => column.label).indexOf(bounds.column);
    const found = estimate(table, i, outer, all);
    if (found !== null) basis.push({ column: bounds.column, ...found });
    const span = found === null ? bounds : within(bounds, table, i, found);
    lowest = Math.max(lowest, placeOf(table, span.lowest));
    highest = Math.max(highest, placeOf(table, span.highest));
    return span;
  });
  highest = Math.max(highest, lowest, worstUnsized(table, known));
  return {
    lowest: className(table, lowest),
    highest: className(table, highest),
    columns,
    unseen: possible.unseen,
    basis,
  };
}

type ColumnSpan = ClassSpan['columns'][number];

type Estimate = Omit<LikelySpan['basis'][number], 'column'>;

/** The classes of an estimate, held within what is possible. */
function within(bounds: ColumnSpan, table: ClassTable, column: number, found: Estimate): ColumnSpan {
  const least = placeOf(table, bounds.lowest);
  const most = placeOf(table, bounds.highest);
  const held = (count: number, none: number) => {
    const index = classIndex(table, column, (limit) => {
      // an estimate is an expected count: under `none` of a particle, there is likely none
      return limit === 0 && found.basis !== 'measured' ? count < none : count <= limit;
    });
    return className(table, Math.min(Math.max(index, least), most));
  };
  return { column: bounds.column, lowest: held(found.low, 0.5), highest: held(found.high, 0.01) };
}

/** The lowest and highest count of a column, in the table's volume, over all corners; null if it cannot be had. */
function estimate(table: ClassTable, i: number, outer: readonly Curve[], all: readonly Curve[]): Estimate | null {
  const column = table.columns[i] as ClassTable['columns'][number];
  const first = outer[0];
  const sizes = first === undefined ? null : columnSizes(column, first.counts.sizing);
  if (first === undefined || sizes === null) return null;
  const bases = [basisAt(first, sizes.from), ...(sizes.to === null ? [] : [basisAt(first, sizes.to)])];
  const has = (basis: Basis) => bases.indexOf(basis) >= 0;
  const basis = has('extrapolated') ? 'extrapolated' : has('interpolated') ? 'interpolated' : 'measured';
  const flattening = outer.length > 1 ? fromCode : fromCounts;
  const perMl: number[] = [];
  for (const curve of basis === 'extrapolated' ? outer : all) {
    const place = columnPlace(column, curve.counts);
    if (place !== null) {
      perMl.push(perMlBetween(curve.counts, place.from, place.to));
      continue;
    }
    for (const way of ways) {
      const lower = countAlong(curve, sizes.from, way, flattening);
      const upper = sizes.to === null ? 0 : countAlong(curve, sizes.to, way, flattening);
      if (lower === null || upper === null) return null;
      perMl.push(Math.max(subtractDecimals(lower, upper), 0));
    }
  }
  const low = inTableVolume(table, Math.min.apply(null, perMl));
  return { basis, low, high: inTableVolume(table, Math.max.apply(null, perMl)) };
}

function basisAt(curve: Curve, size: number): Basis {
  const { sizes } = curve.counts;
  if (sizes.indexOf(size) >= 0) return 'measured';
  return size > (sizes[0] as number) && size < (sizes[sizes.length - 1] as number) ? 'interpolated' : 'extrapolated';
}

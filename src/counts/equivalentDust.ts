/**
 * Counts as milligrams of test dust per litre, and back: a way to picture a count or to check a counter, not a way to
 * weigh dirt.
 */
import { requireMeasure } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { checkCounts } from './checkCounts.ts';
import { countInside, curveThrough } from './interpolation.ts';
import type { CumulativeCounts } from './types.ts';

/** ISO medium test dust: particles per mL at 10 mg/L, midpoints of the printed ranges, 1 to 50 µm(c). */
const dustSizes: readonly number[] = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 20, 25, 30, 40, 50];
const dustPerMl: readonly number[] = [
  387000, 96450, 40000, 21800, 13300, 8555, 5620, 3770, 1830, 999, 608.5, 183, 71, 30.5, 9.3, 4.3,
];
const dustMgPerL = 10;

/** Dust that would give the counts, at each size and over all. */
export interface EquivalentDust {
  /** Geometric mean over the sizes with a count above zero, mg/L. */
  readonly mgPerL: number;
  /** Lowest and highest over the same: where they lie far apart, the oil's particles are unlike test dust. */
  readonly low: number;
  readonly high: number;
  readonly bySize: readonly { readonly size: number; readonly mgPerL: number }[];
}

/**
 * The concentration of ISO medium test dust (ISO 12103-1 A3), in mg/L, that would give these counts. An equivalent and
 * no measurement: dirt in service has another size distribution, shape and density, and only weighing a membrane tells
 * its mass.
 *
 * Range: counts by ISO 11171, sizes from 1 to 50 µm(c). Proportional to the count.
 * Source: ISO 16889:2008 Table 4, midpoints of the ranges at 10 mg/L; between its sizes by the curve of `countAt`.
 *
 * @throws `sizing_not_convertible` for another sizing, `out_of_range` for a size beyond the table, `no_answer` when
 * every count is zero; what is wrong with the counts, as `cumulativeCounts`.
 *
 * @example
 * ```ts
 * import { cumulativeCounts, equivalentDustMgPerL } from 'motescale/counts';
 * equivalentDustMgPerL(cumulativeCounts({ 4: 2180 })).mgPerL; // => 1
 * ```
 */
export function equivalentDustMgPerL(counts: CumulativeCounts): EquivalentDust {
  checkCounts(counts);
  if (counts.sizing !== 'iso11171') {
    const expected = "'iso11171', in which the dust is known";
    throw motescaleError('sizing_not_convertible', 'counts.sizing', counts.sizing, expected);
  }
  const dust = curveThrough({ sizing: 'iso11171', sizes: dustSizes, perMl: dustPerMl }, 'monotone');
  const bySize = counts.sizes.map((size, i) => {
    if (size < 1 || size > 50) {
      const expected = 'a size in µm(c) from 1 to 50 (the span of the table)';
      throw motescaleError('out_of_range', `counts.sizes[${i}]`, size, expected);
    }
    return { size, mgPerL: (dustMgPerL * (counts.perMl[i] as number)) / countInside(dust, size) };
  });
  const found = bySize.map((entry) => entry.mgPerL).filter((mgPerL) => mgPerL > 0);
  if (found.length === 0)
    throw motescaleError('no_answer', 'counts.perMl', counts.perMl, 'a count above zero at one size');
  const low = Math.min.apply(null, found);
  const high = Math.max.apply(null, found);
  let sum = 0;
  for (const mgPerL of found) sum += log(mgPerL) - log(high);
  return { mgPerL: high * exp(sum / found.length), low, high, bySize };
}

/**
 * The counts of ISO medium test dust (ISO 12103-1 A3) at a concentration: what a counter should show on a validation
 * fluid, to within the ranges of the table. The inverse of `equivalentDustMgPerL`.
 *
 * Range: 0 to 1,000,000 mg/L; the table is printed for 3, 10 and 15 mg/L, where every count lies within its range.
 * Counts are in proportion to the concentration; sizes 1 to 50 µm(c). Above the coincidence limit of a counter it shows
 * less. Source: ISO 16889:2008 Table 4, midpoints of the ranges at 10 mg/L.
 *
 * @throws `out_of_range`, `wrong_type`, `not_a_number`, `infinite`, `negative`.
 *
 * @example
 * ```ts
 * import { countAt, testDustCounts } from 'motescale/counts';
 * countAt(testDustCounts(3), 4).perMl; // => 6540
 * ```
 */
export function testDustCounts(mgPerL: number): CumulativeCounts {
  const dust = requireMeasure(mgPerL, 'mgPerL', 0, 1000000, 'a concentration in mg/L');
  const perMl = dustPerMl.map((count) => proportion(count, dust, dustMgPerL));
  return { sizing: 'iso11171', sizes: dustSizes.slice(), perMl };
}

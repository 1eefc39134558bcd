/** The count at a size nobody measured, and the size at a count. */
import { requireNonNegative, requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { findRoot } from '../numeric/root.ts';
import { checkCounts } from './checkCounts.ts';
import { countBeyond, countInside, curveThrough, type InterpolationMethod } from './interpolation.ts';
import { perMlRule, requireSize } from './ranges.ts';
import type { CumulativeCounts } from './types.ts';

/** How a count was come by. */
export type Basis = 'measured' | 'interpolated' | 'extrapolated';

/**
 * Particles of a size and larger, per mL, at any size.
 *
 * At a measured size: the measured count, whatever the method. Between two: by `method`, `monotone` where left out.
 * Beyond the measured sizes: only with `extrapolate: true`, as a straight continuation of the outer two counts on the
 * scales of the method (`monotone` continues like `log_log`); the further, the less it means. Between a count and a
 * zero the scales have no place for the zero: there the count falls in proportion to the logarithm of size. The curve
 * never rises with size, to the last digits of a double.
 *
 * Accuracy, leaving out each inner size of the ISO 16889:2008 Table 4 counts in turn, 2 to 40 µm(c): `monotone` within
 * 4 %, `log_log` 12 %, `log_log2` 63 % (14 % from 3 µm(c)). No fluid-power standard prescribes a method (common
 * practice).
 *
 * @param counts cumulative counts
 * @param size in µm, in the sizing of the counts
 * @throws `out_of_range` beyond the measured sizes without `extrapolate`; `too_few` where there are no two counts above
 * zero to continue; `no_answer` where the continuation passes 1e12 per mL; `unknown_option`; what is wrong with the
 * counts, as `cumulativeCounts`.
 *
 * @example
 * ```ts
 * import { countAt, cumulativeCounts } from 'motescale/counts';
 * const counts = cumulativeCounts({ 4: 21800, 6: 8555, 14: 608.5 });
 * countAt(counts, 6); // => { perMl: 8555, basis: 'measured' }
 * countAt(counts, 10).basis; // => 'interpolated'
 * ```
 */
export function countAt(
  counts: CumulativeCounts,
  size: number,
  options: { readonly method?: InterpolationMethod | undefined; readonly extrapolate?: boolean | undefined } = {},
): { perMl: number; basis: Basis } {
  checkCounts(counts);
  requireSize(size, 'size');
  requireObject(options, 'options', undefined, ['method', 'extrapolate']);
  const method = requireOneOf(options.method ?? 'monotone', 'options.method', ['monotone', 'log_log', 'log_log2']);
  const place = counts.sizes.indexOf(size);
  if (place >= 0) return { perMl: counts.perMl[place] as number, basis: 'measured' };
  const curve = curveThrough(counts, method);
  const smallest = counts.sizes[0] as number;
  const largest = counts.sizes[counts.sizes.length - 1] as number;
  if (size > smallest && size < largest) return { perMl: countInside(curve, size), basis: 'interpolated' };
  if (options.extrapolate !== true) {
    const expected = `a size in µm from ${smallest} to ${largest}, or { extrapolate: true }`;
    throw motescaleError('out_of_range', 'size', size, expected);
  }
  const perMl = countBeyond(curve, size, method);
  if (perMl > perMlRule.most) {
    const expected = 'a size nearer to those measured: there the continued count passes 1e12 per mL';
    throw motescaleError('no_answer', 'size', size, expected);
  }
  return { perMl, basis: 'extrapolated' };
}

/**
 * What must hold at a size, since cumulative counts never rise with size: at least `above` and at most `upTo` particles
 * per mL. Both are the measured count at a measured size. `upTo` is null below the smallest measured size, where
 * nothing bounds the count.
 *
 * @throws `out_of_range`, `wrong_type`, `not_a_number`, `infinite`, `negative` for what is no size; what is wrong with
 *   the counts.
 *
 * @example
 * ```ts
 * import { countBounds, cumulativeCounts } from 'motescale/counts';
 * countBounds(cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }), 10); // => { above: 33, upTo: 402 }
 * ```
 */
export function countBounds(counts: CumulativeCounts, size: number): { above: number; upTo: number | null } {
  checkCounts(counts);
  requireSize(size, 'size');
  let above = 0;
  let upTo: number | null = null;
  counts.sizes.forEach((measured, i) => {
    const count = counts.perMl[i] as number;
    if (measured <= size) upTo = count;
    if (measured >= size) above = Math.max(above, count);
  });
  return { above, upTo };
}

/**
 * The smallest size, in µm, of which (and larger) there are no more than `perMl` particles, on the `monotone` curve of
 * `countAt`.
 *
 * @throws `out_of_range` unless `perMl` lies between the counts at the largest and the smallest measured size;
 * `wrong_type`, `not_a_number`, `infinite`, `negative` for what is no count; what is wrong with the counts.
 *
 * @example
 * ```ts
 * import { cumulativeCounts, sizeAt } from 'motescale/counts';
 * sizeAt(cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }), 402); // => 6
 * ```
 */
export function sizeAt(counts: CumulativeCounts, perMl: number): number {
  checkCounts(counts);
  const target = requireNonNegative(perMl, 'perMl', 'particles per mL, 0 or more');
  const { sizes } = counts;
  const most = counts.perMl[0] as number;
  const least = counts.perMl[sizes.length - 1] as number;
  if (target > most || target < least)
    throw motescaleError('out_of_range', 'perMl', perMl, `particles per mL from ${least} to ${most} (as measured)`);
  let i = 0;
  while ((counts.perMl[i] as number) > target) i += 1;
  const upper = sizes[i] as number;
  if (counts.perMl[i] === target) return upper;
  const curve = curveThrough(counts, 'monotone');
  return findRoot((size) => countInside(curve, size) - target, sizes[i - 1] as number, upper, 'perMl');
}

/**
 * The Mann-Kendall test: is there a trend at all? It asks only which of two readings is higher, so no outlier can mislead it.
 */
import { requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import type { Source } from '../source.ts';
import { countPairs } from './kendall.ts';
import { exactChance, mostForExact, normalChance, standardised } from './kendallChance.ts';
import { orderPoints, requireSameLength, requireSeries } from './trendPoints.ts';

/** Where the test stands. */
export const mannKendallSource: Source = {
  document: 'US EPA, Data Quality Assessment: Statistical Methods for Practitioners, QA/G-9S',
  edition: '2006',
  place: 'p. 109, Mann-Kendall trend test, 11 weekly values',
  standing: 'published',
};

/** What the test found. */
export interface MannKendall {
  readonly n: number;
  /** Pairs that rise less pairs that fall. */
  readonly s: number;
  /** Of `s`, were there no trend; corrected for ties. */
  readonly variance: number;
  /** `s` in standard deviations, with the continuity correction; 0 where `s` is 0. */
  readonly z: number;
  /** The chance of an `s` at least so far from 0, either way, were there no trend. */
  readonly p: number;
  /** `s` over the number of all pairs, n (n - 1) / 2: 1 where every pair rises, -1 where every pair falls. */
  readonly tau: number;
  /** How `p` was come by: counted out, or by the normal distribution. */
  readonly basis: 'exact' | 'normal';
}

/**
 * Whether values rise or fall with time: the Mann-Kendall test, with the correction for ties.
 *
 * `values` in order of time, or with `times` beside them, then in any order: points of the same time form no pair. Trends in cleanliness are
 * best run on continuous scale numbers. `p` is exact up to 10 points (18 with `method: 'exact'`), ties among the values included, and from
 * the normal distribution beyond or where times are tied; there it is within 0.01 of the exact chance from 11 points without ties.
 *
 * Assumes readings independent of each other. Readings a few minutes apart are not: they make `p` far too small. Roll up to hours or days first.
 * A trend not found is no proof that there is none, and no reason to let a machine run.
 *
 * Range: 2 to 300,000 points. O(n log n) time, O(n) memory. Sources: EPA QA/G-9S (2006), p. 109; EPA 530/R-09-007 (2009), chapter 17;
 * M. G. Kendall, Rank Correlation Methods (1970), chapter 4.
 *
 * @throws `too_few`, `out_of_range`, `length_mismatch`, `unknown_option`; `out_of_range` also for `method: 'exact'` where it cannot be counted out.
 *
 * @example
 * ```ts
 * import { mannKendall } from 'motescale/trend';
 * const weekly = mannKendall([10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15]);
 * weekly.s; // => 22
 * weekly.variance; // ~> 155.33
 * weekly.z; // ~> 1.685
 * ```
 */
export function mannKendall(
  values: readonly number[],
  options: { readonly times?: readonly number[]; readonly method?: 'exact' | 'normal' } = {},
): MannKendall {
  const list = requireSeries(values, 'values', 2);
  requireObject(options, 'options');
  const times =
    options.times === undefined ? list.map((_value, i) => i) : requireSeries(options.times, 'options.times', 2);
  requireSameLength(times, list);
  const counts = countPairs(orderPoints(times, list), 0);
  const { n, variance } = counts;
  const s = counts.rising - counts.falling;
  const z = standardised(s, variance);
  const exact = wantsExact(options.method, n, counts.timeTies);
  return {
    n,
    s,
    variance,
    z,
    p: exact ? exactChance(n, counts.valueTies, s) : normalChance(z),
    tau: s / ((n * (n - 1)) / 2),
    basis: exact ? 'exact' : 'normal',
  };
}

/** Tables of the exact chance end at 10 points; so does the choice for it, unless asked for by name. */
function wantsExact(method: unknown, n: number, timeTies: readonly number[]): boolean {
  if (method === undefined) return n <= 10 && timeTies.length === 0;
  if (requireOneOf(method, 'options.method', ['exact', 'normal']) === 'normal') return false;
  if (n <= mostForExact && timeTies.length === 0) return true;
  throw motescaleError('out_of_range', 'options.method', method, `at most ${mostForExact} points, no two of one time`);
}

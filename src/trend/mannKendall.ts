/**
 * The Mann-Kendall test: is there a trend at all? It asks only which of two readings is higher, so no outlier can
 * mislead it.
 */
import { requireObject, requireOneOf, requireWholeWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { neighbourCorrelation } from './dependence/neighbours.ts';
import { countPairs, type KendallCounts } from './kendall.ts';
import { exactChance, mostForExact, normalChance, standardised } from './kendallChance.ts';
import { hamedRaoFactor, preWhitened, trendFreePreWhitened, yueWangFactor } from './kendallCorrections.ts';
import { senSlopeOf } from './senSlope.ts';
import { orderPoints, requirePairs, requirePresent, requireSeries } from './trendPoints.ts';

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
  /**
   * What the test takes for granted of neighbouring readings: that they are independent, or that the named correction
   * makes up for it.
   */
  readonly independence: 'assumed' | KendallCorrection;
  /**
   * How alike neighbours are beside the trend: the correlation of the ranks of what the Sen line leaves. Far from 0,
   * `p` is wrong: use
   * `autocorrelatedTrend`. Null where the line leaves nothing, or of fewer than three readings.
   */
  readonly lag1: number | null;
}

const corrections = ['hamed_rao', 'yue_wang', 'pre_whitening', 'trend_free_pre_whitening'] as const;

/** A published correction for readings that depend on each other. */
export type KendallCorrection = (typeof corrections)[number];

/**
 * Whether values rise or fall with time: the Mann-Kendall test, with the correction for ties.
 *
 * `values` in order of time, or with `times` beside them, then in any order: points of the same time form no pair.
 * Trends in cleanliness are best run on continuous scale numbers. `p` is exact up to 10 points (18 with
 * `method: 'exact'`), ties among the values included, and from the normal distribution beyond or where times are tied;
 * there it is within 0.01 of the exact chance from 11 points without ties.
 *
 * Assumes readings independent of each other. Those of oil are not, and `p` comes out far too small: at a correlation
 * of 0.9 between neighbours it calls a trend in half of all series without one. `lag1` warns; `autocorrelatedTrend` is
 * the honest test.
 *
 * `correction` applies a published remedy, by the normal distribution, to values in equal steps of time: `hamed_rao`
 * and `yue_wang` multiply the variance (correlations up to `lags`, all where left out), `pre_whitening` and
 * `trend_free_pre_whitening` take from each value what it has from the one before, so that n, s and variance are those
 * of the new series. docs/rates.md has how often each is wrong.
 *
 * A value of null is one that is missing; a correction, which needs equal steps, refuses it.
 *
 * A trend not found is no proof that there is none, and no reason to let a machine run.
 *
 * Range: 2 to 300,000 points. O(n log n) time, O(n) memory. Sources: EPA QA/G-9S (2006), p. 109; EPA 530/R-09-007
 * (2009), chapter 17; M. G. Kendall, Rank Correlation Methods (1970), chapter 4; corrections: Hamed and Rao (1998), Yue
 * and Wang (2004), Yue et al. (2002).
 *
 * @throws `too_few`, `out_of_range`, `length_mismatch`, `unknown_option`; `out_of_range` also for `method: 'exact'`
 * where it cannot be counted out;
 * `no_answer` where a correction leaves no variance.
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
  values: readonly (number | null)[],
  options: {
    readonly times?: readonly number[] | undefined;
    readonly method?: 'exact' | 'normal' | undefined;
    readonly correction?: KendallCorrection | undefined;
    readonly lags?: number | undefined;
  } = {},
): MannKendall {
  requireObject(options, 'options', undefined, ['times', 'method', 'correction', 'lags']);
  const { times } = options;
  const { x, y } = times === undefined ? requirePresent(values, 2) : requirePairs(times, values, 2, 'options.times');
  const points = orderPoints(x, y);
  const counts = countPairs(points, 0);
  const slope = counts.timeTies[0] === counts.n ? 0 : senSlopeOf(points, counts);
  const lag1 = neighbourCorrelation(points, slope);
  if (options.correction !== undefined) return { ...corrected(values, options), lag1 };
  if (options.lags !== undefined) {
    throw motescaleError('unknown_option', 'options.lags', options.lags, 'lags together with a correction');
  }
  const exact = wantsExact(options.method, counts.n, counts.timeTies);
  const p = exact ? exactChance(counts.n, counts.valueTies, counts.rising - counts.falling) : null;
  return { ...outcome(counts, 1, p), independence: 'assumed', lag1 };
}

/** The figures of the test from counted pairs; the chance by the normal distribution where it is not given. */
function outcome(counts: KendallCounts, factor: number, p: number | null) {
  const { n } = counts;
  const s = counts.rising - counts.falling;
  const variance = counts.variance * factor;
  const z = standardised(s, variance);
  const basis: 'exact' | 'normal' = p === null ? 'normal' : 'exact';
  return { n, s, variance, z, p: p ?? normalChance(z), tau: s / ((n * (n - 1)) / 2), basis };
}

const mostProducts = 100000000;

/** The test with a published correction, on values in order of time and equal steps. */
function corrected(
  values: unknown,
  options: NonNullable<Parameters<typeof mannKendall>[1]>,
): Omit<MannKendall, 'lag1'> {
  const correction = requireOneOf(options.correction, 'options.correction', corrections);
  if (options.times !== undefined || options.method === 'exact') {
    const parameter = options.times === undefined ? 'options.method' : 'options.times';
    const received = options.times ?? options.method;
    throw motescaleError('unknown_option', parameter, received, 'no times and no exact method beside a correction');
  }
  const list = requireSeries(values, 'values', 4);
  const n = list.length;
  const lags = options.lags ?? n - 1;
  requireWholeWithin(lags, 'options.lags', 1, n - 1);
  const multiplies = correction === 'hamed_rao' || correction === 'yue_wang';
  if (multiplies && n * lags > mostProducts) {
    throw motescaleError('out_of_range', 'options.lags', lags, `at most ${mostProducts} products of n and lags`);
  }
  const pointsOf = (series: readonly number[]) =>
    orderPoints(
      series.map((_value, i) => i),
      series,
    );
  const points = pointsOf(list);
  const counts = countPairs(points, 0);
  const slope = senSlopeOf(points, counts);
  if (!multiplies) {
    const white = correction === 'pre_whitening' ? preWhitened(list) : trendFreePreWhitened(list, slope);
    return { ...outcome(countPairs(pointsOf(white), 0), 1, null), independence: correction };
  }
  const factor = (correction === 'hamed_rao' ? hamedRaoFactor : yueWangFactor)(list, slope, lags);
  if (factor <= 0)
    throw motescaleError('no_answer', 'options.correction', correction, 'correlations that leave a variance');
  return { ...outcome(counts, factor, null), independence: correction };
}

/** Tables of the exact chance end at 10 points; so does the choice for it, unless asked for by name. */
function wantsExact(method: unknown, n: number, timeTies: readonly number[]): boolean {
  if (method === undefined) return n <= 10 && timeTies.length === 0;
  if (requireOneOf(method, 'options.method', ['exact', 'normal']) === 'normal') return false;
  if (n <= mostForExact && timeTies.length === 0) return true;
  throw motescaleError('out_of_range', 'options.method', method, `at most ${mostForExact} points, no two of one time`);
}

/**
 * The Sen slope: how steep a trend is, as the median of the slopes between all pairs of readings. A few wild readings
 * do not move it.
 */
import { confidenceOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { normalQuantile } from '../numeric/normal.ts';
import { medianOf } from '../numeric/selectRank.ts';
import { neighbourCorrelation } from './dependence/neighbours.ts';
import { countPairs, type KendallCounts } from './kendall.ts';
import { slopesOfRanks } from './slopeSelection.ts';
import { orderPoints, requirePairs, slopeBetween, type TrendPoints } from './trendPoints.ts';

/** A trend line and how sure its slope is. */
export interface SenSlope {
  /** Change of the value per unit of time. */
  readonly slope: number;
  /** Of the line at time 0: the median of the values less `slope` times the median of the times. */
  readonly intercept: number;
  /** The limits of the slope; null where there are too few pairs to give that limit with this confidence. */
  readonly low: number | null;
  readonly high: number | null;
  /** How many pairs of different time there are. */
  readonly pairs: number;
  /** The limits take readings for independent of each other. */
  readonly independence: 'assumed';
  /**
   * How alike neighbours in time are beside the trend: the correlation of the ranks of what the line leaves. Far from
   * 0, the limits are too narrow: use `autocorrelatedTrend`. Null where the line leaves nothing, or of fewer than three
   * readings.
   */
  readonly lag1: number | null;
}

/**
 * The slope of a trend as the median slope of all pairs of different time, with two-sided confidence limits (0.95
 * where left out).
 *
 * Times in any unit and any order, as irregular as they come, several points of one time allowed; where a value is
 * null, its time is left out. The slope of a pair is
 * `(later value - earlier value) / (later time - earlier time)` in doubles. All pairs are accounted for, none sampled;
 * the result has the same bits as sorting all slopes, in O(n log n) time (some 15 sorts of the points) and O(n) memory.
 * One exception: where over max(8 n, 131072) slopes around the median agree to 13 digits without being equal, and the
 * differences of the points do not fit a double, the last few bits may differ.
 *
 * The limits are the slopes of rank (N - C) / 2 and (N + C) / 2 + 1 of N, between ranks in proportion, with C = z
 * sqrt(variance of S): approximate below 10 points. Of continuous values, limits of 95 % hold the slope in 95 to 97 %
 * from 8 points on (10,000 series each). **With many ties they are too narrow**: whole values of a scatter of 0.5 and a
 * slope of 0.1 per point are held in 82, 84, 88, 90, 93 and 96 % for 5, 8, 10, 15, 20 and 30 points. Give continuous
 * scale numbers, not codes. They assume independent readings, which those of oil are not: `lag1` warns,
 * `autocorrelatedTrend` knows.
 *
 * Range: 2 to 300,000 points, times and values 0 or of magnitude 1e-60 to 1e60. Sources: P. K. Sen, J. Am. Stat.
 * Assoc. 63 (1968) 1379; R. O. Gilbert (1987), chapter 16; EPA 530/R-09-007 (2009), examples 17-5 to 17-7; intercept:
 * W. J. Conover, Practical Nonparametric Statistics (1980), 5.5.
 *
 * @throws `too_few` also where all times are the same; `out_of_range`, `length_mismatch`.
 *
 * @example
 * ```ts
 * import { senSlope } from 'motescale/trend';
 * const sodium = senSlope([89.6, 90.1, 90.8, 91.1, 92.1, 93.1, 94.1, 95.6, 96.1, 96.3], [56, 53, 51, 55, 52, 60, 62,
 * 59, 61, 63]);
 * sodium.slope; // ~> 1.3333333
 * sodium.low; // ~> 0.3992083
 * ```
 */
export function senSlope(
  times: readonly number[],
  values: readonly (number | null)[],
  options: { readonly confidence?: number | undefined } = {},
): SenSlope {
  const { x, y } = requirePairs(times, values, 2);
  const confidence = confidenceOf(options);
  const points = orderPoints(x, y);
  const line = medianSlope(points, countPairs(points, 0), confidence);
  const intercept = medianOf(y) - line.slope * medianOf(x);
  return { ...line, intercept, independence: 'assumed', lag1: neighbourCorrelation(points, line.slope) };
}

/**
 * The median slope of ordered points, its limits, and the number of pairs; `counts` are those of all groups together.
 */
export function medianSlope(
  points: TrendPoints,
  counts: Pick<KendallCounts, 'n' | 'rising' | 'falling' | 'level' | 'variance'>,
  confidence: number,
  room?: number,
): Pick<SenSlope, 'slope' | 'low' | 'high' | 'pairs'> {
  const pairs = counts.rising + counts.falling + counts.level;
  if (pairs === 0) throw motescaleError('too_few', 'times', 1, 'at least 2 different times');
  const spread = -normalQuantile((1 - confidence) / 2) * Math.sqrt(counts.variance);
  const low = (pairs - spread) / 2;
  const high = (pairs + spread) / 2 + 1;
  const wanted = [Math.floor((pairs + 1) / 2), Math.floor(pairs / 2) + 1];
  // and so `high` is no more than `pairs`
  const inside = low >= 1;
  if (inside) wanted.push(Math.floor(low), Math.ceil(low), Math.floor(high), Math.ceil(high));
  const [below, above, ...limits] = slopesOfRanks(points, counts, wanted, room) as [number, number, ...number[]];
  return {
    slope: below === above ? below : (below + above) / 2,
    low: inside ? between(limits[0] as number, limits[1] as number, low) : null,
    high: inside ? between(limits[2] as number, limits[3] as number, high) : null,
    pairs,
  };
}

/** The median of all slopes between two points of different time. */
export function senSlopeOf(
  points: TrendPoints,
  counts: Pick<KendallCounts, 'n' | 'rising' | 'falling' | 'level'>,
): number {
  const pairs = counts.rising + counts.falling + counts.level;
  const ranks = [Math.floor((pairs + 1) / 2), Math.floor(pairs / 2) + 1];
  const [below, above] = slopesOfRanks(points, counts, ranks) as [number, number];
  return below === above ? below : (below + above) / 2;
}

/** The same of a few points, all of different times: each pair is looked at. */
export function senSlopeOfFew(points: TrendPoints): number {
  const slopes: number[] = [];
  for (let right = 1; right < points.x.length; right += 1)
    for (let left = 0; left < right; left += 1) slopes.push(slopeBetween(points, left, right));
  return medianOf(slopes);
}

/** In proportion between the slopes of the ranks below and above a rank that need not be whole. */
function between(below: number, above: number, rank: number): number {
  return below + (rank - Math.floor(rank)) * (above - below);
}

/**
 * Kendall's count: of all pairs of points, how many rise, fall and stay level with time, and how much that count would
 * scatter by chance.
 * By merging, in O(n log n) time and O(n) memory: a pair that falls is a pair that changes sides when the points are
 * sorted by value.
 *
 * Sources: W. R. Knight, J. Am. Stat. Assoc. 61 (1966) 436 (counting); M. G. Kendall, Rank Correlation Methods, 4th ed.
 * (1970), chapter 4 (variance with ties in both); R. O. Gilbert, Statistical Methods for Environmental Pollution
 * Monitoring (1987), 16.4 and 17.2.
 */
import { sortByValue } from './slopeMerge.ts';
import { places, type TrendPoints } from './trendPoints.ts';

/** What one group of points says. Pairs of equal time count nowhere. */
export interface KendallCounts {
  readonly n: number;
  readonly rising: number;
  readonly falling: number;
  readonly level: number;
  /** Of rising less falling, were there no trend. */
  readonly variance: number;
  /** The sizes of the groups of equal values, and of equal times. */
  readonly valueTies: readonly number[];
  readonly timeTies: readonly number[];
}

export function countPairs(points: TrendPoints, group: number): KendallCounts {
  const { x, y } = points;
  const start = points.starts[group] as number;
  const end = points.starts[group + 1] as number;
  const n = end - start;
  const order = places(start, end);
  const timeTies = runs(n, (i) => x[start + i] === x[start + i - 1]);
  const bothTies = runs(n, (i) => x[start + i] === x[start + i - 1] && y[start + i] === y[start + i - 1]);
  const falling = sortByValue(order, y);
  const valueTies = runs(n, (i) => y[order[i] as number] === y[order[i - 1] as number]);
  const level = pairsIn(valueTies) - pairsIn(bothTies);
  const rising = (n * (n - 1)) / 2 - pairsIn(timeTies) - level - falling;
  return { n, rising, falling, level, variance: varianceOf(n, valueTies, timeTies), valueTies, timeTies };
}

/** The lengths of runs of two and more. */
function runs(n: number, sameAsBefore: (i: number) => boolean): number[] {
  const lengths: number[] = [];
  let length = 1;
  for (let i = 1; i <= n; i += 1) {
    if (i < n && sameAsBefore(i)) length += 1;
    else {
      if (length > 1) lengths.push(length);
      length = 1;
    }
  }
  return lengths;
}

function pairsIn(ties: readonly number[]): number {
  return sumOver(ties, pair) / 2;
}

function varianceOf(n: number, valueTies: readonly number[], timeTies: readonly number[]): number {
  if (n < 2 || valueTies[0] === n || timeTies[0] === n) return 0;
  const spread = (t: number) => t * (t - 1) * (2 * t + 5);
  const main = (spread(n) - sumOver(valueTies, spread) - sumOver(timeTies, spread)) / 18;
  // two points with a tie have been answered before
  if (n < 3) return main;
  const pairs = (sumOver(valueTies, pair) * sumOver(timeTies, pair)) / (2 * pair(n));
  return main + pairs + (sumOver(valueTies, triple) * sumOver(timeTies, triple)) / (9 * triple(n));
}

function pair(t: number): number {
  return t * (t - 1);
}

function triple(t: number): number {
  return t * (t - 1) * (t - 2);
}

function sumOver(ties: readonly number[], f: (t: number) => number): number {
  let sum = 0;
  for (const t of ties) sum += f(t);
  return sum;
}

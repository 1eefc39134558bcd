/**
 * How the points of a series lie in time, and sums over pairs that fade with the distance of the two.
 * Every sum is taken from both ends at once, so that a series read backwards has the same bits.
 */
import { power } from '../../numeric/exponential.ts';
import { doubles, type NumberList } from '../../numeric/lists.ts';
import { selectRank } from '../../numeric/selectRank.ts';

/** Points in order of time. Distances are in units of the usual spacing of two neighbours. */
export interface Layout {
  readonly n: number;
  /** Time from the mean of all times, in the unit of the times. */
  readonly fromMean: NumberList;
  /** The sum of their squares. */
  readonly squares: number;
  /** The mean of all times. */
  readonly mean: number;
  /** The usual distance of two neighbours of different time: their lower median. */
  readonly spacing: number;
  /** The distance from each point to the next. */
  readonly gaps: NumberList;
  /** From the first to the last point. */
  readonly span: number;
}

/** The layout of times in ascending order, of which at least two differ. */
export function layoutOf(times: NumberList): Layout {
  const n = times.length;
  const first = times[0] as number;
  const middle = first + ((times[n - 1] as number) - first) / 2;
  const fromMean = doubles(n);
  for (let i = 0; i < n; i += 1) fromMean[i] = (times[i] as number) - middle;
  const offset = sumOf(fromMean, (value) => value) / n;
  for (let i = 0; i < n; i += 1) fromMean[i] = (fromMean[i] as number) - offset;
  const gaps = doubles(n - 1);
  const positive: number[] = [];
  for (let i = 0; i + 1 < n; i += 1) {
    gaps[i] = (times[i + 1] as number) - (times[i] as number);
    if ((gaps[i] as number) > 0) positive.push(gaps[i] as number);
  }
  const spacing = selectRank(positive, Math.floor((positive.length + 1) / 2));
  for (let i = 0; i + 1 < n; i += 1) gaps[i] = (gaps[i] as number) / spacing;
  const span = ((times[n - 1] as number) - first) / spacing;
  return { n, fromMean, squares: sumOf(fromMean, square), mean: middle + offset, spacing, gaps, span };
}

/** A sum taken from both ends at once. */
export function sumOf(list: NumberList, part: (value: number, i: number) => number): number {
  const n = list.length;
  const half = Math.floor(n / 2);
  let sum = 0;
  for (let i = 0; i < half; i += 1) {
    const j = n - 1 - i;
    sum += part(list[i] as number, i) + part(list[j] as number, j);
  }
  return n % 2 === 1 ? sum + part(list[half] as number, half) : sum;
}

export function square(value: number): number {
  return value * value;
}

/** What is left of a correlation over each gap: `memory` per spacing. */
export function fadings(layout: Layout, memory: number): NumberList {
  const kept = doubles(layout.gaps.length);
  let before = 1;
  let left = memory;
  for (let i = 0; i < kept.length; i += 1) {
    const gap = layout.gaps[i] as number;
    if (gap !== before) {
      before = gap;
      left = gap === 0 ? 1 : memory === 0 ? 0 : power(memory, gap);
    }
    kept[i] = gap === 1 ? memory : left;
  }
  return kept;
}

/**
 * The sum over all pairs i, j of weight i x weight j x their correlation: 1 for a point with itself, `share` x what is
 * left of the correlation over the time between for two. The variance of a weighted sum of points of variance 1, in
 * O(n).
 */
export function dependentSum(kept: NumberList, weights: NumberList, share: number): number {
  const n = weights.length;
  let forth = 0;
  let back = 0;
  let before = 0;
  let after = 0;
  for (let i = 0; i < n; i += 1) {
    const j = n - 1 - i;
    const left = weights[i] as number;
    const right = weights[j] as number;
    if (i > 0) {
      before *= kept[i - 1] as number;
      after *= kept[j] as number;
    }
    forth += left * before;
    back += right * after;
    before += left;
    after += right;
  }
  return sumOf(weights, square) + share * (forth + back);
}

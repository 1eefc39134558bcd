/** How alike neighbours are: correlations of the ranks of what a line leaves, over pairs of points that exist. */
import { doubles, integers, type NumberList } from '../../numeric/lists.ts';
import { type Layout, square, sumOf } from './layout.ts';

/** The correlation of pairs about `lag` spacings apart. */
export interface LagCorrelation {
  readonly lag: number;
  /** How far apart the pairs are, on average, in spacings. */
  readonly distance: number;
  readonly pairs: number;
  readonly correlation: number;
}

/** No simple share of two residuals lies on an edge of this grid, so no rounding can break or make a tie. */
const grid = 987654321.1234567;

/** Ranks about 0, shared by equals. Residuals are compared to nine digits of the largest: rounding orders none. */
export function centredRanks(residuals: NumberList): NumberList {
  const n = residuals.length;
  let largest = 0;
  for (let i = 0; i < n; i += 1) largest = Math.max(largest, Math.abs(residuals[i] as number));
  const ranks = doubles(n);
  if (largest === 0) return ranks;
  const steps = doubles(n);
  const order: number[] = [];
  for (let i = 0; i < n; i += 1) {
    const step = ((residuals[i] as number) / largest) * grid;
    steps[i] = step < 0 ? -Math.floor(0.5 - step) : Math.floor(step + 0.5);
    order.push(i);
  }
  order.sort((one, other) => (steps[one] as number) - (steps[other] as number));
  for (let i = 0; i < n; ) {
    let j = i;
    while (j + 1 < n && steps[order[j + 1] as number] === steps[order[i] as number]) j += 1;
    for (let k = i; k <= j; k += 1) ranks[order[k] as number] = (i + j - (n - 1)) / 2;
    i = j + 1;
  }
  return ranks;
}

/**
 * How many of the next points are looked at for pairs: enough for the lags wanted, and for a few points of one time.
 */
const neighbours = 24;

/**
 * The correlations at 1 to `most` spacings, those without a pair left out. As usual each is taken over all n points and
 * not over its own pairs, so that a far lag weighs less; only what gaps take away is made good.
 */
export function lagCorrelations(layout: Layout, ranks: NumberList, most: number): LagCorrelation[] {
  const { n, gaps, span } = layout;
  const sums = doubles(most + 1);
  const distances = doubles(most + 1);
  const pairs = integers(most + 1);
  for (let i = 0; i < n; i += 1) {
    let distance = 0;
    for (let j = i + 1; j < n && j <= i + neighbours; j += 1) {
      distance += gaps[j - 1] as number;
      const lag = Math.floor(distance + 0.5);
      if (lag > most) break;
      sums[lag] = (sums[lag] as number) + (ranks[i] as number) * (ranks[j] as number);
      distances[lag] = (distances[lag] as number) + distance;
      pairs[lag] = (pairs[lag] as number) + 1;
    }
  }
  const variance = sumOf(ranks, square) / n;
  const found: LagCorrelation[] = [];
  for (let lag = 1; lag <= most; lag += 1) {
    const count = pairs[lag] as number;
    if (count === 0) continue;
    const mean = (sums[lag] as number) / count;
    const distance = (distances[lag] as number) / count;
    const whole = Math.max(0, (span + 1 - lag) / (span + 1));
    found.push({ lag, distance, pairs: count, correlation: variance === 0 ? 0 : (mean / variance) * whole });
  }
  return found;
}

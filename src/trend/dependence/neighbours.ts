/** How alike neighbours are, as a warning beside the tests that assume they are not. */
import { doubles } from '../../numeric/lists.ts';
import type { TrendPoints } from '../trendPoints.ts';
import { centredRanks } from './correlations.ts';
import { square, sumOf } from './layout.ts';

/**
 * The correlation of the ranks of what the line of this slope leaves, between points next to each other in time; null
 * where the line leaves nothing, or of fewer than three points.
 */
export function neighbourCorrelation(points: TrendPoints, slope: number): number | null {
  const { x, y } = points;
  const n = x.length;
  if (n < 3) return null;
  const first = x[0] as number;
  const base = y[0] as number;
  const residuals = doubles(n);
  let size = 0;
  let largest = 0;
  for (let i = 0; i < n; i += 1) {
    residuals[i] = (y[i] as number) - base - slope * ((x[i] as number) - first);
    size = Math.max(size, Math.abs(y[i] as number));
    largest = Math.max(largest, Math.abs(residuals[i] as number));
  }
  const ranks = centredRanks(residuals);
  const variance = sumOf(ranks, square) / n;
  if (largest <= 1e-14 * size || variance === 0) return null;
  let sum = 0;
  let pairs = 0;
  for (let i = 1; i < n; i += 1) {
    if (x[i] === x[i - 1]) continue;
    sum += (ranks[i] as number) * (ranks[i - 1] as number);
    pairs += 1;
  }
  return pairs === 0 ? null : ((sum / pairs) * ((n - 1) / n)) / variance;
}

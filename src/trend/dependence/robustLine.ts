/**
 * A line through points that depend on each other: Sen's slope, a centre that wild readings hardly move, and the
 * variance of both.
 */
import { doubles, type NumberList } from '../../numeric/lists.ts';
import { medianOf } from '../../numeric/selectRank.ts';
import type { TrendPoints } from '../trendPoints.ts';
import { type Dependence, dependenceOf } from './dependence.ts';
import { type Layout, layoutOf, square, sumOf } from './layout.ts';

/** The line at time t: centre + slope x (t - layout.mean). */
export interface RobustLine {
  readonly layout: Layout;
  readonly slope: number;
  readonly centre: number;
  /** What the line leaves, about its median. */
  readonly residuals: NumberList;
  /** The same about 0, with wild readings pulled in to three standard deviations. */
  readonly left: NumberList;
  /** Variances of the slope and of the centre; 0 where the data do not tell their dependence. */
  readonly slopeVariance: number;
  readonly centreVariance: number;
  readonly dependence: Dependence | null;
  /** Student's degrees of freedom. */
  readonly freedom: number;
}

/** Three standard deviations, by the median of the distances: what lies beyond is wild. */
export function reachOf(distances: NumberList): number {
  return 3 * 1.4826 * medianOf(distances);
}

/** The line of Sen's slope through ordered points of one group. `least` is a memory known beforehand. */
export function robustLine({ x, y }: TrendPoints, slope: number, least: number): RobustLine {
  const n = x.length;
  const layout = layoutOf(x);
  const base = medianOf(y);
  let size = 0;
  const residuals = doubles(n);
  for (let i = 0; i < n; i += 1) {
    residuals[i] = (y[i] as number) - base - slope * (layout.fromMean[i] as number);
    size = Math.max(size, Math.abs(y[i] as number));
  }
  const middle = medianOf(residuals);
  const rounding = 1e-14 * size;
  const distances = doubles(n);
  let largest = 0;
  for (let i = 0; i < n; i += 1) {
    residuals[i] = (residuals[i] as number) - middle;
    distances[i] = Math.abs(residuals[i] as number);
    largest = Math.max(largest, distances[i] as number);
  }
  // a perfect line leaves nothing but rounding
  if (largest <= rounding) for (let i = 0; i < n; i += 1) residuals[i] = 0;
  const reach = reachOf(distances);
  const left = doubles(n);
  for (let i = 0; i < n; i += 1) {
    const value = residuals[i] as number;
    left[i] = reach > rounding ? Math.min(reach, Math.max(-reach, value)) : value;
  }
  const shift = sumOf(left, (value) => value) / n;
  for (let i = 0; i < n; i += 1) left[i] = (left[i] as number) - shift;
  const dependence = dependenceOf(layout, residuals, least);
  const centre = base + (middle + shift);
  return { layout, slope, centre, residuals, left, ...variances(layout, left, dependence), dependence };
}

/** The same line, were its memory the longest that its residuals may hide. */
export function withLongestMemory(line: RobustLine): RobustLine {
  const { layout, left, residuals } = line;
  const dependence = dependenceOf(layout, residuals, 0, null, true);
  return { ...line, ...variances(layout, left, dependence), dependence };
}

function variances(
  layout: Layout,
  left: NumberList,
  dependence: Dependence | null,
): Pick<RobustLine, 'slopeVariance' | 'centreVariance' | 'freedom'> {
  if (dependence === null) return { slopeVariance: 0, centreVariance: 0, freedom: 1 };
  const { n, squares } = layout;
  const variance = sumOf(left, square) / (n * (1 - dependence.taken));
  return {
    slopeVariance: (variance * dependence.slope) / squares,
    centreVariance: (variance * dependence.mean) / n,
    freedom: Math.max(1, dependence.effective - 2),
  };
}

/**
 * The curve through measured counts: count against size, on logarithmic scales, never rising. One curve serves the
 * count at a size, the size at a count, and what lies beyond the measured sizes.
 */
import { motescaleError } from '../errors.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { monotoneSpline, type Spline, splineAt } from '../numeric/monotoneSpline.ts';
import type { CumulativeCounts } from './types.ts';

/**
 * How to read between measured sizes.
 *
 * - `monotone`: natural cubic spline of log count on log size, held monotone. The closest on published distributions.
 * - `log_log`: straight lines of log count on log size.
 * - `log_log2`: straight lines of log count on the square of log size, the shape of MIL-STD-1246C and IEST-STD-CC1246;
 *   sizes from 1 µm.
 */
export type InterpolationMethod = 'monotone' | 'log_log' | 'log_log2';

/** The counts above zero on the scales of a method, ready to be read at many sizes. */
export interface Curve {
  readonly counts: CumulativeCounts;
  readonly method: InterpolationMethod;
  /** How many of the sizes hold a count above zero. */
  readonly positive: number;
  /** Those sizes and counts on the scales of the method. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** The spline through them; null where straight lines join them. */
  readonly spline: Spline | null;
}

/** Prepares the curve of checked counts. */
export function curveThrough(counts: CumulativeCounts, method: InterpolationMethod): Curve {
  // counts fall: those above zero come first
  const positive = counts.perMl.filter((count) => count > 0).length;
  if (method === 'log_log2' && (counts.sizes[0] as number) < 1)
    throw motescaleError('out_of_range', 'counts.sizes[0]', counts.sizes[0], "sizes of 1 µm and more for 'log_log2'");
  const x = counts.sizes.slice(0, positive).map((size) => abscissa(size, method));
  const y = counts.perMl.slice(0, positive).map(log);
  const spline = method === 'monotone' && positive > 1 ? monotoneSpline(x, y) : null;
  return { counts, method, positive, x, y, spline };
}

/** Count per mL at a size within the measured sizes. */
export function countInside(curve: Curve, size: number): number {
  const { sizes, perMl } = curve.counts;
  let i = 0;
  while ((sizes[i] as number) < size) i += 1;
  const upper = perMl[i] as number;
  if (sizes[i] === size) return upper;
  const lower = perMl[i - 1] as number;
  const to = sizes[i] as number;
  // the scales have no place for zero: the count falls in proportion to the logarithm of size, to zero at the next
  if (upper === 0) return Math.min(lower, (lower * log(to / size)) / log(to / (sizes[i - 1] as number)));
  const x = abscissa(size, curve.method);
  const y = curve.spline === null ? onLine(curve.x, curve.y, i - 1, x) : splineAt(curve.spline, x);
  return Math.min(Math.max(exp(y), upper), lower);
}

/** Count per mL beyond the measured sizes: the last two counts above zero continued, straight on the scales. */
export function countBeyond(curve: Curve, size: number, method: InterpolationMethod): number {
  const { sizes, perMl } = curve.counts;
  const last = sizes.length - 1;
  const above = size > (sizes[last] as number);
  if (above && perMl[last] === 0) return 0;
  const first = above ? curve.positive - 2 : 0;
  if (curve.positive < 2) {
    const expected = 'counts above zero at two sizes or more, to continue beyond them';
    throw motescaleError('too_few', 'counts', curve.counts, expected);
  }
  if (method === 'log_log2' && size < 1)
    throw motescaleError('out_of_range', 'size', size, "sizes of 1 µm and more for 'log_log2'");
  const near = above ? last : 0;
  const xs = sizes.slice(first, first + 2).map((one) => abscissa(one, method));
  const ys = perMl.slice(first, first + 2).map(log);
  const value = exp(onLine(xs, ys, 0, abscissa(size, method)));
  const measured = perMl[near] as number;
  return above ? Math.min(value, measured) : Math.max(value, measured);
}

/** On the straight line through two neighbouring points. */
export function onLine(xs: readonly number[], ys: readonly number[], i: number, x: number): number {
  const x0 = xs[i] as number;
  const y0 = ys[i] as number;
  return y0 + ((x - x0) * ((ys[i + 1] as number) - y0)) / ((xs[i + 1] as number) - x0);
}

function abscissa(size: number, method: InterpolationMethod): number {
  const x = log(size);
  return method === 'log_log2' ? x * x : x;
}

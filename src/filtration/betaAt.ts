/** From the sizes of a filter's data sheet to the sizes a counter counts. */
import { requireFilledArray, requireObject, requireOneOf } from '../checks.ts';
import { requireSize } from '../counts/ranges.ts';
import { motescaleError } from '../errors.ts';
import { power } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { requireBeta, requireNoLower } from './beta.ts';

/** A filtration ratio of a data sheet: 1000 at 10 µm(c) is beta10(c) = 1000. */
export interface BetaPoint {
  /** In µm, 0.001 to 100,000; of the same sizing as the counts: data sheets by ISO 16889 give µm(c). */
  readonly size: number;
  /** 1 to 1e60; 1000 where the sheet says `> 1000`. */
  readonly beta: number;
}

/**
 * What a size below all points has: none (an error), 1 as if all of it passed, or the line through the two smallest
 * points gone on, never below 1.
 */
export type BelowPoints = 'none' | 'unfiltered' | 'extrapolated';

/**
 * The filtration ratio at a size, from those a data sheet gives at other sizes.
 *
 * Between two points by the straight line of log beta over log size; above the largest no better than that point, since
 * nothing there was tested; below the smallest none, unless `options.below` asks for one by name. `'unfiltered'` is the
 * safe one. `'extrapolated'` is a guess: one step of size down the true ratio may be half of it.
 *
 * A data sheet is of a new element on a test bench, and so is the answer: with surges, vibration or cold oil a filter
 * does worse. Its ratio at the terminal pressure is often lower: take the lower. Source: common practice.
 *
 * @param points in ascending order of size, ratios never falling
 * @throws `out_of_range` below the smallest point where nothing is asked for, for a ratio below 1 or one that falls
 * with size; `sizes_out_of_order`; `too_few` for one point to be extrapolated; errors of type.
 *
 * @example
 * ```ts
 * import { betaAt } from 'motescale/filtration';
 * const element = [{ size: 6.5, beta: 75 }, { size: 8, beta: 200 }, { size: 12, beta: 1000 }];
 * betaAt(element, 7); // ~> 106.4
 * betaAt(element, 14); // => 1000
 * betaAt(element, 4, { below: 'unfiltered' }); // => 1
 * betaAt(element, 4, { below: 'extrapolated' }); // ~> 7.57
 * ```
 */
export function betaAt(
  points: readonly BetaPoint[],
  size: number,
  options: { readonly below?: BelowPoints | undefined } = {},
): number {
  requirePoints(points);
  const wanted = requireSize(size, 'size');
  requireObject(options, 'options', undefined, ['below']);
  const below = requireOneOf(options.below ?? 'none', 'options.below', ['none', 'unfiltered', 'extrapolated']);
  const first = points[0] as BetaPoint;
  if (wanted < first.size) {
    if (below === 'unfiltered') return 1;
    if (below === 'none') {
      const expected = `${first.size} µm, the smallest point, or more; options.below asks for a ratio below it`;
      throw motescaleError('out_of_range', 'size', size, expected);
    }
    if (points.length === 1) throw motescaleError('too_few', 'points', points, 'two points to be extrapolated');
    return Math.max(1, onLine(first, points[1] as BetaPoint, wanted));
  }
  let place = points.length - 1;
  while ((points[place] as BetaPoint).size > wanted) place -= 1;
  const from = points[place] as BetaPoint;
  const to = points[place + 1];
  if (to === undefined) return from.beta;
  return Math.min(Math.max(onLine(from, to, wanted), from.beta), to.beta);
}

function onLine(from: BetaPoint, to: BetaPoint, size: number): number {
  return from.beta * power(to.beta / from.beta, log(size / from.size) / log(to.size / from.size));
}

function requirePoints(points: readonly BetaPoint[]): void {
  requireFilledArray(points, 'points', 'an array of points { size, beta }');
  points.forEach((point, i) => {
    requireObject(point, `points[${i}]`, 'a point { size, beta }', ['size', 'beta']);
    requireSize(point.size, `points[${i}].size`);
    requireBeta(point.beta, `points[${i}].beta`);
    const before = points[i - 1];
    if (before === undefined) return;
    if (point.size <= before.size)
      throw motescaleError('sizes_out_of_order', `points[${i}].size`, point.size, `a size above ${before.size} µm`);
    requireNoLower(point.beta, before.beta, `points[${i}].beta`);
  });
}

/**
 * Several filters as one: in series, side by side, or with a bypass, nested as the circuit is.
 */
import { requireFilledArray, requireFinite, requireObject, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { requireBeta } from './beta.ts';

/**
 * How filters stand in a circuit, at one size: a bare filtration ratio, or an arrangement of arrangements.
 *
 * - `series`: all the flow passes one after the other.
 * - `parallel`: the flow divides, and joins again behind.
 * - `bypass`: the share of the flow, 0 to 1, that goes past the filter: an open bypass valve, a damaged seal.
 */
export type FilterArrangement =
  | number
  | { readonly series: readonly FilterArrangement[] }
  | { readonly parallel: readonly { readonly litresPerMin: number; readonly filter: FilterArrangement }[] }
  | { readonly filter: FilterArrangement; readonly bypass: number };

const expected = 'a filtration ratio, { series: [...] }, { parallel: [...] } or { filter, bypass }';

/**
 * The filtration ratio of filters taken together, at one size.
 *
 * Series: the product. Parallel: 1/beta is the mean of the 1/betas weighted by flow. Bypass b: 1/beta = b + (1 - b)/beta of the filter, so
 * that even the best filter with a tenth of the flow going past it has no more than beta 10.
 *
 * Assumes that each ratio holds on the oil that reaches that filter. In series it mostly does not: the second filter meets what the
 * first could not hold, so the product is the best that can be hoped for. Filters that draw from one tank, each with its own flow, clean
 * it like one filter in `parallel` with all the flow.
 *
 * Source: mass balance on the definition of ISO 16889:2008, filtration ratio.
 *
 * @throws `out_of_range` for a ratio below 1, a share outside 0 to 1, a flow of 0, or a product beyond the range of a double.
 *
 * @example
 * ```ts
 * import { combineFilters } from 'motescale/filtration';
 * combineFilters({ series: [2, 10] }); // => 20
 * combineFilters({ parallel: [{ litresPerMin: 60, filter: 200 }, { litresPerMin: 60, filter: 2 }] }); // ~> 3.96
 * combineFilters({ filter: { series: [10, 20] }, bypass: 0.1 }); // ~> 9.57
 * ```
 */
export function combineFilters(arrangement: FilterArrangement): number {
  return ratioOf(arrangement, 'arrangement');
}

function ratioOf(arrangement: FilterArrangement, parameter: string): number {
  if (typeof arrangement === 'number') return requireBeta(arrangement, parameter);
  requireObject(arrangement, parameter, expected);
  if ('series' in arrangement) return inSeries(arrangement.series, `${parameter}.series`);
  if ('parallel' in arrangement) return inParallel(arrangement.parallel, `${parameter}.parallel`);
  if ('filter' in arrangement) {
    const share = requireFinite(arrangement.bypass, `${parameter}.bypass`, 'a share of the flow from 0 to 1');
    if (share < 0 || share > 1) {
      throw motescaleError('out_of_range', `${parameter}.bypass`, share, 'a share of the flow from 0 to 1');
    }
    const beta = ratioOf(arrangement.filter, `${parameter}.filter`);
    return beta / (1 + share * (beta - 1));
  }
  throw motescaleError('unknown_option', parameter, arrangement, expected);
}

function inSeries(filters: readonly FilterArrangement[], parameter: string): number {
  requireFilledArray(filters, parameter, 'an array of filters');
  let product = 1;
  filters.forEach((filter, i) => {
    product *= ratioOf(filter, `${parameter}[${i}]`);
  });
  if (!isFinite(product)) throw motescaleError('out_of_range', parameter, product, 'ratios whose product is finite');
  return product;
}

function inParallel(
  branches: readonly { readonly litresPerMin: number; readonly filter: FilterArrangement }[],
  parameter: string,
): number {
  requireFilledArray(branches, parameter, 'an array of branches { litresPerMin, filter }');
  let flow = 0;
  let passed = 0;
  let best = 1;
  let worst = 0;
  branches.forEach((branch, i) => {
    requireObject(branch, `${parameter}[${i}]`, 'a branch { litresPerMin, filter }');
    const litresPerMin = requirePositive(branch.litresPerMin, `${parameter}[${i}].litresPerMin`);
    const beta = ratioOf(branch.filter, `${parameter}[${i}].filter`);
    flow += litresPerMin;
    passed += litresPerMin / beta;
    best = Math.max(best, beta);
    worst = worst === 0 ? beta : Math.min(worst, beta);
  });
  return Math.min(Math.max(flow / passed, worst), best);
}

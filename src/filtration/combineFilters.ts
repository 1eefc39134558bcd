/** Several filters as one: in series, side by side, or with a bypass, nested as the circuit is. */
import { requireFilledArray, requireFinite, requireMembers, requireObject, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { largestFigure } from '../rules/bounds.ts';
import { requireBetaOrPerfect } from './beta.ts';

/**
 * How filters stand in a circuit, at one size: a bare filtration ratio, or an arrangement of arrangements.
 *
 * - `series`: all the flow passes one after the other.
 * - `parallel`: the flow divides, and joins again behind.
 * - `bypass`: the share of the flow, 0 to 1, that goes past the filter: an open bypass valve, a damaged seal.
 *
 * Infinity is the filter that lets nothing through. Arrangements nest at most 100 deep.
 */
export type FilterArrangement =
  | number
  | { readonly series: readonly FilterArrangement[] }
  | { readonly parallel: readonly { readonly litresPerMin: number; readonly filter: FilterArrangement }[] }
  | { readonly filter: FilterArrangement; readonly bypass: number };

const expected = 'a filtration ratio, { series: [...] }, { parallel: [...] } or { filter, bypass }';
const deepest = 100;

/**
 * The filtration ratio of filters taken together, at one size.
 *
 * Series: the product. Parallel: 1/beta is the mean of the 1/betas weighted by flow. Bypass b: 1/beta = b + (1 -
 * b)/beta of the filter, so that even the best filter with a tenth of the flow going past it has no more than beta 10.
 *
 * Assumes that each ratio holds on the oil that reaches that filter. In series it mostly does not: the second filter
 * meets what the first could not hold, so the product is the best that can be hoped for. Filters that draw from one
 * tank, each with its own flow, clean it like one filter in `parallel` with all the flow.
 *
 * Range: ratios from 1 to 1e60, and Infinity; an answer beyond 1e60 is refused unless a filter that lets nothing
 * through makes it Infinity. Source: mass balance on the definition of ISO 16889:2008, filtration ratio.
 *
 * @throws `out_of_range` for a ratio below 1, a share outside 0 to 1, a flow of 0, a finite answer above 1e60, or
 * filters nested more than 100 deep; `wrong_type` for a place left empty.
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
  return ratioOf(arrangement, 'arrangement', 0);
}

function ratioOf(arrangement: FilterArrangement, parameter: string, depth: number): number {
  if (typeof arrangement === 'number') return requireBetaOrPerfect(arrangement, parameter);
  requireObject(arrangement, parameter, expected);
  if (depth === deepest) {
    throw motescaleError('out_of_range', 'arrangement', arrangement, `filters nested at most ${deepest} deep`);
  }
  if ('series' in arrangement) requireMembers(arrangement, parameter, ['series']);
  if ('parallel' in arrangement) requireMembers(arrangement, parameter, ['parallel']);
  if ('series' in arrangement) return inSeries(arrangement.series, `${parameter}.series`, depth + 1);
  if ('parallel' in arrangement) return inParallel(arrangement.parallel, `${parameter}.parallel`, depth + 1);
  if ('filter' in arrangement) {
    requireMembers(arrangement, parameter, ['filter', 'bypass']);
    const share = requireFinite(arrangement.bypass, `${parameter}.bypass`, 'a share of the flow from 0 to 1');
    if (share < 0 || share > 1) {
      throw motescaleError('out_of_range', `${parameter}.bypass`, share, 'a share of the flow from 0 to 1');
    }
    const beta = ratioOf(arrangement.filter, `${parameter}.filter`, depth + 1);
    if (beta === Infinity) return share === 0 ? Infinity : requireTellable(1 / share, `${parameter}.bypass`);
    return beta / (1 + share * (beta - 1));
  }
  throw motescaleError('unknown_option', parameter, arrangement, expected);
}

function inSeries(filters: readonly FilterArrangement[], parameter: string, depth: number): number {
  requireFilledArray(filters, parameter, 'an array of filters');
  let product = 1;
  let perfect = false;
  for (let i = 0; i < filters.length; i += 1) {
    const beta = ratioOf(filters[i] as FilterArrangement, `${parameter}[${i}]`, depth);
    if (beta === Infinity) perfect = true;
    else product *= beta;
  }
  return perfect ? Infinity : requireTellable(product, parameter);
}

function inParallel(
  branches: readonly { readonly litresPerMin: number; readonly filter: FilterArrangement }[],
  parameter: string,
  depth: number,
): number {
  requireFilledArray(branches, parameter, 'an array of branches { litresPerMin, filter }');
  let flow = 0;
  let passed = 0;
  let best = 1;
  let worst = Infinity;
  for (let i = 0; i < branches.length; i += 1) {
    const branch = branches[i] as (typeof branches)[0];
    requireObject(branch, `${parameter}[${i}]`, 'a branch { litresPerMin, filter }', ['litresPerMin', 'filter']);
    const litresPerMin = requirePositive(branch.litresPerMin, `${parameter}[${i}].litresPerMin`);
    const beta = ratioOf(branch.filter, `${parameter}[${i}].filter`, depth);
    flow += litresPerMin;
    passed += litresPerMin / beta;
    best = Math.max(best, beta);
    worst = Math.min(worst, beta);
  }
  // nothing at all passes where every filter is perfect
  return worst === Infinity ? Infinity : requireTellable(Math.min(Math.max(flow / passed, worst), best), parameter);
}

function requireTellable(beta: number, parameter: string): number {
  if (beta <= largestFigure) return beta;
  throw motescaleError('out_of_range', parameter, beta, `filters whose ratio together is up to ${largestFigure}`);
}

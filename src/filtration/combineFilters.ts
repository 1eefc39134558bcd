/** Several filters as one: in series, side by side, or with a bypass, nested as the circuit is. */
import { requireFilledArray, requireFinite, requireMembers, requireObject, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { largestFigure } from '../rules/bounds.ts';
import { requireBetaOrPerfect } from './beta.ts';

/**
 * How filters stand in a circuit: a bare filtration ratio (at several sizes a list of them), or an arrangement of
 * arrangements.
 *
 * - `series`: all the flow passes one after the other.
 * - `parallel`: the flow divides, and joins again behind.
 * - `bypass`: the share of the flow, 0 to 1, that goes past the filter: an open bypass valve, a damaged seal.
 *
 * Infinity is the filter that lets nothing through. Arrangements nest at most 100 deep.
 */
export type FilterArrangement<Ratio = number> =
  | Ratio
  | { readonly series: readonly FilterArrangement<Ratio>[] }
  | { readonly parallel: readonly Branch<Ratio>[] }
  | { readonly filter: FilterArrangement<Ratio>; readonly bypass: number };

/** One of several filters side by side, and what flows through it. */
interface Branch<Ratio> {
  readonly litresPerMin: number;
  readonly filter: FilterArrangement<Ratio>;
}

/** Any of both: what is asked of each is asked while it is walked. */
type Arrangement = FilterArrangement<number | readonly number[]>;

/** The size that is worked out, and how many there are: null until the first list is met, which tells. */
interface Way {
  place: number;
  length: number | null;
}

const expected = 'or { series: [...] }, { parallel: [...] }, { filter, bypass }';
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
  return ratioOf(arrangement, 'arrangement', 0, null);
}

/**
 * The same at several sizes: each filter is a list of ratios, one for each size counted, as `TankBySize` takes them.
 *
 * Assumptions, range and source: those of `combineFilters`, size by size. `betaAt` gives the ratios from a data sheet.
 *
 * @throws as `combineFilters`; `length_mismatch` for lists of different lengths; `empty`.
 *
 * @example
 * ```ts
 * import { combineFiltersBySize } from 'motescale/filtration';
 * combineFiltersBySize({ series: [[2, 4, 10], [5, 5, 20]] }); // => [10, 20, 200]
 * combineFiltersBySize({ filter: [20, 75, 1000], bypass: 0.05 }).map(Math.round); // => [10, 16, 20]
 * ```
 */
export function combineFiltersBySize(arrangement: FilterArrangement<readonly number[]>): number[] {
  const ratios: number[] = [];
  const way: Way = { place: 0, length: null };
  for (; way.place < (way.length ?? 1); way.place += 1) ratios.push(ratioOf(arrangement, 'arrangement', 0, way));
  return ratios;
}

function ratioOf(arrangement: Arrangement, parameter: string, depth: number, way: Way | null): number {
  if (way === null && typeof arrangement === 'number') return requireBetaOrPerfect(arrangement, parameter);
  if (way !== null && Array.isArray(arrangement)) return ratioOfList(arrangement, parameter, way);
  const ratio = way === null ? 'a filtration ratio' : 'an array of filtration ratios';
  requireObject(arrangement, parameter, `${ratio}, ${expected}`);
  if (depth === deepest)
    throw motescaleError('out_of_range', 'arrangement', arrangement, `filters nested at most ${deepest} deep`);
  const several = arrangement as Exclude<Arrangement, number | readonly number[]>;
  if ('series' in several) {
    requireMembers(several, parameter, ['series']);
    return inSeries(several.series, `${parameter}.series`, depth + 1, way);
  }
  if ('parallel' in several) {
    requireMembers(several, parameter, ['parallel']);
    return inParallel(several.parallel, `${parameter}.parallel`, depth + 1, way);
  }
  if ('filter' in several) {
    requireMembers(several, parameter, ['filter', 'bypass']);
    const share = requireFinite(several.bypass, `${parameter}.bypass`, 'a share from 0 to 1');
    if (share < 0 || share > 1)
      throw motescaleError('out_of_range', `${parameter}.bypass`, share, 'a share from 0 to 1');
    const beta = ratioOf(several.filter, `${parameter}.filter`, depth + 1, way);
    if (beta === Infinity) return share === 0 ? Infinity : requireTellable(1 / share, `${parameter}.bypass`);
    return beta / (1 + share * (beta - 1));
  }
  throw motescaleError('unknown_option', parameter, several, `a filtration ratio, ${expected}`);
}

function ratioOfList(list: readonly unknown[], parameter: string, way: Way): number {
  // once, at the first place
  if (way.place === 0) requireFilledArray(list, parameter, 'an array of filtration ratios');
  way.length = way.length ?? list.length;
  if (list.length !== way.length) {
    const expectedLength = `an array of ${way.length}, as many ratios as the first filter has`;
    throw motescaleError('length_mismatch', parameter, list, expectedLength);
  }
  return requireBetaOrPerfect(list[way.place], `${parameter}[${way.place}]`);
}

function inSeries(filters: readonly Arrangement[], parameter: string, depth: number, way: Way | null): number {
  requireFilledArray(filters, parameter, 'an array of filters');
  let product = 1;
  let perfect = false;
  for (let i = 0; i < filters.length; i += 1) {
    const beta = ratioOf(filters[i] as Arrangement, `${parameter}[${i}]`, depth, way);
    if (beta === Infinity) perfect = true;
    else product *= beta;
  }
  return perfect ? Infinity : requireTellable(product, parameter);
}

function inParallel(
  branches: readonly Branch<number | readonly number[]>[],
  parameter: string,
  depth: number,
  way: Way | null,
): number {
  requireFilledArray(branches, parameter, 'an array of branches { litresPerMin, filter }');
  let flow = 0;
  let passed = 0;
  let best = 1;
  let worst = Infinity;
  branches.forEach((branch, i) => {
    requireObject(branch, `${parameter}[${i}]`, 'a branch { litresPerMin, filter }', ['litresPerMin', 'filter']);
    const litresPerMin = requirePositive(branch.litresPerMin, `${parameter}[${i}].litresPerMin`);
    const beta = ratioOf(branch.filter, `${parameter}[${i}].filter`, depth, way);
    flow += litresPerMin;
    passed += litresPerMin / beta;
    best = Math.max(best, beta);
    worst = Math.min(worst, beta);
  });
  // nothing at all passes where every filter is perfect
  return worst === Infinity ? Infinity : requireTellable(Math.min(Math.max(flow / passed, worst), best), parameter);
}

function requireTellable(beta: number, parameter: string): number {
  if (beta <= largestFigure) return beta;
  throw motescaleError('out_of_range', parameter, beta, `a filtration ratio, up to ${largestFigure}`);
}

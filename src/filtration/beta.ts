/**
 * The filtration ratio, and the same as an efficiency: beta is the number of particles of a size and larger before the
 * filter over the number behind it.
 */
import { requireFinite, requirePositive } from '../checks.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { maxCounted } from '../counts/ranges.ts';
import { differenceOf } from '../counts/statistics.ts';
import { motescaleError } from '../errors.ts';
import { subtractDecimals } from '../numeric/decimal.ts';

/**
 * The share of the particles of a size and larger that a filter holds back in one pass, 0 to 1: 1 - 1/beta.
 *
 * Assumes what a filtration ratio assumes: one size, steady flow, the dust it was measured with. In a machine, with
 * surges and vibration, a filter does worse than on the test bench.
 *
 * Range: beta from 1 (lets all pass) to Infinity (lets nothing pass; JSON has no such number). Below 1 a filter gives
 * off more than it takes, and has no efficiency. Accuracy: 2 ulp. Source: ISO 16889:2008, filtration ratio.
 *
 * @throws `out_of_range` below 1.
 *
 * @example
 * ```ts
 * import { efficiencyOfBeta } from 'motescale/filtration';
 * efficiencyOfBeta(200); // => 0.995
 * efficiencyOfBeta(75) * 100; // ~> 98.67
 * ```
 */
export function efficiencyOfBeta(beta: number): number {
  return passEfficiency(requireBetaOrPerfect(beta, 'beta'));
}

/**
 * The filtration ratio of a filter that holds back this share of the particles, 0 up to but not 1: 1 / (1 -
 * efficiency).
 *
 * Near 1 every digit of the efficiency counts: 0.995 is beta 200, 0.999 is beta 1000. Source: ISO 16889:2008,
 * filtration ratio.
 *
 * @throws `out_of_range` below 0 and from 1 on: no filter that was tested has let nothing at all pass.
 *
 * @example
 * ```ts
 * import { betaOfEfficiency } from 'motescale/filtration';
 * betaOfEfficiency(0.9); // => 10
 * ```
 */
export function betaOfEfficiency(efficiency: number): number {
  const expected = 'a share, 0 or more, below 1';
  const share = requireFinite(efficiency, 'efficiency', expected);
  if (share < 0 || share >= 1) throw motescaleError('out_of_range', 'efficiency', efficiency, expected);
  return 1 / subtractDecimals(1, share);
}

/** A count that others are divided by. */
export const tellable = '0, or particles per mL, 1e-60 or more';

/** The filtration ratio found at one size. */
export interface FiltrationRatio {
  readonly size: number;
  /**
   * Upstream over downstream; below 1 the filter gives particles off. Null: of those upstream none was counted
   * downstream, so no ratio can be named.
   */
  readonly beta: number | null;
  /**
   * The limits of the ratio at 95 % by the particles counted, as `countsDiffer` has them; `high` is null where there is
   * none. Left out where not both counts are raw. They are of chance alone: two counters, or two moments, that scatter
   * by 5 % put `low` above the truth in up to a third of the pairs.
   */
  readonly low?: number;
  readonly high?: number | null;
}

/**
 * The filtration ratio from counts before and behind a filter, at each size that both have.
 *
 * Both must be of the same sizing and taken together. A size of which no particle was counted on either side is left
 * out: nothing tells how the filter does there, and a counter that is dead counts none. A ratio is no surer than the
 * smaller of the two counts: of raw counts, up to 1e9 particles, it has `low` and `high`. Go by `low` where a filter is
 * to be trusted, of one counter for both and of several pairs. Sources: ISO 16889:2008, filtration ratio; C. Clopper
 * and E. Pearson, Biometrika 26 (1934) 404.
 *
 * @throws `sizing_not_convertible` where the sizings differ; `missing_size` where no size is common; `out_of_range` for
 * a count downstream above 0 and below 1e-60.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { filtrationRatios } from 'motescale/filtration';
 * const upstream = cumulativeCounts({ 4: 1600, 6: 420, 14: 30 });
 * filtrationRatios(upstream, cumulativeCounts({ 6: 42, 14: 0 }));
 * // => [{ size: 6, beta: 10 }, { size: 14, beta: null }]
 * filtrationRatios(cumulativeCounts({ 14: 0 }), cumulativeCounts({ 14: 0 })); // => []
 * const raw = (at6: number) => cumulativeCounts({ 6: at6 }, { volumeMl: 10 });
 * filtrationRatios(raw(100), raw(1))[0]?.low; // ~> 17.5
 * ```
 */
export function filtrationRatios(upstream: CumulativeCounts, downstream: CumulativeCounts): FiltrationRatio[] {
  checkCounts(upstream, 'upstream');
  checkCounts(downstream, 'downstream');
  if (upstream.sizing !== downstream.sizing)
    throw motescaleError('sizing_not_convertible', 'downstream.sizing', downstream.sizing, `'${upstream.sizing}'`);
  const ratios: FiltrationRatio[] = [];
  let isCommon = false;
  upstream.sizes.forEach((size, i) => {
    const place = downstream.sizes.indexOf(size);
    if (place < 0) return;
    const behind = downstream.perMl[place] as number;
    const before = upstream.perMl[i] as number;
    isCommon = true;
    if (before === 0 && behind === 0) return;
    const beta = behind === 0 ? null : before / requirePositive(behind, `downstream.perMl[${place}]`, tellable);
    ratios.push({ size, beta, ...limitsOf(upstream, i, downstream, place) });
  });
  if (!isCommon)
    throw motescaleError('missing_size', 'downstream.sizes', downstream.sizes, 'a size that is counted upstream too');
  return ratios;
}

/** The limits of a ratio of raw counts, few enough that they can be worked out. */
function limitsOf(one: CumulativeCounts, i: number, other: CumulativeCounts, k: number): Partial<FiltrationRatio> {
  const before = one.counted?.[i] ?? Infinity;
  const behind = other.counted?.[k] ?? Infinity;
  if (one.volumeMl === undefined || other.volumeMl === undefined) return {};
  if (before > maxCounted || behind > maxCounted) return {};
  const volumes = (one.volumeMl / other.volumeMl) * ((other.dilution ?? 1) / (one.dilution ?? 1));
  const { low, high } = differenceOf(before, behind, volumes, 0.025);
  return { low, high };
}

/** A filtration ratio a filter can have. */
export function requireBeta(value: unknown, parameter: string): number {
  const expected = 'a filtration ratio, 1 or more';
  const beta = requirePositive(value, parameter, expected);
  if (beta < 1) throw motescaleError('out_of_range', parameter, value, expected);
  return beta;
}

/** A filtration ratio, or Infinity where nothing gets through: a limit to reckon with, which no filter reaches. */
export function requireBetaOrPerfect(value: unknown, parameter: string): number {
  return value === Infinity ? Infinity : requireBeta(value, parameter);
}

/** A filter that holds back so much of a size holds back at least as much of a larger one. */
export function requireNoLower(beta: number, atSmaller: number, parameter: string): void {
  if (beta >= atSmaller) return;
  throw motescaleError('out_of_range', parameter, beta, `at least ${atSmaller}, the ratio at the smaller size`);
}

/** 1 - 1/beta without the loss of digits near 1. */
export function passEfficiency(beta: number): number {
  return beta === Infinity ? 1 : (beta - 1) / beta;
}

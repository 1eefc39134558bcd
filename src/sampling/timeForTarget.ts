/** How long to count for a whole target code: its cleanest size decides. */
import { requireFilledArray, requireMeasure, requireObject } from '../checks.ts';
import type { CountBand, CountBands } from '../codes/index.ts';
import { requireSizing } from '../counts/checkCounts.ts';
import { perMlRule, requireSize } from '../counts/ranges.ts';
import { timeForCount, type WantedCount } from './countedVolume.ts';

/** The time for one size of a target. */
export interface TargetTime {
  /** The size in µm, or the lower end of a range. */
  readonly from: number;
  /** The upper end of a range; null for a size and larger. */
  readonly to: number | null;
  /** Enough for an oil at the upper limit, just within the target, s; null where the target sets none, or sets 0. */
  readonly leastSeconds: number | null;
  /** Enough for any oil of this very scale number or class, s; null where it reaches down to no particles at all. */
  readonly mostSeconds: number | null;
}

/**
 * The measuring time for each size of a target code, until 20 particles (or as many as wanted) are counted and no scale
 * number is marked with `>=`. `mostSeconds` of the whole is the longest of its sizes: set that, or more. An oil cleaner
 * than the target needs longer still.
 *
 * @param wanted the target as `limitsOf` gives it, the flow in mL/min, and, where not 20 expected, `particles` and
 *   `chance` as in `timeForCount`
 * @throws errors of type and range; `empty` for a target without sizes.
 *
 * @example
 * ```ts
 * import { iso4406, limitsOf } from 'motescale/codes';
 * import { timeForTarget } from 'motescale/sampling';
 * const time = timeForTarget({ target: limitsOf(iso4406, '13/11/8'), mlPerMin: 100 });
 * time.sizes.map((size) => size.from); // => [4, 6, 14]
 * time.leastSeconds; // ~> 4.8
 * time.mostSeconds; // ~> 9.2
 * ```
 */
export function timeForTarget(
  wanted: Omit<WantedCount, 'perMl'> & { readonly target: CountBands },
): Pick<TargetTime, 'leastSeconds' | 'mostSeconds'> & { readonly sizes: readonly TargetTime[] } {
  requireObject(wanted, 'wanted', 'what is wanted { target, mlPerMin }', ['target', 'mlPerMin', 'particles', 'chance']);
  requireObject(wanted.target, 'wanted.target', 'a target of limitsOf', ['sizing', 'bands']);
  requireSizing(wanted.target.sizing, 'wanted.target.sizing');
  requireFilledArray(wanted.target.bands, 'wanted.target.bands', 'bands of limitsOf');
  const { target: _target, ...rest } = wanted;
  timeForCount({ ...rest, perMl: 1 }); // flow, particles and chance, also where no band asks for them
  const secondsAt = (perMl: number | null) => (perMl === null || perMl === 0 ? null : timeForCount({ ...rest, perMl }));
  const sizes = wanted.target.bands.map((band, i): TargetTime => {
    const { from, to, above, upTo } = requireBand(band, `wanted.target.bands[${i}]`);
    return { from, to, leastSeconds: secondsAt(upTo), mostSeconds: secondsAt(above) };
  });
  return {
    leastSeconds: longest(sizes.map((size) => size.leastSeconds)),
    mostSeconds: longest(sizes.map((size) => size.mostSeconds)),
    sizes,
  };
}

function requireBand(given: CountBand | undefined, path: string): CountBand {
  const members = ['from', 'to', 'above', 'upTo'];
  const band = requireObject(given, path, 'a band { from, to, above, upTo }', members) as CountBand;
  requireSize(band.from, `${path}.from`);
  if (band.to !== null) requireSize(band.to, `${path}.to`);
  for (const name of ['above', 'upTo'] as const) {
    const perMl = band[name];
    if (perMl !== null && perMl !== 0)
      requireMeasure(perMl, `${path}.${name}`, 1e-9, perMlRule.most, '0, null, or particles per mL');
  }
  return band;
}

function longest(times: readonly (number | null)[]): number | null {
  let most: number | null = 0;
  for (const time of times) most = most === null || time === null ? null : Math.max(most, time);
  return most;
}

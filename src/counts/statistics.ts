/** How sure a count is: particles arrive at random, so a count of n is one draw from a Poisson distribution. */
import { confidenceOf, requireMeasure, requireObject, requireShare } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import { binomialAtLeast, poissonAtLeast, poissonAtMost } from '../numeric/tails.ts';
import { requireMeasurableCount, requirePerMl, requireVolume } from './ranges.ts';

/**
 * The exact two-sided limits of the expected count, given that `counted` particles were counted: the true mean lies
 * between them with at least the confidence asked for (0.95 where left out). Divide by the volume for limits of a
 * concentration.
 *
 * Range: whole counts from 0 to 1e9. Accuracy: 1e-10 relative or better. At 20 particles the 95 % limits are 12.2 and
 * 30.9: more than one scale number of ISO 4406 apart, which is why that standard marks smaller counts with `>=`.
 *
 * Source: F. Garwood, Biometrika 28 (1936) 437.
 *
 * @throws `not_an_integer`, `negative`, `out_of_range`, `wrong_type`, `not_a_number`, `infinite`.
 *
 * @example
 * ```ts
 * import { countInterval } from 'motescale/counts';
 * countInterval(0).low; // => 0
 * countInterval(20).high < 30.9; // => true
 * ```
 */
export function countInterval(
  counted: number,
  options: { readonly confidence?: number | undefined } = {},
): { low: number; high: number } {
  const n = requireMeasurableCount(counted, 'counted');
  const tail = (1 - confidenceOf(options)) / 2;
  const low = n === 0 ? 0 : meanWithTail((mean) => poissonAtLeast(n, mean), n, -1, tail);
  return { low, high: meanWithTail((mean) => poissonAtMost(n, mean), n, 1, tail) };
}

/** Walks from the count outwards until the tail is small enough, then closes in. */
function meanWithTail(tailAt: (mean: number) => number, n: number, direction: 1 | -1, tail: number): number {
  let step = Math.sqrt(n + 1);
  let near = n;
  let far = n;
  do {
    near = far;
    far = direction > 0 ? far + step : Math.max(far - step, far / 2);
    step *= 2;
  } while (tailAt(far) > tail);
  return findRoot((mean) => (near === 0 ? tailAt(mean) - tail : log(tailAt(mean) / tail)), near, far);
}

/**
 * The volume, in mL, in which `particles` (20 where left out) are expected at `perMl` particles per mL. ISO 4406 asks
 * for 20 or more.
 *
 * Range: 1e-9 to 1e12 particles per mL; 1e-9 to 1e15 particles, whole or not.
 *
 * @throws `out_of_range`, `wrong_type`, `not_a_number`, `infinite`, `negative`.
 *
 * @example
 * ```ts
 * import { volumeForCount } from 'motescale/counts';
 * volumeForCount(2.5); // => 8
 * ```
 */
export function volumeForCount(perMl: number, particles = 20): number {
  return requireMeasure(particles, 'particles', 1e-9, 1e15, 'particles') / requirePerMl(perMl, 'perMl', 1e-9);
}

/** A number of particles, and the volume they were counted in. */
export interface CountInVolume {
  readonly counted: number;
  readonly volumeMl: number;
}

/** How two counts compare. */
export interface CountDifference {
  /** Chance of a difference at least this large if both oils were equally dirty, two-sided. */
  readonly p: number;
  /** Concentration of the first over that of the second; null where nothing was counted in the second. */
  readonly ratio: number | null;
  /** Lower limit of the ratio at the confidence asked for. */
  readonly low: number;
  /** Upper limit of the ratio; null where there is none. */
  readonly high: number | null;
}

/**
 * Whether two counts differ by more than chance: the exact conditional test. Given n1 + n2 particles in all, n1 of them
 * is binomial with chance V1 / (V1 + V2) if both oils are equally dirty. `p` is twice the smaller tail (at most 1), so
 * that it falls below 1 - confidence just when the limits of the ratio leave out 1. The limits are those of Clopper and
 * Pearson.
 *
 * It is for two counts by one instrument in one set-up, minutes apart: before and after a filter change, blank and
 * sample. It is not for two instruments, nor for a bottle against a monitor: with many particles the smallest error of
 * volume or size is "more than chance" (100,000 and 101,000 in 100 mL: p = 0.026). Nor is it for two bottles counted by
 * one counter: where bottles of one oil scatter by 10 %, p is below 0.05 in 5 to 7 % of 20 particles, 13 to 15 % of 100
 * and 53 to 55 % of 1000 (simulated). Use `zetaScore` on what `codeUncertainty` finds. Of 0 and 0 it throws, where
 * `compareCounts` gives p 1.
 *
 * Sources: J. Przyborowski and H. Wilenski, Biometrika 31 (1940) 313; C. Clopper and E. Pearson, Biometrika 26 (1934)
 * 404.
 *
 * Range: whole counts from 0 to 1e9, volumes from 1e-12 to 1e9 mL, any confidence above 0 and below 1.
 *
 * @throws `out_of_range`; `no_answer` when both counts are zero; `not_an_integer`, `wrong_type`, `not_a_number`,
 *   `infinite`, `negative`.
 *
 * @example
 * ```ts
 * import { countsDiffer } from 'motescale/counts';
 * countsDiffer({ counted: 12, volumeMl: 10 }, { counted: 12, volumeMl: 10 }).p; // => 1
 * ```
 */
export function countsDiffer(
  a: CountInVolume,
  b: CountInVolume,
  options: { readonly confidence?: number | undefined } = {},
): CountDifference {
  requireObject(a, 'a', 'a count { counted, volumeMl }', ['counted', 'volumeMl']);
  requireObject(b, 'b', 'a count { counted, volumeMl }', ['counted', 'volumeMl']);
  requireObject(options, 'options', undefined, ['confidence']);
  const first = requireMeasurableCount(a.counted, 'a.counted');
  const second = requireMeasurableCount(b.counted, 'b.counted');
  const volumes = requireVolume(a.volumeMl, 'a.volumeMl') / requireVolume(b.volumeMl, 'b.volumeMl');
  const tail = (1 - requireShare(options.confidence ?? 0.95, 'options.confidence')) / 2;
  if (first + second === 0)
    throw motescaleError('no_answer', 'a.counted', 0, 'at least one particle in the two counts together');
  return differenceOf(first, second, volumes, tail);
}

/**
 * How two counts compare. `volumes`: the volume of the first over that of the second; `tail`: the chance that the ratio
 * lies beyond each of its limits. Of two counts of 0 no ratio is known, and the chance is 1.
 */
export function differenceOf(first: number, second: number, volumes: number, tail: number): CountDifference {
  const total = first + second;
  const up = atLeast(first, total, volumes);
  const down = atLeast(second, total, 1 / volumes);
  return {
    p: Math.min(1, 2 * Math.min(up, down)),
    ratio: second === 0 ? null : first / second / volumes,
    low: first === 0 ? 0 : oddsWithTail(first, total, tail) / volumes,
    high: second === 0 ? null : 1 / oddsWithTail(second, total, tail) / volumes,
  };
}

/** P(at least k of total) where the odds of each are `odds` to 1. */
export function atLeast(k: number, total: number, odds: number): number {
  return binomialAtLeast(k, total, odds / (1 + odds), 1 / (1 + odds));
}

/** The odds at which k or more of total has the given chance. */
function oddsWithTail(k: number, total: number, tail: number): number {
  const start = 1 / Math.sqrt(k);
  let near = log(k / (total - k + 1));
  // at low confidence the limit lies above the first guess
  for (let step = start; atLeast(k, total, exp(near)) < tail; step *= 2) near += step;
  let far = near;
  let step = start;
  do {
    near = far;
    far -= step;
    step *= 2;
  } while (atLeast(k, total, exp(far)) > tail);
  return exp(findRoot((logOdds) => log(atLeast(k, total, exp(logOdds)) / tail), near, far));
}

/**
 * How long to count: the volume that passes, and the time until enough particles have been seen.
 */
import {
  requireCount,
  requireMeasure,
  requireNonNegative,
  requireObject,
  requirePositive,
  requireShare,
} from '../checks.ts';
import { countInterval, volumeForCount } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import { poissonAtLeast, poissonAtMost } from '../numeric/tails.ts';

const secondsPerMinute = 60;
const mostExpected = 1e9;

/** A flow and how long it is counted. */
export interface MeasuringSetting {
  /** Flow counted, mL/min, 0 or more: where the counter sees only a share of the flow, that share of it. */
  readonly mlPerMin: number;
  /** Measuring time, s, 0 or more. */
  readonly seconds: number;
}

/**
 * The volume counted, in mL: flow times measuring time, if all the flow passes the sensing zone and is counted. Exact arithmetic.
 *
 * @example
 * ```ts
 * import { countedVolume } from 'motescale/sampling';
 * countedVolume({ mlPerMin: 100, seconds: 60 }); // => 100
 * ```
 */
export function countedVolume(setting: MeasuringSetting): number {
  requireObject(setting, 'setting', 'a setting { mlPerMin, seconds }');
  const mlPerMin = requireNonNegative(setting.mlPerMin, 'setting.mlPerMin');
  return (mlPerMin * requireNonNegative(setting.seconds, 'setting.seconds')) / secondsPerMinute;
}

/** A dirtiness, a flow, and how many particles are wanted. */
export interface WantedCount {
  /** Particles of the size and larger per mL, 1e-9 to 1e12. */
  readonly perMl: number;
  /** Flow counted, mL/min, above 0: where the counter sees only a share of the flow, that share of it. */
  readonly mlPerMin: number;
  /** Particles wanted, 1e-9 to 1e15. 20 where left out: with fewer, ISO 4406 marks the scale number with `>=`. */
  readonly particles?: number;
  /**
   * Wanted chance that at least so many are counted, above 0.5 and below 1; `particles` is then whole. Where left out, so many are
   * expected: half the time there will be fewer.
   */
  readonly chance?: number;
}

/**
 * The measuring time, in s, until so many particles are counted: the inverse of `countedVolume`.
 *
 * Source: ISO 4406, clause on raw counts (20 particles); with `chance`, the Poisson limits of F. Garwood, Biometrika 28 (1936) 437.
 *
 * @throws errors of type and range; `out_of_range` for a chance of 0.5 or less.
 *
 * @example
 * ```ts
 * import { timeForCount } from 'motescale/sampling';
 * timeForCount({ perMl: 2.5, mlPerMin: 100 }); // ~> 4.80
 * timeForCount({ perMl: 2.5, mlPerMin: 100, chance: 0.95 }); // ~> 6.69
 * ```
 */
export function timeForCount(wanted: WantedCount): number {
  requireObject(wanted, 'wanted', 'what is wanted { perMl, mlPerMin }');
  const perMl = requireMeasure(wanted.perMl, 'wanted.perMl', 1e-9, 1e12, 'particles per mL');
  const mlPerMin = requirePositive(wanted.mlPerMin, 'wanted.mlPerMin', 'a flow in mL/min above 0');
  const particles = requireMeasure(wanted.particles ?? 20, 'wanted.particles', 1e-9, 1e15, 'particles');
  const expected = wanted.chance === undefined ? particles : expectedFor(particles, wanted.chance);
  return (volumeForCount(perMl, expected) / mlPerMin) * secondsPerMinute;
}

/** How many particles must be expected for a chance of at least `particles`. */
function expectedFor(particles: number, chance: number): number {
  if (requireShare(chance, 'wanted.chance') <= 0.5) {
    throw motescaleError('out_of_range', 'wanted.chance', chance, 'a chance above 0.5 and below 1');
  }
  const whole = requireCount(particles, 'wanted.particles');
  if (whole > mostExpected) {
    throw motescaleError('out_of_range', 'wanted.particles', whole, 'at most 1e9 particles where a chance is wanted');
  }
  return countInterval(whole - 1, { confidence: 2 * chance - 1 }).high;
}

/** How sure a count is at a setting. */
export interface CountingConfidence {
  readonly volumeMl: number;
  /** Particles expected in that volume. */
  readonly expected: number;
  /** Chance that at least as many particles are counted as wanted. */
  readonly chance: number;
  /** Standard deviation of the count over the count: 1 / sqrt(expected); null where none is expected. */
  readonly relativeError: number | null;
  /** Limits of the particles per mL, if as many particles are counted as are expected, rounded down. */
  readonly low: number;
  readonly high: number;
}

/**
 * What a setting can tell of an oil: how many particles it will count at a size, the chance that they are enough, and how far the result
 * may lie from the truth. A longer measuring time never lowers the chance, nor widens the ratio of `high` to `low`.
 *
 * The scatter is that of particles arriving at random (Poisson) alone; sampling, bubbles and calibration come on top.
 *
 * @param setting flow, measuring time, and the particles per mL of the size and larger
 * @param options particles wanted (20 where left out) and the confidence of `low` and `high` (0.95 where left out)
 * @throws errors of type and range; `out_of_range` above 1e9 expected particles.
 *
 * @example
 * ```ts
 * import { countingConfidence } from 'motescale/sampling';
 * const setting = countingConfidence({ perMl: 2.5, mlPerMin: 100, seconds: 10 });
 * setting.expected; // ~> 41.67
 * setting.chance; // ~> 0.9999
 * ```
 */
export function countingConfidence(
  setting: MeasuringSetting & { readonly perMl: number },
  options: { readonly particles?: number; readonly confidence?: number } = {},
): CountingConfidence {
  const volumeMl = countedVolume(setting);
  requirePositive(volumeMl, 'setting', 'a flow and a measuring time above 0');
  const perMl = requireNonNegative(setting.perMl, 'setting.perMl');
  if (perMl !== 0) requirePositive(perMl, 'setting.perMl', 'particles per mL: 0, or 1e-60 and more');
  const expected = wholeIfNear(proportion(perMl, volumeMl, 1));
  if (expected > mostExpected) {
    throw motescaleError('out_of_range', 'setting', expected, 'at most 1e9 expected particles');
  }
  requireObject(options, 'options');
  const particles = Math.ceil(requirePositive(options.particles ?? 20, 'options.particles'));
  const interval = countInterval(Math.floor(expected), { confidence: options.confidence ?? 0.95 });
  return {
    volumeMl,
    expected,
    chance: chanceOfAtLeast(particles, expected),
    relativeError: expected === 0 ? null : 1 / Math.sqrt(expected),
    low: interval.low / volumeMl,
    high: interval.high / volumeMl,
  };
}

/** A whole number of particles where only rounding keeps the product from it. */
function wholeIfNear(product: number): number {
  const whole = Math.floor(product + 0.5);
  return whole > 0 && Math.abs(product - whole) <= Math.max(1e-9, 1e-15 * whole) ? whole : product;
}

function chanceOfAtLeast(particles: number, expected: number): number {
  if (expected === 0) return 0;
  return expected < particles ? poissonAtLeast(particles, expected) : 1 - poissonAtMost(particles - 1, expected);
}

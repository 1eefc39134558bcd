/** How long to count: the volume that passes, and the time until enough particles have been seen. */
import { requireMeasure, requireNonNegative, requireObject, requirePositive, requireShare } from '../checks.ts';
import { countInterval, volumeForCount } from '../counts/index.ts';
import { requireCount, requireFewEnough, requirePerMl } from '../counts/ranges.ts';
import { motescaleError } from '../errors.ts';

const secondsPerMinute = 60;

/** A flow and how long it is counted. */
export interface MeasuringSetting {
  /** Flow counted, mL/min, 0 or more: where the counter sees only a share of the flow, that share of it. */
  readonly mlPerMin: number;
  /** Measuring time, s, 0 or more. */
  readonly seconds: number;
}

/**
 * The volume counted, in mL: flow times measuring time, if all the flow passes the sensing zone and is counted. Exact
 * arithmetic.
 *
 * @example
 * ```ts
 * import { countedVolume } from 'motescale/sampling';
 * countedVolume({ mlPerMin: 100, seconds: 60 }); // => 100
 * ```
 */
export function countedVolume(setting: MeasuringSetting): number {
  requireObject(setting, 'setting', 'a setting { mlPerMin, seconds }', ['mlPerMin', 'seconds', 'perMl']);
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
   * Wanted chance that at least so many are counted, above 0.5 and below 1; `particles` is then whole. Where left out,
   * so many are expected: half the time there will be fewer.
   */
  readonly chance?: number;
}

/**
 * The measuring time, in s, until so many particles are counted: the inverse of `countedVolume`.
 *
 * Source: ISO 4406, clause on raw counts (20 particles); with `chance`, the Poisson limits of F. Garwood, Biometrika 28
 * (1936) 437.
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
  requireObject(wanted, 'wanted', 'what is wanted { perMl, mlPerMin }', ['perMl', 'mlPerMin', 'particles', 'chance']);
  const perMl = requirePerMl(wanted.perMl, 'wanted.perMl', 1e-9);
  const mlPerMin = requirePositive(wanted.mlPerMin, 'wanted.mlPerMin', 'a flow in mL/min, above 0');
  const particles = requireMeasure(wanted.particles ?? 20, 'wanted.particles', 1e-9, 1e15, 'particles');
  const expected = wanted.chance === undefined ? particles : expectedFor(particles, wanted.chance);
  return (volumeForCount(perMl, expected) / mlPerMin) * secondsPerMinute;
}

/** How many particles must be expected for a chance of at least `particles`. */
function expectedFor(particles: number, chance: number): number {
  if (requireShare(chance, 'wanted.chance') <= 0.5)
    throw motescaleError('out_of_range', 'wanted.chance', chance, 'a chance, above 0.5, below 1');
  const whole = requireCount(particles, 'wanted.particles');
  requireFewEnough(whole, 'wanted.particles', 'particles where a chance is wanted');
  return countInterval(whole - 1, { confidence: 2 * chance - 1 }).high;
}

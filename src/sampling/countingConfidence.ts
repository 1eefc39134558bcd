/** How sure a count is: what a flow, a measuring time and a dirtiness let one expect. */
import { requireNonNegative, requireObject, requirePositive } from '../checks.ts';
import { countInterval } from '../counts/index.ts';
import { requireFewEnough } from '../counts/ranges.ts';
import { proportion } from '../numeric/decimal.ts';
import { poissonAtLeast, poissonAtMost } from '../numeric/tails.ts';
import { countedVolume, type MeasuringSetting } from './countedVolume.ts';

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
 * What a setting can tell of an oil: how many particles it will count at a size, the chance that they are enough, and
 * how far the result may lie from the truth. A longer measuring time never lowers the chance, nor widens the ratio of
 * `high` to `low`.
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
  options: { readonly particles?: number | undefined; readonly confidence?: number | undefined } = {},
): CountingConfidence {
  const volumeMl = countedVolume(setting);
  requirePositive(volumeMl, 'setting', 'a flow and a measuring time above 0');
  const perMl = requireNonNegative(setting.perMl, 'setting.perMl');
  if (perMl !== 0) requirePositive(perMl, 'setting.perMl', '0, or particles per mL, 1e-60 or more');
  const expected = wholeIfNear(proportion(perMl, volumeMl, 1));
  requireFewEnough(expected, 'setting', 'expected particles');
  requireObject(options, 'options', 'an object', ['particles', 'confidence']);
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

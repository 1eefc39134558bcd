/**
 * The ranges of what is counted. They lie far beyond any oil and instrument; within them no intermediate result
 * overflows.
 *
 * Each is asked in two ways: `is...` only tells, without a word, for the many inputs that are right; `require...` says
 * what is wrong.
 */
import { requireCount, requireMeasure } from '../checks.ts';
import { motescaleError } from '../errors.ts';

/** Up to so many particles the limits of a count are worked out. */
export const maxCounted = 1e9;

/** A whole number of particles, 0 to 1e9. */
export function requireMeasurableCount(counted: unknown, parameter: string): number {
  const n = requireCount(counted, parameter);
  if (n > maxCounted) throw motescaleError('out_of_range', parameter, counted, 'at most 1e9 particles');
  return n;
}

/** As many particles as a mL holds cubes of 1 µm. */
export const maxPerMl = 1e12;
/** Whole numbers up to here are exact. */
const maxWhole = 9007199254740991;
const minSize = 0.001;
const maxSize = 100000;
const minVolume = 1e-12;
const maxVolume = 1e9;
const maxDilution = 1e9;

/** A size, 0.001 to 100,000 µm. */
export function requireSize(size: unknown, parameter: string): number {
  return requireMeasure(size, parameter, minSize, maxSize, 'a size in µm');
}

/** Whether `requireSize` lets it pass. */
export function isSize(size: unknown): size is number {
  return typeof size === 'number' && size >= minSize && size <= maxSize;
}

/** A count of 0 to 1e12 per mL. */
export function requirePerMl(perMl: unknown, parameter: string, least = 0): number {
  return requireMeasure(perMl, parameter, least, maxPerMl, 'particles per mL');
}

/** Whether `requirePerMl` lets it pass. */
export function isPerMl(perMl: unknown): perMl is number {
  return typeof perMl === 'number' && perMl >= 0 && perMl <= maxPerMl;
}

/** Whether `requireCount` lets it pass. */
export function isCount(counted: unknown): counted is number {
  return typeof counted === 'number' && counted >= 0 && counted <= maxWhole && counted === Math.floor(counted);
}

/** A volume, 1e-12 to 1e9 mL. */
export function requireVolume(volumeMl: unknown, parameter: string): number {
  return requireMeasure(volumeMl, parameter, minVolume, maxVolume, 'a volume in mL');
}

/** Whether `requireVolume` lets it pass. */
export function isVolume(volumeMl: unknown): volumeMl is number {
  return typeof volumeMl === 'number' && volumeMl >= minVolume && volumeMl <= maxVolume;
}

/** A dilution of 1 (none) to 1e9: 2 for one part oil in two parts of mixture. */
export function requireDilution(dilution: unknown, parameter: string): number {
  return requireMeasure(dilution, parameter, 1, maxDilution, 'a dilution');
}

/** Whether `requireDilution` lets it pass. */
export function isDilution(dilution: unknown): dilution is number {
  return typeof dilution === 'number' && dilution >= 1 && dilution <= maxDilution;
}

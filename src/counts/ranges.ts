/**
 * The ranges of what is counted. They lie far beyond any oil and instrument; within them no intermediate result
 * overflows.
 */
import { requireCount, requireMeasure } from '../checks.ts';
import { motescaleError } from '../errors.ts';

/** A size, 0.001 to 100,000 µm. */
export function requireSize(size: unknown, parameter: string): number {
  return requireMeasure(size, parameter, 0.001, 100000, 'a size in µm');
}

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

/** A count of 0 to 1e12 per mL. */
export function requirePerMl(perMl: unknown, parameter: string, least = 0): number {
  return requireMeasure(perMl, parameter, least, maxPerMl, 'particles per mL');
}

/** A volume, 1e-12 to 1e9 mL. */
export function requireVolume(volumeMl: unknown, parameter: string): number {
  return requireMeasure(volumeMl, parameter, 1e-12, 1e9, 'a volume in mL');
}

/** A dilution of 1 (none) to 1e9: 2 for one part oil in two parts of mixture. */
export function requireDilution(dilution: unknown, parameter: string): number {
  return requireMeasure(dilution, parameter, 1, 1e9, 'a dilution');
}

/**
 * The ranges of what is counted. They lie far beyond any oil and instrument; within them no intermediate result
 * overflows.
 *
 * Each range is a rule, which stands once; `requireX` refuses what lies outside in words.
 */
import { type Measure, requireMeasure, requirePositive, requireRange } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { largestWhole } from '../rules/bounds.ts';
import type { NumberRule } from '../rules/rule.ts';
import type { CumulativeCounts } from './types.ts';

type MeasureRule = NumberRule & Measure;

/** What the members of counts may be: one for each size, but for volume and dilution. */
export const sizeRule: MeasureRule = { kind: 'number', expected: 'a size in µm', least: 0.001, most: 100000 };
/** Up to as many particles as a mL holds cubes of 1 µm. */
export const perMlRule: MeasureRule = { kind: 'number', expected: 'particles per mL', least: 0, most: 1e12 };
/** Whole numbers up to here are exact. */
export const countedRule: MeasureRule = {
  kind: 'number',
  expected: 'a whole number of particles',
  least: 0,
  most: largestWhole,
  whole: true,
};
export const volumeRule: MeasureRule = { kind: 'number', expected: 'a volume in mL', least: 1e-12, most: 1e9 };
export const dilutionRule: MeasureRule = { kind: 'number', expected: 'a dilution', least: 1, most: 1e9 };

/** Up to so many particles the limits of a count are worked out. */
export const maxCounted = 1e9;

/** A number of particles: a whole number of zero or more, small enough for a double to hold exactly. */
export function requireCount(value: unknown, parameter: string): number {
  return requireRange(value, parameter, countedRule);
}

/** A whole number of particles, 0 to 1e9. */
export function requireMeasurableCount(counted: unknown, parameter: string): number {
  return requireRange(counted, parameter, { ...countedRule, most: maxCounted });
}

/** Particles that the limits of a count can be worked out for. */
export function requireFewEnough(particles: number, parameter: string, what = 'particles'): void {
  if (particles > maxCounted) throw motescaleError('out_of_range', parameter, particles, `at most 1e9 ${what}`);
}

/** What was counted, and in what volume, where the counts still know it. */
export function requireRaw(
  { counted, volumeMl }: CumulativeCounts,
  parameter = 'counts',
): Required<Pick<CumulativeCounts, 'counted' | 'volumeMl'>> {
  if (counted !== undefined && volumeMl !== undefined) return { counted, volumeMl };
  const expected = 'raw counts: cumulativeCounts({ ... }, { volumeMl })';
  throw motescaleError('missing_volume', `${parameter}.volumeMl`, volumeMl, expected);
}

/** A size, 0.001 to 100,000 µm. */
export function requireSize(size: unknown, parameter: string): number {
  return requireRange(size, parameter, sizeRule);
}

/** A count of 0 to 1e12 per mL. */
export function requirePerMl(perMl: unknown, parameter: string, least = 0): number {
  return requireMeasure(perMl, parameter, least, perMlRule.most, perMlRule.expected);
}

/** A volume, 1e-12 to 1e9 mL. */
export function requireVolume(volumeMl: unknown, parameter: string): number {
  return requireRange(volumeMl, parameter, volumeRule);
}

/** A dilution of 1 (none) to 1e9: 2 for one part oil in two parts of mixture. */
export function requireDilution(dilution: unknown, parameter: string): number {
  return requireRange(dilution, parameter, dilutionRule);
}

/** The upper end of a range of sizes that begins at `from`. */
export function requireUpperEnd(to: unknown, from: number, parameter: string): void {
  if (requirePositive(to, parameter) <= from)
    throw motescaleError('out_of_range', parameter, to, `a size above ${from} µm`);
}

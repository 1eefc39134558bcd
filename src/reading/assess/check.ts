/**
 * What a check is, and what is asked of a reading and its limits before any is made.
 */
import {
  requireFilledArray,
  requireFinite,
  requireNonNegative,
  requireObject,
  requireOneOf,
  requirePositive,
  requireWithin,
} from '../../checks.ts';
import { checkCounts } from '../../counts/checkCounts.ts';
import { motescaleError } from '../../errors.ts';
import type { FindingCode, Quality, Reading } from '../reading.ts';
import { defaultReadingLimits, type OwnReadingLimits, type ReadingLimits } from '../readingLimits.ts';
import type { Repeats } from './stuck.ts';

/** All a check may look at. */
export interface Context {
  readonly reading: Reading;
  readonly limits: ReadingLimits;
  readonly earlier: readonly Reading[];
  readonly repeats: Repeats;
}

/** What a check found; the limits say what quality that means. */
export interface Found {
  readonly code: FindingCode;
  readonly figure: number;
  readonly limit: number;
  readonly text: string;
}

/** A check: the findings it can make, and how. Null where the reading or the limits do not allow it. */
export interface Check {
  readonly codes: readonly FindingCode[];
  readonly find: (context: Context) => readonly Found[] | null;
}

/** Returns the reading as it came, or throws. Counts may rise with size: that is a finding. */
export function checkReading(reading: Reading, parameter = 'reading'): Reading {
  requireObject(reading, parameter, 'a reading { counts, ... }');
  requireObject(reading.counts, `${parameter}.counts`, 'counts as cumulativeCounts makes them');
  checkCounts(reading.counts, `${parameter}.counts`, { mayRise: true });
  ask(reading.time, requireFinite, `${parameter}.time`);
  ask(reading.mlPerMin, requireNonNegative, `${parameter}.mlPerMin`);
  ask(reading.measuringSeconds, requirePositive, `${parameter}.measuringSeconds`);
  ask(reading.kPa, requireFinite, `${parameter}.kPa`);
  ask(reading.celsius, requireCelsius, `${parameter}.celsius`);
  ask(reading.mm2PerS, requirePositive, `${parameter}.mm2PerS`);
  ask(reading.waterSaturation, requireSaturation, `${parameter}.waterSaturation`);
  ask(reading.coldestCelsius, requireCelsius, `${parameter}.coldestCelsius`);
  ask(reading.flushedMl, requireNonNegative, `${parameter}.flushedMl`);
  return reading;
}

/** Returns the earlier readings as they came, or throws. They were checked in their turn: here only what is looked at again. */
export function checkEarlier(earlier: readonly Reading[]): readonly Reading[] {
  if (!Array.isArray(earlier)) {
    throw motescaleError('wrong_type', 'earlier', earlier, 'an array of the readings before, oldest first');
  }
  for (let i = 0; i < earlier.length; i += 1) {
    const reading: Reading = earlier[i];
    if (!Array.isArray(reading?.counts?.perMl)) {
      throw motescaleError('wrong_type', `earlier[${i}]`, reading, 'a reading { counts, ... }');
    }
    ask(reading.time, requireFinite, `earlier[${i}].time`);
  }
  return earlier;
}

/** The limits with the defaults filled in, or throws. A name that is no limit is an error: a misspelt limit must not pass for a default. */
export function mergeLimits(own: OwnReadingLimits): ReadingLimits {
  requireObject(own, 'limits');
  for (const name of Object.keys(own)) requireOneOf(name, 'limits', Object.keys(defaultReadingLimits));
  const given = own as { readonly [name: string]: unknown };
  const merged: { [name: string]: unknown } = { ...defaultReadingLimits };
  for (const name of Object.keys(given)) if (given[name] !== undefined) merged[name] = given[name];
  merged.qualities = mergeQualities(own.qualities ?? {});
  const limits = merged as unknown as ReadingLimits;
  checkBand(limits.mlPerMin, 'limits.mlPerMin');
  checkBand(limits.celsius, 'limits.celsius');
  askLimit(limits.leastKPa, requireFinite, 'limits.leastKPa');
  askLimit(limits.mostMm2PerS, requirePositive, 'limits.mostMm2PerS');
  askLimit(limits.particles, requirePositive, 'limits.particles');
  askLimit(limits.coincidencePerMl, requirePositive, 'limits.coincidencePerMl');
  askLimit(limits.freeWaterSaturation, requirePositive, 'limits.freeWaterSaturation');
  askLimit(limits.freeWaterSaturation, requireSaturation, 'limits.freeWaterSaturation');
  askLimit(limits.flattestSteepness, requirePositive, 'limits.flattestSteepness');
  askLimit(limits.flushMl, requireNonNegative, 'limits.flushMl');
  if (limits.solubility !== null) {
    requireObject(limits.solubility, 'limits.solubility', 'a solubility line { b }');
    requirePositive(limits.solubility.b, 'limits.solubility.b', 'a slope in kelvin above 0');
  }
  if (limits.particleSizes !== null) {
    requireFilledArray(limits.particleSizes, 'limits.particleSizes', 'an array of sizes in µm');
    for (const size of limits.particleSizes) requirePositive(size, 'limits.particleSizes', 'sizes in µm above 0');
  }
  if (limits.stuckReadings !== null && requirePositive(limits.stuckReadings, 'limits.stuckReadings') < 2) {
    throw motescaleError('out_of_range', 'limits.stuckReadings', limits.stuckReadings, '2 readings or more');
  }
  return limits;
}

function mergeQualities(own: Partial<Record<FindingCode, Quality>>): ReadingLimits['qualities'] {
  requireObject(own, 'limits.qualities');
  const merged: Record<FindingCode, Quality> = { ...defaultReadingLimits.qualities };
  for (const name of Object.keys(own)) {
    const code = requireOneOf(name, 'limits.qualities', Object.keys(merged) as FindingCode[]);
    if (own[code] !== undefined) merged[code] = requireQuality(own[code], `limits.qualities.${code}`);
  }
  return merged;
}

/** One of the three words. */
export function requireQuality(value: unknown, parameter: string): Quality {
  return requireOneOf(value, parameter, ['good', 'uncertain', 'bad']);
}

function checkBand(band: { readonly low: number; readonly high: number } | null, parameter: string): void {
  if (band === null) return;
  requireObject(band, parameter, 'a band { low, high }');
  const low = requireFinite(band.low, `${parameter}.low`);
  if (requireFinite(band.high, `${parameter}.high`) < low) {
    throw motescaleError('out_of_range', `${parameter}.high`, band.high, `a number of at least ${low}, the low end`);
  }
}

function ask(value: unknown, require: (value: unknown, parameter: string) => unknown, parameter: string): void {
  if (value !== undefined) require(value, parameter);
}

function askLimit(value: unknown, require: (value: unknown, parameter: string) => unknown, parameter: string): void {
  if (value !== null) require(value, parameter);
}

/** The most a relative saturation can be, as a share. */
export const mostSaturation = 2;

/** A relative saturation as a share: above 2 it is taken for percent, since no oil holds twice what it can for long. */
export function requireSaturation(value: unknown, parameter: string): number {
  const number = requireNonNegative(value, parameter);
  if (number > mostSaturation) throw motescaleError('out_of_range', parameter, value, 'a share, 0.45 for 45 %');
  return number;
}

function requireCelsius(value: unknown, parameter: string): number {
  return requireWithin(value, parameter, -273.15, 1000, 'absolute zero below');
}

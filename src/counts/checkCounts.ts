/**
 * What every function asks of counts it is handed: known sizing, ascending sizes, counts that never rise with size, and raw counts that
 * agree with the counts per mL.
 */
import { requireCount, requireFilledArray, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import {
  isCount,
  isDilution,
  isPerMl,
  isSize,
  isVolume,
  requireDilution,
  requirePerMl,
  requireSize,
  requireVolume,
} from './ranges.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** All sizings, in the order they are listed and preferred. */
export const sizings: readonly Sizing[] = ['iso11171', 'microscope', 'iso4402', 'iso11171b'];
/** Sizes closer than this share of themselves are one size; raw counts and counts per mL that differ by less agree. */
export const rounding = 1e-9;

/** One of the four sizings. */
export function requireSizing(sizing: unknown, parameter: string): Sizing {
  if (sizings.indexOf(sizing as Sizing) < 0) {
    throw motescaleError('unknown_sizing', parameter, sizing, `one of '${sizings.join("', '")}'`);
  }
  return sizing as Sizing;
}

/** For callers with names of their own for the figures, or that report rising counts instead of refusing them. */
export interface CountsCheck {
  readonly nameOf?: (list: string, i: number) => string;
  readonly mayRise?: boolean;
}

/** Returns the counts as they came, or throws. */
export function checkCounts(counts: CumulativeCounts, parameter = 'counts', check?: CountsCheck): CumulativeCounts {
  if (!isSound(counts, check?.mayRise === true)) refuse(counts, parameter, check ?? {});
  return counts;
}

/** Names what is wrong. Returns where a raw count lies so near the edge of agreeing that the quick question left it open. */
function refuse(
  counts: CumulativeCounts,
  parameter: string,
  { nameOf = (list, i) => `${parameter}.${list}[${i}]`, mayRise = false }: CountsCheck,
): void {
  requireObject(counts, parameter, 'counts as cumulativeCounts makes them');
  requireSizing(counts.sizing, `${parameter}.sizing`);
  const { sizes, perMl, counted, volumeMl, dilution } = counts;
  requireFilledArray(sizes, `${parameter}.sizes`);
  requireSameLength(perMl, sizes.length, `${parameter}.perMl`);
  if (counted !== undefined) requireSameLength(counted, sizes.length, `${parameter}.counted`);
  if (volumeMl !== undefined) requireVolume(volumeMl, `${parameter}.volumeMl`);
  if (dilution !== undefined) requireDilution(dilution, `${parameter}.dilution`);

  for (let i = 0; i < sizes.length; i += 1) {
    const size = requireSize(sizes[i], nameOf('sizes', i));
    requirePerMl(perMl[i], nameOf('perMl', i));
    if (counted !== undefined) requireCount(counted[i], nameOf('counted', i));
    const before = sizes[i - 1] as number;
    if (size < before * (1 + rounding)) {
      const expected = `a size above ${before} µm, by a billionth of it or more`;
      throw motescaleError('sizes_out_of_order', nameOf('sizes', i), size, expected);
    }
    if (mayRise) continue;
    requireFalling(perMl, i, before, nameOf('perMl', i));
    if (counted !== undefined) requireFalling(counted, i, before, nameOf('counted', i));
  }
  requireAgreement(counts, nameOf);
}

/** Whether all holds, asked without building a text. */
export function isSound(counts: CumulativeCounts, mayRise: boolean): boolean {
  if (typeof counts !== 'object' || counts === null || Array.isArray(counts)) return false;
  const { sizing, sizes, perMl, counted, volumeMl, dilution } = counts;
  if (sizings.indexOf(sizing) < 0 || !Array.isArray(sizes) || !Array.isArray(perMl)) return false;
  const { length } = sizes;
  if (length === 0 || perMl.length !== length) return false;
  if (volumeMl !== undefined && !isVolume(volumeMl)) return false;
  if (dilution !== undefined && !isDilution(dilution)) return false;
  for (let i = 0; i < length; i += 1) {
    if (!isSize(sizes[i]) || !isPerMl(perMl[i])) return false;
    if (i === 0) continue;
    if (sizes[i] < sizes[i - 1] * (1 + rounding) || (!mayRise && perMl[i] > perMl[i - 1])) return false;
  }
  return counted === undefined || isSoundRaw(counted, counts, mayRise);
}

function isSoundRaw(counted: unknown, counts: CumulativeCounts, mayRise: boolean): boolean {
  const { perMl, volumeMl, dilution = 1 } = counts;
  if (!Array.isArray(counted) || counted.length !== perMl.length) return false;
  for (let i = 0; i < counted.length; i += 1) {
    if (!isCount(counted[i]) || (i > 0 && !mayRise && counted[i] > counted[i - 1])) return false;
    if (volumeMl === undefined) continue;
    const related = (counted[i] * dilution) / volumeMl;
    // two roundings off the exact figure: what agrees to half of what is allowed agrees
    if (!(Math.abs((perMl[i] as number) - related) <= related * (rounding / 2))) return false;
  }
  return true;
}

function requireFalling(figures: readonly number[], i: number, size: number, name: string): void {
  const before = figures[i - 1] as number;
  if ((figures[i] as number) > before) {
    const expected = `at most ${before}, the count at ${size} µm, since larger particles are among those of ${size} µm and larger`;
    throw motescaleError('counts_rise_with_size', name, figures[i], expected);
  }
}

/** Raw counts, with the volume they were counted in, give the counts per mL. */
function requireAgreement(counts: CumulativeCounts, nameOf: (list: string, i: number) => string): void {
  const { perMl, counted, volumeMl, dilution = 1 } = counts;
  if (counted === undefined || volumeMl === undefined) return;
  for (let i = 0; i < counted.length; i += 1) {
    const related = proportion(counted[i] as number, dilution, volumeMl);
    if (Math.abs((perMl[i] as number) - related) > related * rounding) {
      throw motescaleError('out_of_range', nameOf('perMl', i), perMl[i], `${related}: counted x dilution / volumeMl`);
    }
  }
}

function requireSameLength(list: unknown, length: number, parameter: string): void {
  const { length: actual } = requireFilledArray(list, parameter);
  if (actual !== length)
    throw motescaleError('length_mismatch', parameter, list, `an array of ${length}, one for each size`);
}

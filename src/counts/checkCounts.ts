/**
 * What every function asks of counts it is handed: known sizing, ascending sizes, counts that never rise with size, and
 * raw counts that agree with the counts per mL.
 */
import { noneOf, requireFilledArray, requireObject } from '../checks.ts';
import { isMotescaleError, motescaleError } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import {
  countedRule,
  dilutionRule,
  isWithin,
  type Measure,
  perMlRule,
  requireRange,
  sizeRule,
  volumeRule,
} from './ranges.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** All sizings, in the order they are listed and preferred. */
export const sizings: readonly Sizing[] = ['iso11171', 'microscope', 'iso4402', 'iso11171b'];
/** Sizes closer than this share of themselves are one size; raw counts and counts per mL that differ by less agree. */
export const rounding = 1e-9;

const members: readonly string[] = ['sizing', 'sizes', 'perMl', 'counted', 'volumeMl', 'dilution'];

/** One of the four sizings. */
export function requireSizing(sizing: unknown, parameter: string): Sizing {
  if (sizings.indexOf(sizing as Sizing) < 0) {
    throw noneOf(sizings, 'unknown_sizing', parameter, sizing);
  }
  return sizing as Sizing;
}

/** The path to a member, or to an element of one. */
type NameOf = (name: string, i?: number) => string;

/** For callers with names of their own for the figures, or that report rising counts instead of refusing them. */
export interface CountsCheck {
  readonly nameOf?: (list: string, i: number) => string;
  readonly mayRise?: boolean;
}

/** Returns the counts as they came, or throws. Counts that pass cost no text. */
export function checkCounts(counts: CumulativeCounts, parameter = 'counts', check?: CountsCheck): CumulativeCounts {
  requireObject(counts, parameter, 'counts as cumulativeCounts makes them', members);
  const { sizing, sizes, perMl, counted, volumeMl, dilution } = counts;
  const at: NameOf = (name, i) =>
    i === undefined ? `${parameter}.${name}` : (check?.nameOf?.(name, i) ?? `${parameter}.${name}[${i}]`);
  if (sizings.indexOf(sizing) < 0) requireSizing(sizing, at('sizing'));
  requireList(sizes, 'sizes', sizeRule, sizes, at);
  requireList(perMl, 'perMl', perMlRule, sizes, at);
  if (counted !== undefined) requireList(counted, 'counted', countedRule, sizes, at);
  if (volumeMl !== undefined) requireFigure(volumeMl, volumeRule, at, 'volumeMl');
  if (dilution !== undefined) requireFigure(dilution, dilutionRule, at, 'dilution');

  for (let i = 0; i < sizes.length; i += 1) {
    if (counted !== undefined && volumeMl !== undefined) requireAgreement(counts, i, at);
    if (i === 0) continue;
    const before = sizes[i - 1] as number;
    if ((sizes[i] as number) < before * (1 + rounding)) {
      const expected = `a size above ${before} µm, by a billionth of it or more`;
      throw motescaleError('sizes_out_of_order', at('sizes', i), sizes[i], expected);
    }
    if (check?.mayRise === true) continue;
    requireFalling(perMl, 'perMl', i, before, at);
    if (counted !== undefined) requireFalling(counted, 'counted', i, before, at);
  }
  return counts;
}

/** Whether `checkCounts` lets them pass. */
export function isSound(counts: CumulativeCounts, mayRise: boolean): boolean {
  try {
    checkCounts(counts, 'counts', { mayRise });
    return true;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return false;
  }
}

/** Whether `checkCounts` lets counts pass that may rise, and each of whose members keeps its rule. */
export function membersAgree(counts: CumulativeCounts): boolean {
  const { sizes, perMl, counted, volumeMl, dilution = 1 } = counts;
  const { length } = sizes;
  let plain = perMl.length === length && (counted === undefined || counted.length === length);
  for (let i = 0; plain && i < length; i += 1) {
    if (i > 0) plain = (sizes[i] as number) >= (sizes[i - 1] as number) * (1 + rounding);
    if (counted === undefined || volumeMl === undefined) continue;
    plain = plain && agreePlainly(perMl[i] as number, ((counted[i] as number) * dilution) / volumeMl);
  }
  return plain || isSound(counts, true);
}

/** Two roundings off the exact figure: what agrees to half of what is allowed agrees. */
function agreePlainly(count: number, rough: number): boolean {
  return Math.abs(count - rough) <= rough * (rounding / 2);
}

/** Whether counts that have passed the gate of readings, where it is a finding, rise with size. */
export function riseWithSize({ perMl, counted }: CumulativeCounts): boolean {
  for (let i = 1; i < perMl.length; i += 1) {
    if ((perMl[i] as number) > (perMl[i - 1] as number)) return true;
    if (counted !== undefined && (counted[i] as number) > (counted[i - 1] as number)) return true;
  }
  return false;
}

/** An array with one element for each size, each by the rule. */
function requireList(list: unknown, name: string, rule: Measure, sizes: readonly number[], at: NameOf): void {
  if (!Array.isArray(list) || list.length === 0 || list.length !== sizes.length) {
    requireFilledArray(list, at(name));
    throw motescaleError('length_mismatch', at(name), list, `an array of ${sizes.length}, one for each size`);
  }
  for (let i = 0; i < list.length; i += 1) requireFigure(list[i], rule, at, name, i);
}

/** One figure by its rule; what keeps it costs no text. */
function requireFigure(value: unknown, rule: Measure, at: NameOf, name: string, i?: number): void {
  if (!isWithin(value, rule)) requireRange(value, at(name, i), rule);
}

function requireFalling(figures: readonly number[], name: string, i: number, size: number, at: NameOf): void {
  const before = figures[i - 1] as number;
  if ((figures[i] as number) > before) {
    const expected = `at most ${before}, the count of ${size} µm and larger`;
    throw motescaleError('counts_rise_with_size', at(name, i), figures[i], expected);
  }
}

/** A raw count, with the volume it was counted in, gives the count per mL. */
function requireAgreement(counts: CumulativeCounts, i: number, at: NameOf): void {
  const { perMl, counted, volumeMl, dilution = 1 } = counts as Required<CumulativeCounts>;
  const count = perMl[i] as number;
  const rough = ((counted[i] as number) * dilution) / volumeMl;
  if (agreePlainly(count, rough)) return;
  const related = proportion(counted[i] as number, dilution, volumeMl);
  if (Math.abs(count - related) > related * rounding) {
    throw motescaleError('out_of_range', at('perMl', i), count, `${related}: counted x dilution / volumeMl`);
  }
}

/** What every function asks of counts: sizes that ascend, counts that never rise, raw counts that agree with them. */
import { isWithin, type Measure, noneOf, outOfRange, requireFilled, requireObject } from '../checks.ts';
import { caught, motescaleError } from '../errors.ts';
import { countedRule, dilutionRule, perMlRule, sizeRule, volumeRule } from './ranges.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** All sizings, in the order they are listed and preferred. */
export const sizings: readonly Sizing[] = ['iso11171', 'microscope', 'iso4402', 'iso11171b'];
/** Sizes closer than this share of themselves are one size; raw counts and counts per mL that differ by less agree. */
export const rounding = 1e-9;

const members: readonly string[] = ['sizing', 'sizes', 'perMl', 'counted', 'volumeMl', 'dilution'];

/** One of the four sizings; `parameter` and `member` together say where it came from. */
export function requireSizing(sizing: unknown, parameter: string, member = ''): Sizing {
  if (sizings.indexOf(sizing as Sizing) < 0) throw noneOf(sizings, 'unknown_sizing', parameter + member, sizing);
  return sizing as Sizing;
}

/** The path to a member, or to an element of one. */
type NameOf = (name: string, i?: number) => string;

/**
 * Returns the counts as they came, or throws. Counts that pass cost no text. Some callers report rising counts instead
 * of refusing them, some have names of their own for the figures.
 */
export function checkCounts(
  counts: CumulativeCounts,
  parameter = 'counts',
  mayRise = false,
  at: NameOf = (name, i) => `${parameter}.${name}${i === undefined ? '' : `[${i}]`}`,
): CumulativeCounts {
  requireObject(counts, parameter, 'counts from cumulativeCounts({ 4: 1890 })', members);
  const { sizing, sizes, perMl, counted, volumeMl, dilution } = counts;
  requireSizing(sizing, parameter, '.sizing');
  requireList(sizes, 'sizes', sizeRule, sizes, at, false);
  for (let i = 1; i < sizes.length; i += 1) {
    const before = sizes[i - 1] as number;
    if ((sizes[i] as number) >= before * (1 + rounding)) continue;
    const expected = `a size above ${before} µm`;
    throw motescaleError('sizes_out_of_order', at('sizes', i), sizes[i], expected);
  }
  requireList(perMl, 'perMl', perMlRule, sizes, at, !mayRise);
  if (counted !== undefined) requireList(counted, 'counted', countedRule, sizes, at, !mayRise);
  if (volumeMl !== undefined) requireFigure(volumeMl, volumeRule, at, 'volumeMl');
  if (dilution !== undefined) requireFigure(dilution, dilutionRule, at, 'dilution');
  if (counted === undefined || volumeMl === undefined) return counts;
  for (let i = 0; i < sizes.length; i += 1) {
    const related = ((counted[i] as number) * (dilution ?? 1)) / volumeMl;
    if (agree(perMl[i] as number, related)) continue;
    throw motescaleError('out_of_range', at('perMl', i), perMl[i], `${related}: counted x dilution / volumeMl`);
  }
  return counts;
}

/** Whether `checkCounts` lets them pass. */
export function isSound(counts: CumulativeCounts, mayRise: boolean): boolean {
  try {
    checkCounts(counts, 'counts', mayRise);
    return true;
  } catch (error) {
    caught(error);
    return false;
  }
}

/**
 * The same for counts that may rise, of whose members each keeps its rule: only how they stand to each other is asked,
 * since every reading comes this way.
 */
export function membersAgree(counts: CumulativeCounts): boolean {
  const { sizes, perMl, counted = perMl } = counts;
  if (perMl.length !== sizes.length || counted.length !== sizes.length) return false;
  for (let i = 1; i < sizes.length; i += 1)
    if ((sizes[i] as number) < (sizes[i - 1] as number) * (1 + rounding)) return false;
  return disagreement(counts) === null;
}

/** Whether a count per mL is that of the raw count, but for rounding. */
function agree(perMl: number, related: number): boolean {
  return Math.abs(perMl - related) <= related * rounding;
}

/** The first count per mL that is not that of the raw count; null where there is none. */
export function disagreement(counts: CumulativeCounts): { place: number; expected: string } | null {
  const { perMl, counted, volumeMl, dilution = 1 } = counts;
  if (counted === undefined || volumeMl === undefined) return null;
  for (let place = 0; place < perMl.length; place += 1) {
    const related = ((counted[place] as number) * dilution) / volumeMl;
    if (agree(perMl[place] as number, related)) continue;
    return { place, expected: `${related}: counted x dilution / volumeMl` };
  }
  return null;
}

/** Whether counts that have passed the gate of readings, where it is a finding, rise with size. */
export function riseWithSize({ perMl, counted = perMl }: CumulativeCounts): boolean {
  for (let i = 1; i < perMl.length; i += 1) {
    if ((perMl[i] as number) > (perMl[i - 1] as number)) return true;
    if ((counted[i] as number) > (counted[i - 1] as number)) return true;
  }
  return false;
}

/** An array with one element for each size, each by the rule, and, if it falls, none above the one before. */
function requireList(
  list: unknown,
  name: string,
  rule: Measure,
  sizes: readonly number[],
  at: NameOf,
  falls: boolean,
): void {
  if (!Array.isArray(list) || list.length === 0 || list.length !== sizes.length) {
    requireFilled(list, at(name), 'counts of cumulativeCounts');
    throw motescaleError('length_mismatch', at(name), list, `an array of ${sizes.length}, one for each size`);
  }
  for (let i = 0; i < list.length; i += 1) {
    requireFigure(list[i], rule, at, name, i);
    if (!falls || i === 0 || list[i] <= list[i - 1]) continue;
    const expected = `at most ${list[i - 1]}, the count at ${sizes[i - 1]} µm`;
    throw motescaleError('counts_rise_with_size', at(name, i), list[i], expected);
  }
}

/** One figure by its rule; what keeps it costs no text. */
function requireFigure(value: unknown, rule: Measure, at: NameOf, name: string, i?: number): void {
  if (!isWithin(value, rule)) throw outOfRange(value, at(name, i), rule);
}

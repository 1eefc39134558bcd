/**
 * What every function asks of counts it is handed: known sizing, ascending sizes, counts that are numbers and never rise with size.
 */
import { requireCount, requireFilledArray, requireNonNegative, requireObject, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

const sizings: readonly Sizing[] = ['iso11171', 'iso11171b', 'iso4402', 'microscope'];

/** One of the four sizings. */
export function requireSizing(sizing: unknown, parameter: string): Sizing {
  if (sizings.indexOf(sizing as Sizing) < 0) {
    throw motescaleError('unknown_sizing', parameter, sizing, `one of '${sizings.join("', '")}'`);
  }
  return sizing as Sizing;
}

/** Returns the counts as they came, or throws. */
export function checkCounts(counts: CumulativeCounts, parameter = 'counts'): CumulativeCounts {
  requireObject(counts, parameter, 'counts as cumulativeCounts makes them');
  requireSizing(counts.sizing, `${parameter}.sizing`);
  const { sizes, perMl, counted } = counts;
  requireFilledArray(sizes, `${parameter}.sizes`);
  requireSameLength(perMl, sizes.length, `${parameter}.perMl`);
  for (let i = 0; i < sizes.length; i += 1) {
    const size = requirePositive(sizes[i], `${parameter}.sizes[${i}]`, 'a size in µm above 0');
    const count = requireNonNegative(perMl[i], `${parameter}.perMl[${i}]`, 'particles per mL, 0 or more');
    if (i === 0) continue;
    const before = i - 1;
    if (size <= (sizes[before] as number)) {
      throw motescaleError('sizes_out_of_order', `${parameter}.sizes[${i}]`, size, `a size above ${sizes[before]} µm`);
    }
    if (count > (perMl[before] as number)) {
      throw motescaleError(
        'counts_rise_with_size',
        `${parameter}.perMl[${i}]`,
        count,
        `at most ${perMl[before]}, the count at ${sizes[before]} µm, since larger particles are among those of ${sizes[before]} µm and larger`,
      );
    }
  }
  if (counted !== undefined) {
    requireSameLength(counted, sizes.length, `${parameter}.counted`);
    for (let i = 0; i < counted.length; i += 1) requireCount(counted[i], `${parameter}.counted[${i}]`);
  }
  if (counts.volumeMl !== undefined) requirePositive(counts.volumeMl, `${parameter}.volumeMl`);
  if (counts.dilution !== undefined) requireDilution(counts.dilution, `${parameter}.dilution`);
  return counts;
}

/** A dilution: 1 for none, 2 for one part oil in two parts of mixture. */
export function requireDilution(dilution: unknown, parameter: string): number {
  const number = requirePositive(dilution, parameter, 'a dilution of 1 or more');
  if (number < 1) throw motescaleError('out_of_range', parameter, dilution, 'a dilution of 1 or more');
  return number;
}

function requireSameLength(list: unknown, length: number, parameter: string): void {
  const { length: actual } = requireFilledArray(list, parameter);
  if (actual !== length)
    throw motescaleError('length_mismatch', parameter, list, `an array of ${length}, one for each size`);
}

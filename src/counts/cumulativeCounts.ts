/**
 * The way in: counts as an instrument or a laboratory gives them, made into counts of a size and larger per mL.
 */
import { requireCount, requireNonNegative, requireObject, requireOneOf, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { proportion, scaleDecimal } from '../numeric/decimal.ts';
import { checkCounts, requireDilution, requireSizing } from './checkCounts.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** Counts already related to a volume. */
export interface PerVolume {
  /** How sizes were measured. `iso11171`, µm(c), where left out. */
  readonly sizing?: Sizing;
  /** The volume the counts are related to. `mL` where left out. */
  readonly per?: 'mL' | '100mL';
}

/** Particles as counted, with the volume they were counted in. */
export interface RawCount {
  /** How sizes were measured. `iso11171`, µm(c), where left out. */
  readonly sizing?: Sizing;
  /** The volume counted, in mL, above 0: of the mixture, if the sample was diluted. */
  readonly volumeMl: number;
  /** Parts of mixture per part of oil, 1 or more. 1 (undiluted) where left out. */
  readonly dilution?: number;
}

/**
 * Makes cumulative counts from `{ size: count }`, sizes in µm. Counts per mL by default, per 100 mL with `{ per: '100mL' }`, and raw
 * counts (whole particles) with `{ volumeMl, dilution }`. Raw counts are best: only from them can a code say how sure it is.
 *
 * Raw counts are related to the undiluted oil: perMl = counted x dilution / volumeMl, rounded once, to the nearest double.
 *
 * @throws `empty`, `wrong_type`, `not_a_number`, `infinite`, `negative`, `not_an_integer` (raw counts), `unknown_sizing`,
 * `sizes_out_of_order` (the same size twice), `counts_rise_with_size`.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }).perMl; // => [1890, 402, 33]
 * cumulativeCounts({ 5: 29263, 15: 1112 }, { sizing: 'microscope', per: '100mL' }).perMl; // => [292.63, 11.12]
 * cumulativeCounts({ 4: 940, 6: 200, 14: 17 }, { volumeMl: 10, dilution: 2 }).perMl; // => [188, 40, 3.4]
 * ```
 */
export function cumulativeCounts(
  at: Readonly<Record<number, number>>,
  options: PerVolume | RawCount = {},
): CumulativeCounts {
  const sizes = sizesOf(at);
  requireObject(options, 'options');
  const sizing = options.sizing === undefined ? 'iso11171' : requireSizing(options.sizing, 'options.sizing');
  const counts = sizes.map((key) => at[key as unknown as number]);
  const numbers = sizes.map(Number);
  if ('volumeMl' in options && options.volumeMl !== undefined) {
    if ('per' in options) {
      throw motescaleError(
        'unknown_option',
        'options.per',
        (options as PerVolume).per,
        'either per or volumeMl, not both',
      );
    }
    return fromRaw(numbers, counts, sizing, options);
  }
  if ('dilution' in options && options.dilution !== undefined) {
    throw motescaleError(
      'missing_volume',
      'options.volumeMl',
      undefined,
      'the volume counted, in mL, beside a dilution',
    );
  }
  const per = requireOneOf((options as PerVolume).per ?? 'mL', 'options.per', ['mL', '100mL']);
  const perMl = counts.map((count, i) => {
    const number = requireNonNegative(count, `at[${numbers[i]}]`, `particles per ${per}, 0 or more`);
    return per === 'mL' ? number : scaleDecimal(number, 1, 100);
  });
  return checkCounts({ sizing, sizes: numbers, perMl }, 'at');
}

function fromRaw(
  sizes: readonly number[],
  counts: readonly unknown[],
  sizing: Sizing,
  options: RawCount,
): CumulativeCounts {
  const volumeMl = requirePositive(options.volumeMl, 'options.volumeMl', 'the volume counted in mL, above 0');
  const dilution = options.dilution === undefined ? 1 : requireDilution(options.dilution, 'options.dilution');
  const counted = counts.map((count, i) => requireCount(count, `at[${sizes[i]}]`));
  const perMl = counted.map((count) => proportion(count, dilution, volumeMl));
  return checkCounts({ sizing, sizes, perMl, counted, volumeMl, dilution }, 'at');
}

/** The keys of the record, in order of size. */
function sizesOf(at: Readonly<Record<number, number>>): string[] {
  requireObject(at, 'at', 'counts by size, such as { 4: 1890, 6: 402, 14: 33 }');
  const keys = Object.keys(at);
  if (keys.length === 0) throw motescaleError('empty', 'at', at, 'a count for at least one size');
  for (const key of keys) {
    const size = Number(key);
    if (!(size > 0 && isFinite(size))) throw motescaleError('wrong_type', 'at', key, 'sizes in µm above 0');
  }
  return keys.sort((a, b) => Number(a) - Number(b));
}

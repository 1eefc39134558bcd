/** The way in: counts as an instrument or a laboratory gives them, made into counts of a size and larger per mL. */
import { requireNonNegative, requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { proportion, scaleDecimal } from '../numeric/decimal.ts';
import { checkCounts, requireSizing } from './checkCounts.ts';
import { perMlRule, requireCount, requireDilution, requireVolume } from './ranges.ts';
import type { CumulativeCounts, Sizing } from './types.ts';

/** Counts already related to a volume. */
export interface PerVolume {
  /** How sizes were measured. `iso11171`, µm(c), where left out. */
  readonly sizing?: Sizing | undefined;
  /** The volume the counts are related to. `mL` where left out. */
  readonly per?: 'mL' | '100mL' | undefined;
  readonly volumeMl?: never;
  readonly dilution?: never;
}

/** Particles as counted, with the volume they were counted in. */
export interface RawCount {
  /** How sizes were measured. `iso11171`, µm(c), where left out. */
  readonly sizing?: Sizing | undefined;
  /** The volume counted, in mL, above 0: of the mixture, if the sample was diluted. */
  readonly volumeMl: number;
  /** Parts of mixture per part of oil, 1 or more. 1 (undiluted) where left out. */
  readonly dilution?: number | undefined;
  readonly per?: never;
}

/**
 * Makes cumulative counts from `{ size: count }`, sizes in µm. Counts per mL by default, per 100 mL with
 * `{ per: '100mL' }`, and raw counts (whole particles) with `{ volumeMl, dilution }`. Raw counts are best: only from
 * them can a code say how sure it is. They must be the particles that were counted, never a figure per mL as it is
 * shown times a volume: such a count seems surer than it is, and repeats more often than particles do. 1,900,
 * 400 and 33 per mL in 10 mL are 19,000, 4,000 and 330 particles only where so many were counted.
 *
 * Raw counts are related to the undiluted oil: perMl = counted x dilution / volumeMl, rounded once, to the nearest
 * double.
 *
 * Range: 1 to 1,000 sizes from 0.001 to 100,000 µm, written as plain decimals; counts from 0 to 1e12 per mL; volumes
 * from 1e-12 to 1e9 mL; dilution from 1 to 1e9.
 *
 * @throws `empty`, `wrong_type`, `not_a_number`, `infinite`, `negative`, `out_of_range`, `not_an_integer` (raw counts),
 * `unknown_sizing`, `unknown_option`, `missing_volume` (a dilution without a volume), `sizes_out_of_order` (the same
 * size twice), `counts_rise_with_size`.
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
  counts: Readonly<Record<number, number>>,
  options: PerVolume | RawCount = {},
): CumulativeCounts {
  const keys = sizeKeys(counts);
  requireObject(options, 'options', undefined, ['sizing', 'per', 'volumeMl', 'dilution']);
  const sizing = options.sizing === undefined ? 'iso11171' : requireSizing(options.sizing, 'options.sizing');
  const figures = keys.map((key) => counts[key as unknown as number]);
  const nameOf: NameOf = (name, i) => (i === undefined ? `options.${name}` : nameOfSize(keys[i] as string));
  return relatedCounts(sizing, keys.map(Number), figures, options, nameOf);
}

type NameOf = (name: string, i?: number) => string;

/** Figures of a size and larger in the unit that the options tell; the errors name them as they came. */
export function relatedCounts(
  sizing: Sizing,
  sizes: readonly number[],
  figures: readonly (number | undefined)[],
  options: PerVolume | RawCount,
  nameOf: NameOf,
): CumulativeCounts {
  const { per, volumeMl, dilution } = options as { per?: unknown; volumeMl?: unknown; dilution?: unknown };
  if (volumeMl !== undefined) {
    if (per !== undefined)
      throw motescaleError('unknown_option', nameOf('per'), per, 'either per or volumeMl, not both');
    const volume = requireVolume(volumeMl, nameOf('volumeMl'));
    const diluted = dilution === undefined ? 1 : requireDilution(dilution, nameOf('dilution'));
    const counted = figures.map((count, i) => requireCount(count, nameOf('counted', i)));
    const perMl = counted.map((count) => proportion(count, diluted, volume));
    perMl.forEach((count, i) => {
      if (count <= perMlRule.most) return;
      throw motescaleError('out_of_range', nameOf('counted', i), counted[i], 'particles per mL, up to 1e12');
    });
    const raw = { sizing, sizes, perMl, counted, volumeMl: volume, dilution: diluted };
    return requireFalling(checkCounts(raw, 'counts', true, nameOf), counted, nameOf);
  }
  if (dilution !== undefined) {
    const expected = 'the volume counted in mL, beside dilution';
    throw motescaleError('missing_volume', nameOf('volumeMl'), volumeMl, expected);
  }
  const unit = requireOneOf(per ?? 'mL', nameOf('per'), ['mL', '100mL']);
  const numbers = figures.map((count, i) =>
    requireNonNegative(count, nameOf('perMl', i), `particles per ${unit}, 0 or more`),
  );
  const perMl = unit === 'mL' ? numbers : numbers.map((count) => scaleDecimal(count, 1, 100));
  return requireFalling(checkCounts({ sizing, sizes, perMl }, 'counts', true, nameOf), numbers, nameOf);
}

/** The counts, of which none may be above that of a smaller size; named as they came. */
function requireFalling(counts: CumulativeCounts, figures: readonly number[], nameOf: NameOf): CumulativeCounts {
  for (let i = 1; i < figures.length; i += 1) {
    if ((figures[i] as number) <= (figures[i - 1] as number)) continue;
    const expected = `at most ${figures[i - 1]}, the count at ${counts.sizes[i - 1]} µm`;
    throw motescaleError('counts_rise_with_size', nameOf('counted', i), figures[i], expected);
  }
  return counts;
}

/** `counts[6]`; a size written another way than the number, such as `counts['6.0']`, stands in quotes. */
function nameOfSize(key: string): string {
  return String(Number(key)) === key ? `counts[${key}]` : `counts['${key}']`;
}

/** More sizes than any counter tells apart; to sort a hundred thousand takes a small engine seconds. */
export const mostSizes = 1000;

/** The keys of the record, in order of size. */
function sizeKeys(counts: Readonly<Record<number, number>>): string[] {
  requireObject(counts, 'counts', 'counts by size, such as { 4: 1890, 6: 402, 14: 33 }');
  const keys = Object.keys(counts);
  if (keys.length === 0) throw motescaleError('empty', 'counts', counts, 'a count for at least one size');
  if (keys.length > mostSizes)
    throw motescaleError('out_of_range', 'counts', keys.length, `at most ${mostSizes} sizes`);
  for (const key of keys) {
    if (!/^\d+(\.\d+)?$/.test(key))
      throw motescaleError('wrong_type', 'counts', key, 'sizes in µm as plain decimal numbers');
  }
  return keys.sort((a, b) => Number(a) - Number(b));
}

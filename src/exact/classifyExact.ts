/** Classification in decimal arithmetic: counts and volume as text, every comparison by cross-multiplication. */
import type { Decimal } from 'decimal.js';
import { requireMembers, requireObject } from '../checks.ts';
import { assemble, type Finding, unbounded } from '../codes/assemble.ts';
import { classIndex } from '../codes/classIndex.ts';
import { placeAround } from '../codes/columnCount.ts';
import { requireSizingOf } from '../codes/columnSizes.ts';
import { requireTable } from '../codes/requireTable.ts';
import type { Classification, ClassTable } from '../codes/types.ts';
import { requireSizing } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { type DecimalReader, decimalReader } from './decimalText.ts';
import { requirePlaces } from './roundHalfEven.ts';

/** Counts as text. */
export interface ExactCounts {
  /** Counts of a size and larger by size in µm, as decimal text. */
  readonly at: Readonly<Record<number, string>>;
  /** The volume counted, in mL. Where left out the counts are per mL already. */
  readonly volumeMl?: string;
  /** Parts of mixture per part of oil, 1 or more. */
  readonly dilution?: string;
  /** `iso11171` where left out. */
  readonly sizing?: Sizing;
}

/**
 * The code or class of counts given as decimal text: the same result as `classify`, with no binary rounding anywhere. A
 * count is compared with a limit as count x dilution x table volume against limit x volume, both exact.
 *
 * @throws `not_a_number`, `negative`, `empty`, `wrong_type` for a text that is no decimal; `counts_rise_with_size`; the
 *   errors of `classify`.
 *
 * @example
 * ```ts
 * import { classifyExact } from 'motescale/exact';
 * import { iso4406 } from 'motescale/codes';
 * classifyExact(iso4406, { at: { 4: '1300', 6: '320.000', 14: '40.0000000000000001' } }).text; // => '17/15/13'
 * ```
 */
export function classifyExact(table: ClassTable, counts: ExactCounts): Classification {
  requireTable(table);
  requireObject(counts, 'counts', 'counts { at, volumeMl, dilution } as text');
  requireMembers(counts, 'counts', ['at', 'volumeMl', 'dilution', 'sizing']);
  const sizing = counts.sizing === undefined ? 'iso11171' : requireSizing(counts.sizing, 'counts.sizing');
  requireSizingOf(table, sizing, 'counts.sizing');
  const read = decimalReader();
  const known = readCounts(read, counts.at);
  const raw = counts.volumeMl !== undefined;
  const volume = raw ? readPositive(read, counts.volumeMl, 'counts.volumeMl') : null;
  if (raw) requireWhole(known, counts.at);
  else if (counts.dilution !== undefined) {
    const expected = 'the volume counted in mL, beside dilution';
    throw motescaleError('missing_volume', 'counts.volumeMl', undefined, expected);
  }
  const dilution = counts.dilution === undefined ? null : readPositive(read, counts.dilution, 'counts.dilution');
  if (dilution?.lessThan(1)) throw motescaleError('out_of_range', 'counts.dilution', counts.dilution, "'1' or more");
  const inVolume = (between: Decimal) => between.times(dilution ?? 1).times(table.perVolumeMl);
  const perVolume = (scaled: Decimal) => (volume === null ? scaled : scaled.dividedBy(volume)).toNumber();
  const findings = table.columns.map((column, i): Finding => {
    const place = placeAround(table, column, { sizing, sizes: known.sizes });
    if (place === null) return unbounded;
    const from = known.counts[place.from] as Decimal;
    const scaled = inVolume(place.to === null ? from : from.minus(known.counts[place.to] as Decimal));
    const keeps = (limit: number) => scaled.lessThanOrEqualTo(volume === null ? limit : volume.times(limit));
    const index = place.exact ? classIndex(table, i, keeps) : -1;
    return { count: perVolume(scaled), index, counted: raw ? from.toNumber() : undefined };
  });
  return assemble(table, findings, { sizing, sizes: known.sizes }, 'counts', '.at');
}

/** Counts in order of size. */
interface KnownCounts {
  readonly sizes: readonly number[];
  readonly counts: readonly Decimal[];
}

/** Raw counts are whole particles. */
function requireWhole(known: KnownCounts, at: Readonly<Record<number, string>>): void {
  known.counts.forEach((count, i) => {
    if (count.isInteger()) return;
    const size = known.sizes[i] as number;
    throw motescaleError('not_an_integer', `counts.at[${size}]`, at[size], 'a whole number of particles');
  });
}

/**
 * Counts per mL from raw counts, as decimal text to `digits` significant digits (20 where left out), rounded half to
 * even.
 *
 * @example
 * ```ts
 * import { perMlExact } from 'motescale/exact';
 * perMlExact({ counted: '100', volumeMl: '3', digits: 5 }); // => '33.333'
 * ```
 */
export function perMlExact(raw: {
  readonly counted: string;
  readonly volumeMl: string;
  readonly dilution?: string;
  readonly digits?: number;
}): string {
  requireObject(raw, 'raw', 'a raw count { counted, volumeMl } as text');
  requireMembers(raw, 'raw', ['counted', 'volumeMl', 'dilution', 'digits']);
  const read = decimalReader();
  const counted = read(raw.counted, 'raw.counted');
  const volume = readPositive(read, raw.volumeMl, 'raw.volumeMl');
  const dilution = raw.dilution === undefined ? 1 : readPositive(read, raw.dilution, 'raw.dilution');
  const digits = requirePlaces(raw.digits ?? 20, 'raw.digits', 1);
  return counted.times(dilution).dividedBy(volume).toSignificantDigits(digits, 6).toFixed();
}

function readCounts(read: DecimalReader, at: Readonly<Record<number, string>>): KnownCounts {
  requireObject(at, 'counts.at', "counts by size as text, such as { 4: '1890' }");
  const keys = Object.keys(at).sort((a, b) => Number(a) - Number(b));
  if (keys.length === 0) throw motescaleError('empty', 'counts.at', at, 'a count for at least one size');
  const counts: Decimal[] = [];
  keys.forEach((key, i) => {
    if (!/^\d+(\.\d+)?$/.test(key) || Number(key) === 0)
      throw motescaleError('wrong_type', 'counts.at', key, 'sizes in µm above 0');
    if (Number(key) === Number(keys[i - 1])) {
      const expected = `each size once; '${keys[i - 1]}' is the same`;
      throw motescaleError('sizes_out_of_order', `counts.at['${key}']`, key, expected);
    }
    const count = read(at[key as unknown as number], `counts.at[${key}]`);
    const before = counts[i - 1];
    if (before !== undefined && count.greaterThan(before)) {
      const expected = `at most ${before.toFixed()}`;
      throw motescaleError('counts_rise_with_size', `counts.at[${key}]`, at[Number(key)], expected);
    }
    counts.push(count);
  });
  return { sizes: keys.map(Number), counts };
}

function readPositive(read: DecimalReader, text: unknown, parameter: string): Decimal {
  const number = read(text, parameter);
  if (number.isZero()) throw motescaleError('out_of_range', parameter, text, 'a number above 0');
  return number;
}

/**
 * Counts, or a code as bands, put into the form comparison works on: sizes in order, and bounds between them in one
 * exact unit.
 */
import { requireArray, requireMembers, requireNonNegative, requireObject, requirePositive } from '../../checks.ts';
import { checkCounts, requireSizing } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { decimalScale, proportion, scaleDecimal } from '../../numeric/decimal.ts';
import { columnSizes, requireSizingOf } from '../columnSizes.ts';
import type { ClassTable, CountBand, CountBands } from '../types.ts';
import { type Difference, isPossible, nothing } from './countSystem.ts';

export interface Knowledge {
  readonly sizing: Sizing;
  /** Sizes in µm, ascending. The count of sizes[i] has the place i + 1 in `differences`; place 0 is nothing. */
  readonly sizes: readonly number[];
  readonly differences: readonly Difference[];
  /** A limit of the table, in the unit of the differences. */
  readonly inUnit: (limit: number) => number;
  /** A figure of the differences, per mL. */
  readonly perMl: (value: number) => number;
}

/** Throws unless this is counts or bands. */
export function checkKnown(known: CumulativeCounts | CountBands, table: ClassTable): void {
  requireObject(known, 'known', 'counts, or a code as bands (limitsOf)');
  if (!('bands' in known)) {
    checkCounts(known, 'known');
  } else {
    requireSizing(known.sizing, 'known.sizing');
    requireMembers(known, 'known', ['sizing', 'bands']);
    requireArray(known.bands, 'known.bands', 'an array of bands');
    for (let i = 0; i < known.bands.length; i += 1) {
      const band = known.bands[i] as CountBand;
      const name = `known.bands[${i}]`;
      requireObject(band, name, 'a band { from, to, above, upTo }', ['from', 'to', 'above', 'upTo']);
      requirePositive(band.from, `${name}.from`, 'a size in µm above 0');
      requireNonNegative(band.above, `${name}.above`);
      if (band.to !== null && !(requirePositive(band.to, `${name}.to`) > band.from)) {
        throw motescaleError('sizes_out_of_order', `${name}.to`, band.to, `a size above ${band.from} µm, or null`);
      }
      if (band.upTo !== null && !(requireNonNegative(band.upTo, `${name}.upTo`) >= band.above)) {
        throw motescaleError('out_of_range', `${name}.upTo`, band.upTo, `at least ${band.above}, or null`);
      }
    }
  }
  const hint = 'bands' in known ? '; limitsOf(table, code, sizing) reads a code in another sizing of its table' : '';
  requireSizingOf(table, known.sizing, 'known.sizing', '', hint);
}

/** What `systemOf` gives. Throws if that is a contradiction. */
export function knowledgeOf(known: CumulativeCounts | CountBands, table: ClassTable): Knowledge {
  const knowledge = systemOf(known, table);
  if (isPossible(knowledge.sizes.length + 1, knowledge.differences)) return knowledge;
  throw motescaleError('no_answer', 'known', known, 'counts that do not rise with size');
}

/**
 * All sizes of the data and the table, and what the data say of the counts there.
 *
 * Sums and differences are exact for raw counts and for decimals of up to nine places. Other figures (an average such
 * as 0.1/3) are taken a little wider than they are, each by a share of its own, so that rounding can only widen the
 * answer, and a count of 0 stays 0.
 */
export function systemOf(known: CumulativeCounts | CountBands, table: ClassTable): Knowledge {
  const sizes = allSizes(known, table);
  const place = (size: number | null) => (size === null ? nothing : sizes.indexOf(size) + 1);
  const unit = unitOf(known, table);
  const differences: Difference[] = [];
  sizes.forEach((_size, i) => {
    // a count of larger particles is never above the count of smaller ones
    const larger = i + 1 < sizes.length ? i + 2 : nothing;
    differences.push({ of: larger, minus: i + 1, bound: { value: 0, strict: 0 } });
  });
  const between = (from: number, to: number | null, above: number, upTo: number | null, strict: 0 | 1) => {
    const [of, minus] = [place(from), place(to)];
    if (upTo !== null)
      differences.push({ of, minus, bound: { value: unit.ofKnown(upTo) + unit.slack(upTo), strict: 0 } });
    if (above > 0)
      differences.push({ of: minus, minus: of, bound: { value: unit.slack(above) - unit.ofKnown(above), strict } });
  };
  if ('bands' in known) for (const { from, to, above, upTo } of known.bands) between(from, to, above, upTo, 1);
  else {
    known.sizes.forEach((size, i) => {
      const value = unit.values[i] as number;
      between(size, null, value, value, 0);
    });
  }
  return { sizing: known.sizing, sizes, differences, inUnit: unit.ofLimit, perMl: unit.perMl };
}

interface Unit {
  readonly values: readonly number[];
  readonly ofKnown: (value: number) => number;
  readonly ofLimit: (limit: number) => number;
  readonly perMl: (value: number) => number;
  /** How much rounding could take from a sum for a figure in it; 0 where all is exact. */
  readonly slack: (value: number) => number;
}

/**
 * Whole particles for raw counts; else the power of ten that makes every figure whole, so that sums and differences are
 * exact.
 */
function unitOf(known: CumulativeCounts | CountBands, table: ClassTable): Unit {
  if ('counted' in known && known.counted !== undefined && known.volumeMl !== undefined) {
    const { volumeMl, dilution = 1 } = known;
    return {
      values: known.counted,
      ofKnown: (counted) => counted,
      ofLimit: (limit) => proportion(limit, volumeMl, scaleDecimal(dilution, table.perVolumeMl, 1)),
      perMl: (particles) => proportion(particles, dilution, volumeMl),
      slack: () => 0,
    };
  }
  const values = 'bands' in known ? bandValues(known) : known.perMl;
  let finest = 100;
  let largest = 0;
  for (const value of values) {
    const needed = decimalScale(value);
    finest = needed * finest === 0 ? 0 : Math.max(finest, needed);
    largest = Math.max(largest, value);
  }
  const exact = finest > 0 && largest * finest < largestExact;
  const scale = exact ? finest : 1;
  return {
    values,
    ofKnown: (value) => scaleDecimal(value, scale, 1),
    ofLimit: (limit) => scaleDecimal(limit, scale, table.perVolumeMl),
    perMl: (value) => value / scale,
    slack: (value) => (exact ? 0 : value * roundingShare),
  };
}

/** Sums of a few dozen such figures stay exact below. */
const largestExact = 1e14;
/** Well above what a few dozen roundings can take. */
const roundingShare = 1e-13;

function bandValues(known: CountBands): number[] {
  const values: number[] = [];
  for (const band of known.bands) {
    values.push(band.above);
    if (band.upTo !== null) values.push(band.upTo);
  }
  return values;
}

function allSizes(known: CumulativeCounts | CountBands, table: ClassTable): number[] {
  const sizes: number[] = 'bands' in known ? [] : known.sizes.slice();
  const add = (size: number | null) => {
    if (size !== null && sizes.indexOf(size) < 0) sizes.push(size);
  };
  if ('bands' in known) {
    for (const band of known.bands) {
      add(band.from);
      add(band.to);
    }
  }
  for (const column of table.columns) {
    const found = columnSizes(column, known.sizing);
    if (found === null) continue;
    add(found.from);
    add(found.to);
  }
  return sizes.sort((a, b) => a - b);
}

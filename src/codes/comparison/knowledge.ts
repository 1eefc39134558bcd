/**
 * Counts, or a code as bands, put into the form comparison works on: sizes in order, and bounds between them in one exact unit.
 */
import { requireFilledArray, requireNonNegative, requireObject, requirePositive } from '../../checks.ts';
import { checkCounts, requireSizing } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { decimalPlaces, powerOfTen, proportion, scaleDecimal } from '../../numeric/decimal.ts';
import { columnSizes, requireSizingOf } from '../columnCount.ts';
import type { ClassTable, CountBands } from '../types.ts';
import { type Difference, nothing } from './countSystem.ts';

/** What is known of a sample. */
export interface Knowledge {
  readonly sizing: Sizing;
  /** Sizes in µm, ascending. The count of sizes[i] has the place i + 1 in `differences`; place 0 is nothing. */
  readonly sizes: readonly number[];
  readonly differences: readonly Difference[];
  /** A limit of the table, in the unit of the differences. */
  readonly inUnit: (limit: number) => number;
}

/** Throws unless this is counts or bands. */
export function checkKnown(known: CumulativeCounts | CountBands, table: ClassTable): void {
  requireObject(known, 'known', 'counts, or a code as bands (limitsOf)');
  if (!('bands' in known)) {
    checkCounts(known, 'known');
  } else {
    requireSizing(known.sizing, 'known.sizing');
    requireFilledArray(known.bands, 'known.bands');
    known.bands.forEach((band, i) => {
      const name = `known.bands[${i}]`;
      requireObject(band, name, 'a band { from, to, above, upTo }');
      requirePositive(band.from, `${name}.from`, 'a size in µm above 0');
      requireNonNegative(band.above, `${name}.above`);
      if (band.to !== null && !(requirePositive(band.to, `${name}.to`) > band.from)) {
        throw motescaleError('sizes_out_of_order', `${name}.to`, band.to, `a size above ${band.from} µm, or null`);
      }
      if (band.upTo !== null && !(requireNonNegative(band.upTo, `${name}.upTo`) >= band.above)) {
        throw motescaleError('out_of_range', `${name}.upTo`, band.upTo, `at least ${band.above}, or null`);
      }
    });
  }
  requireSizingOf(table, known.sizing, 'known.sizing');
}

/** All sizes of the data and the table, and what the data say of the counts there. */
export function knowledgeOf(known: CumulativeCounts | CountBands, table: ClassTable): Knowledge {
  const sizes = allSizes(known, table);
  const place = (size: number | null) => (size === null ? nothing : sizes.indexOf(size) + 1);
  const differences: Difference[] = [];
  sizes.forEach((_size, i) => {
    // a count of larger particles is never above the count of smaller ones
    const larger = i + 1 < sizes.length ? i + 2 : nothing;
    differences.push({ of: larger, minus: i + 1, bound: { value: 0, strict: 0 } });
  });
  const unit = unitOf(known, table);
  if ('bands' in known) {
    for (const { from, to, above, upTo } of known.bands) {
      const [of, minus] = [place(from), place(to)];
      if (upTo !== null) differences.push({ of, minus, bound: { value: unit.ofKnown(upTo), strict: 0 } });
      if (above > 0) differences.push({ of: minus, minus: of, bound: { value: -unit.ofKnown(above), strict: 1 } });
    }
  } else {
    known.sizes.forEach((size, i) => {
      const value = unit.ofKnown(unit.values[i] as number);
      differences.push({ of: place(size), minus: nothing, bound: { value, strict: 0 } });
      differences.push({ of: nothing, minus: place(size), bound: { value: -value, strict: 0 } });
    });
  }
  return { sizing: known.sizing, sizes, differences, inUnit: unit.ofLimit };
}

interface Unit {
  readonly values: readonly number[];
  readonly ofKnown: (value: number) => number;
  readonly ofLimit: (limit: number) => number;
}

/** Whole particles for raw counts; else the power of ten that makes every figure whole, so that sums and differences are exact. */
function unitOf(known: CumulativeCounts | CountBands, table: ClassTable): Unit {
  if ('counted' in known && known.counted !== undefined && known.volumeMl !== undefined) {
    const { volumeMl, dilution = 1 } = known;
    return {
      values: known.counted,
      ofKnown: (counted) => counted,
      ofLimit: (limit) => proportion(limit, volumeMl, table.perVolumeMl * dilution),
    };
  }
  const values = 'bands' in known ? bandValues(known) : known.perMl;
  let places = 2;
  for (const value of values) {
    const needed = decimalPlaces(value);
    places = needed < 0 || places < 0 ? -1 : Math.max(places, needed);
  }
  const scale = places < 0 ? 1 : powerOfTen(places);
  return {
    values,
    ofKnown: (value) => scaleDecimal(value, scale, 1),
    ofLimit: (limit) => scaleDecimal(limit, scale, table.perVolumeMl),
  };
}

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

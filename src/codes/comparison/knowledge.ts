/** Counts, or a code as bands, as comparison works on them: sizes in order, and bounds in one exact unit. */
import { requireArray, requireMembers, requireNonNegative, requireObject, requirePositive } from '../../checks.ts';
import { checkCounts, requireSizing } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { columnSizes, requireSizingOf } from '../columnSizes.ts';
import type { ClassTable, CountBand, CountBands } from '../types.ts';
import { type Bound, none } from './bound.ts';
import { type Difference, isPossible, nothing, placeOfSize } from './countSystem.ts';
import { unitOf } from './unit.ts';

export interface Knowledge {
  readonly sizing: Sizing;
  /** Sizes in µm, ascending. The count of sizes[i] has the place i + 1 in `differences`; place 0 is nothing. */
  readonly sizes: readonly number[];
  /** How many places there are. */
  readonly places: number;
  readonly differences: readonly Difference[];
  /** A limit of the table, in the unit of the differences. */
  readonly inUnit: (limit: number) => Bound;
}

/** Throws unless this is counts or bands. */
export function checkKnown(known: CumulativeCounts | CountBands, table: ClassTable): void {
  requireObject(known, 'known', 'counts, or limits of limitsOf');
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
      requirePositive(band.from, `${name}.from`, 'a size in µm, above 0');
      requireNonNegative(band.above, `${name}.above`);
      if (band.to !== null && !(requirePositive(band.to, `${name}.to`) > band.from))
        throw motescaleError('sizes_out_of_order', `${name}.to`, band.to, `a size above ${band.from} µm, or null`);
      if (band.upTo !== null && !(requireNonNegative(band.upTo, `${name}.upTo`) >= band.above))
        throw motescaleError('out_of_range', `${name}.upTo`, band.upTo, `at least ${band.above}, or null`);
    }
  }
  const hint = 'bands' in known ? '; limitsOf(table, code, sizing) reads a code in another sizing of its table' : '';
  requireSizingOf(table, known.sizing, 'known.sizing', '', hint);
}

/**
 * All sizes of the data and the table, and what the data say of the counts there.
 *
 * Sums and differences are exact for raw counts and for decimals of up to nine places. Other figures (an average such
 * as 0.1/3) are taken a little wider than they are, each by a share of its own, so that rounding can only widen the
 * answer, and a count of 0 stays 0.
 *
 * Throws if they contradict each other.
 */
export function knowledgeOf(
  known: CumulativeCounts | CountBands,
  table: ClassTable,
): Knowledge & { /** A figure of the differences, per mL. */ readonly perMl: (bound: Bound) => number } {
  const sizes = allSizes(known, table);
  const unit = unitOf(known, table);
  const differences: Difference[] = [];
  sizes.forEach((_size, i) => {
    // a count of larger particles is never above the count of smaller ones
    const larger = i + 1 < sizes.length ? i + 2 : nothing;
    differences.push({ of: larger, minus: i + 1, bound: none });
  });
  const between = (from: number, to: number | null, above: number, upTo: number | null, strict: 0 | 1) => {
    const [of, minus] = [placeOfSize(sizes, from), placeOfSize(sizes, to)];
    if (upTo !== null) differences.push({ of, minus, bound: unit.most(upTo) });
    if (above > 0) differences.push({ of: minus, minus: of, bound: { ...unit.least(above), strict } });
  };
  if ('bands' in known) for (const { from, to, above, upTo } of known.bands) between(from, to, above, upTo, 1);
  else {
    known.sizes.forEach((size, i) => {
      const value = unit.values[i] as number;
      between(size, null, value, value, 0);
    });
  }
  const places = sizes.length + 1;
  if (!isPossible(places, differences))
    throw motescaleError('no_answer', 'known', known, 'counts that do not rise with size');
  return { sizing: known.sizing, sizes, places, differences, inUnit: unit.ofLimit, perMl: unit.perMl };
}

function allSizes(known: CumulativeCounts | CountBands, table: ClassTable): number[] {
  const sizes: number[] = 'bands' in known ? [] : known.sizes.slice();
  const ofTable = table.columns.map((column) => columnSizes(column, known.sizing));
  const all = 'bands' in known ? [...known.bands, ...ofTable] : ofTable;
  for (const ends of all) {
    if (ends === null) continue;
    for (const size of [ends.from, ends.to]) if (size !== null && sizes.indexOf(size) < 0) sizes.push(size);
  }
  return sizes.sort((a, b) => a - b);
}

/** Counts per mL, or whole particles, as bounds that add up exactly. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { decimalScale, proportion, scaleDecimal } from '../../numeric/decimal.ts';
import type { ClassTable, CountBands } from '../types.ts';
import type { Bound } from './bound.ts';

/** How figures become bounds. */
interface Unit {
  /** The counts known. */
  readonly values: readonly number[];
  /** At most so many, and at least so many, as known. */
  readonly most: (value: number) => Bound;
  readonly least: (value: number) => Bound;
  readonly ofLimit: (limit: number) => Bound;
  readonly perMl: (bound: Bound) => number;
}

const whole = (value: number): Bound => ({ value, rest: 0, strict: 0 });

/** Whole particles for raw counts; else the power of ten that makes every figure whole, so that sums are exact. */
export function unitOf(known: CumulativeCounts | CountBands, table: ClassTable): Unit {
  if ('counted' in known && known.counted !== undefined && known.volumeMl !== undefined) {
    const { volumeMl, dilution = 1 } = known;
    return {
      values: known.counted,
      most: whole,
      least: (counted) => whole(-counted),
      ofLimit: (limit) => whole(proportion(limit, volumeMl, scaleDecimal(dilution, table.perVolumeMl, 1))),
      perMl: ({ value }) => proportion(value, dilution, volumeMl),
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
  const slack = (value: number) => (exact ? 0 : value * roundingShare);
  return {
    values,
    most: (value) => whole(scaleDecimal(value, scale, 1) + slack(value)),
    least: (value) => whole(slack(value) - scaleDecimal(value, scale, 1)),
    ofLimit: (limit) => whole(scaleDecimal(limit, scale, table.perVolumeMl)),
    perMl: ({ value }) => value / scale,
  };
}

/** Sums of a few dozen such figures stay exact below. */
const largestExact = 1e14;
/** Well above what a few dozen roundings can take. */
export const roundingShare = 1e-13;

function bandValues(known: CountBands): number[] {
  const values: number[] = [];
  for (const band of known.bands) {
    values.push(band.above);
    if (band.upTo !== null) values.push(band.upTo);
  }
  return values;
}

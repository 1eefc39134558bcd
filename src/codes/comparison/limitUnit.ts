/** The limits of tables as bounds that add up exactly, though one prints them in millions and in billionths. */
import { decimalScale } from '../../numeric/decimal.ts';
import type { ClassTable } from '../types.ts';
import { type Bound, minus, restsPerValue } from './bound.ts';
import { roundingShare } from './unit.ts';

/** Limits of tables in one unit. */
export interface LimitUnit {
  /** At most a limit, and at least a limit. */
  readonly most: (table: ClassTable, limit: number) => Bound;
  readonly least: (table: ClassTable, limit: number) => Bound;
}

/** The greatest power of ten that a double holds exactly. */
const mostExact = 1e22;

/**
 * In the unit of the finest digit of all; where the limits have too many digits for that, each is taken a little wider.
 *
 * @param terms how many of them may be added up
 */
export function limitUnit(tables: readonly ClassTable[], terms: number): LimitUnit {
  let finest = 100;
  let largest = 0;
  for (const { limits, perVolumeMl } of tables) {
    for (const row of limits) {
      for (const limit of row) {
        if (limit === null) continue;
        const scale = decimalScale(limit, mostExact / perVolumeMl) * perVolumeMl;
        finest = scale * finest === 0 ? 0 : Math.max(finest, scale);
        largest = Math.max(largest, limit / perVolumeMl);
      }
    }
  }
  // 2^52: added up they stay whole
  const exact = finest > 0 && (largest * finest * terms) / restsPerValue < 4503599627370496;
  if (!exact) {
    const wide = (sign: number) => (table: ClassTable, limit: number) => {
      const perMl = limit / table.perVolumeMl;
      return { value: sign * perMl + perMl * roundingShare, rest: 0, strict: 0 };
    };
    return { most: wide(1), least: wide(-1) };
  }
  const most = ({ perVolumeMl }: ClassTable, limit: number): Bound => {
    const scale = decimalScale(limit, mostExact / perVolumeMl);
    const digits = Math.floor(limit * scale + 0.5);
    const shift = finest / (scale * perVolumeMl);
    if (shift >= restsPerValue) return { value: digits * (shift / restsPerValue), rest: 0, strict: 0 };
    const part = restsPerValue / shift;
    const rest = digits % part;
    return { value: (digits - rest) / part, rest: rest * shift, strict: 0 };
  };
  return { most, least: (table, limit) => minus(most(table, limit)) };
}

/** The limits of one column of a table as typed arrays, for counts by the million. */
import { limitAt, limitPerMl } from './classIndex.ts';
import type { ClassTable } from './types.ts';

/** Limits per mL of each class, then Infinity; and the first class that a count of a binade can have. */
export interface ColumnBounds {
  readonly limits: Float64Array;
  /** By the top twelve bits of the count. */
  readonly firsts: Int16Array;
  /**
   * Where no binade has more than one limit: the first class above the bit 20, and below it what the next twenty bits
   * of the limit leave to a carry. One addition gives the class, but for counts that share those bits with the limit.
   */
  readonly carries: Int32Array | null;
}

const places = 4096;
/** The lower twenty bits of a half. */
export const low20 = 0xfffff;

/** So many classes fit above the bit 20. */
const mostCarried = 1000;

/** The limits of some columns, as `classOfPerMl` compares. A count is beyond a class where any column says so. */
export function boundsOf(table: ClassTable, columns: readonly number[]): ColumnBounds {
  const { length } = table.classes;
  const limits = new Float64Array(length + 1);
  for (let index = 0; index <= length; index += 1) limits[index] = Infinity;
  for (const column of columns) {
    // a class without a limit takes every count, and none is beyond it
    for (let index = 0; index < length; index += 1) {
      const limit = limitPerMl(table, limitAt(table, index, column));
      if (limit === null) break;
      limits[index] = Math.min(limits[index] as number, limit);
    }
  }
  const firsts = new Int16Array(places);
  const double = new Float64Array(1);
  const halves = new Int32Array(double.buffer);
  const top = topHalf();
  let index = 0;
  let steps = 0;
  // the positive finite numbers, binade by binade: the least of each
  for (let at = 1; at < 2047; at += 1) {
    halves[top] = at << 20;
    halves[1 - top] = 0;
    const before = index;
    while ((double[0] as number) > (limits[index] as number)) index += 1;
    // those passed on the way to this binade lie in the one before, or at its very end
    steps = Math.max(steps, at === 1 ? 0 : index - before);
    firsts[at] = index;
  }
  if (steps > 1 || length > mostCarried) return { limits, firsts, carries: null };
  const carries = new Int32Array(places);
  for (let at = 1; at < 2047; at += 1) {
    const first = firsts[at] as number;
    double[0] = limits[first] as number;
    const own = (halves[top] as number) >>> 20 === at;
    // no limit in this binade: nothing to carry
    carries[at] = (first << 20) + (own ? low20 - ((halves[top] as number) & low20) : 0);
  }
  return { limits, firsts, carries };
}

/** Which half of a double holds the exponent on this machine: 1 where the low bytes come first. */
export function topHalf(): number {
  return Number(new Uint32Array(new Float64Array([1]).buffer)[1] !== 0);
}

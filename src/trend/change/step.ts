/** A step: the last two values against up to seven before them. */
import { medianOf } from '../../numeric/selectRank.ts';
import { present, type Ring } from './ring.ts';

const lateValues = 2;
const lateDays = 4;
const baseValues = 7;
const baseDays = 14;
/** A level of two days is enough to tell a further step from. */
export const fewestBefore = 2;

/** The last two values less the median of those before. */
export interface Jump {
  readonly size: number;
  /** Of the two, the one nearer to the base, as far as it goes. */
  readonly least: number;
  readonly most: number;
  readonly base: number;
  /** How many values the base has. */
  readonly from: number;
  /** The place of the first of the two. */
  readonly start: number;
}

/** The jump at the place `end` (not included), with a base from the place `since` on; null where values are missing. */
export function jumpAt(ring: Ring, end: number, since: number, fewest: number): Jump | null {
  if (ring[end - 1] === null) return null;
  const late: number[] = [];
  let place = end - 1;
  let start = place;
  const earliest = Math.max(0, end - lateDays);
  for (; place >= earliest && late.length < lateValues; place -= 1) {
    const value = ring[place] as number | null;
    if (value === null) continue;
    late.push(value);
    start = place;
  }
  const before: number[] = [];
  const first = Math.max(since, start - baseDays);
  for (place = start - 1; place >= first && before.length < baseValues; place -= 1) {
    const value = ring[place] as number | null;
    if (value !== null) before.push(value);
  }
  if (late.length < lateValues || before.length < fewest) return null;
  const base = medianOf(before);
  const one = (late[0] as number) - base;
  const other = (late[1] as number) - base;
  return {
    size: (one + other) / lateValues,
    least: Math.min(one, other),
    most: Math.max(one, other),
    base,
    from: before.length,
    start,
  };
}

/** Whether a value, or two together, once lay off the three before and the three after, by `far` to `farthest`. */
export function hadWildDay(ring: Ring, sign: number, far: number, farthest: number): boolean {
  const values = present(ring, 0).map((i) => sign * (ring[i] as number));
  return values.some((value, i) => {
    const above = (from: number) => value - medianOf(values.slice(from, from + 3));
    const off = i < 3 || i + 3 >= values.length ? 0 : Math.min(above(i - 3), above(i + 1));
    return off > far && off < farthest;
  });
}

/** How many values a step that begins on the day after the ring would have to stand against. */
export function baseAhead(ring: Ring, since: number): number {
  return Math.min(baseValues, present(ring, Math.max(since, ring.length - baseDays)).length);
}

/** How much more a jump scatters over a base of so few values than over a full one. */
export function fewness(from: number): number {
  return Math.sqrt((1 / lateValues + 1 / from) / (1 / lateValues + 1 / baseValues));
}

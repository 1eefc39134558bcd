/**
 * What a state that was saved and restored must be made of: asked of each member before anything is reckoned with it.
 *
 * JSON reads `1e999` as an endless number, and what a file has lost is undefined; either would run on as NaN, or
 * without end.
 */
import { farthest, largestDifference, largestWhole } from '../rules/bounds.ts';

export function isTime(value: unknown): value is number {
  return typeof value === 'number' && value === Math.floor(value) && value >= -farthest && value <= farthest;
}

/** A point in time, or null where there was none. */
export function isTimeOrNull(value: unknown): value is number | null {
  return value === null || isTime(value);
}

/** A whole number of zero or more, small enough for a double to hold exactly: a number of readings, a fingerprint. */
export function isCount(value: unknown): value is number {
  return typeof value === 'number' && value === Math.floor(value) && value >= 0 && value <= largestWhole;
}

/** A figure of this trade, up to 1e60, or a difference of two: reckoned with, they stay finite. */
export function isFigure(value: unknown): value is number {
  return typeof value === 'number' && value >= -largestDifference && value <= largestDifference;
}

/** A list of at most so many, each of which holds. */
export function isListOf<T>(list: readonly T[], most: number, holds: (element: T) => boolean): boolean {
  if (!Array.isArray(list) || list.length > most) return false;
  for (let i = 0; i < list.length; i += 1) if (!holds(list[i])) return false;
  return true;
}

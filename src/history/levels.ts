/**
 * How long a figure stood at each of a ladder of levels: a summary that stays small, from which quantiles are told. The
 * rungs are fixed and the times are whole ms, so parts add up to the same summary in any order.
 */
import { isFiniteNumber, isObject } from '../checks.ts';
import { firstWhere } from '../numeric/firstWhere.ts';
import { scaleBinary, splitBinary } from '../numeric/powersOfTwo.ts';

/** Time spent at a level. */
export interface Level {
  level: number;
  ms: number;
}

/** Rungs from one power of two to the next. */
const rungs = 64;

/** The end nearer to 0 of the level that a figure lies in. */
export function levelOf(value: number): number {
  if (value === 0) return 0;
  const { mantissa, exponent } = splitBinary(Math.abs(value));
  const level = scaleBinary(Math.floor(mantissa * rungs) / rungs, exponent);
  return value < 0 ? -level : level;
}

/** Adds time to a level, keeping the list ascending. */
export function addLevel(list: Level[], { level, ms }: Level): void {
  const place = firstWhere(list, (each) => each.level >= level);
  const found = list[place];
  if (found !== undefined && found.level === level) found.ms += ms;
  else list.splice(place, 0, { level, ms });
}

/** Whether a part of a bucket is time at a level. */
export function isLevel(part: Level): boolean {
  return (
    isObject(part) &&
    Object.keys(part).every((key) => key === 'level' || key === 'ms') &&
    isFiniteNumber(part.level) &&
    levelOf(part.level) === part.level &&
    isFiniteNumber(part.ms) &&
    part.ms > 0
  );
}

export function middleOf(level: number): number {
  if (level === 0) return 0;
  const half = scaleBinary(1 / (2 * rungs), splitBinary(Math.abs(level)).exponent);
  return level < 0 ? level - half : level + half;
}

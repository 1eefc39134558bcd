/**
 * A rolling trend as a state keeps it, in one text: both ends, how many blocks, where it goes, slope, limits and
 * chance.
 */
import { largestDifference } from '../../rules/bounds.ts';
import {
  figureChars,
  figureOrNullAt,
  isPacked,
  packFigureOrNull,
  packTime,
  packWhole,
  timeAt,
  timeChars,
  wholeAt,
} from '../../state/packed.ts';
import type { RollingTrend } from '../types.ts';

const directions: readonly RollingTrend['direction'][] = ['rising', 'falling', 'not_distinguishable'];
const toAt = timeChars;
const blocksAt = 2 * timeChars;
const directionAt = blocksAt + 1;
const figuresAt = directionAt + 1;

const trendChars = figuresAt + 4 * figureChars;

/** As it is kept. */
export function keptTrend({ from, to, blocks, perDay, low, high, p, direction }: RollingTrend): string {
  return (
    packTime(from) +
    packTime(to) +
    packWhole(blocks, 1) +
    packWhole(directions.indexOf(direction), 1) +
    packFigureOrNull(perDay) +
    packFigureOrNull(low) +
    packFigureOrNull(high) +
    packFigureOrNull(p)
  );
}

/** As it is told. */
export function openTrend(text: string): RollingTrend {
  return {
    from: timeAt(text, 0),
    to: timeAt(text, toAt),
    blocks: wholeAt(text, blocksAt, 1),
    perDay: figureOrNullAt(text, figuresAt) as number,
    low: figureOrNullAt(text, figuresAt + figureChars),
    high: figureOrNullAt(text, figuresAt + 2 * figureChars),
    p: figureOrNullAt(text, figuresAt + 3 * figureChars),
    direction: directions[wholeAt(text, directionAt, 1)] as RollingTrend['direction'],
  };
}

/** Whether a text is what `keptTrend` writes. */
export function isTrend(text: string): boolean {
  if (!isPacked(text, trendChars, 1) || text === '' || wholeAt(text, directionAt, 1) >= directions.length) return false;
  const { from, to, perDay, low, high, p } = openTrend(text);
  const figures = [perDay, low ?? 0, high ?? 0];
  const inTime = Math.abs(from) <= 2e16 && Math.abs(to) <= 2e16;
  return (
    inTime &&
    perDay !== null &&
    figures.every((one) => Math.abs(one) <= largestDifference) &&
    (p ?? 0) >= 0 &&
    (p ?? 0) <= 1
  );
}

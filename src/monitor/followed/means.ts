/**
 * What the change detector remembers, as a state keeps it: one text. First what it has learned, then the means of up to
 * 63 blocks as whole numbers of one unit, each in four characters.
 */
import { powerOfTen } from '../../numeric/decimal.ts';
import { largestDifference } from '../../rules/bounds.ts';
import {
  figureAt,
  figureChars,
  figureOrNullAt,
  isPacked,
  packFigure,
  packFigureOrNull,
  packWhole,
  wholeAt,
} from '../../state/packed.ts';
import { rules } from '../../trend/change/rules.ts';
import type { ChangeState } from '../../trend/change/types.ts';

const meanChars = 4;
/** Units that the largest mean has at most: seven digits. */
const mostUnits = 9999999;
const middle = mostUnits + 1;
/** The unit is a power of ten; the least, and the most. */
const leastUnit = -18;
const mostUnit = 54;

/** Where each piece begins. */
const blockChars = 6;
const lastAt = 1;
const sinceAt = lastAt + blockChars;
const settledAt = sinceAt + blockChars;
const countAt = settledAt + 1;
const countChars = 2;
const levelAt = countAt + countChars;
const squareAt = levelAt + figureChars;
const meansAt = squareAt + figureChars;
/** No block has a number farther from 0. */
const farthestBlock = 2e11;

/**
 * As it is kept, with whether `change_unjudged` has been told. The largest mean has its seven digits, and all others as
 * many decimal places.
 */
export function keptChange({ last, ring, since, settled, level, steps }: ChangeState, unjudged = false): string {
  let largest = 0;
  for (const mean of ring) if (mean !== null) largest = Math.max(largest, Math.abs(mean));
  let unit = leastUnit;
  while (unitsOf(largest, unit) > mostUnits) unit += 1;
  let text = packWhole(unit - leastUnit, 1) + packBlock(last) + packBlock(since);
  text += packWhole((settled ? 1 : 0) + (unjudged ? 2 : 0), 1);
  text += packWhole(steps.count, countChars) + packFigureOrNull(level) + packFigure(steps.square);
  for (const mean of ring) text += packWhole(mean === null ? 0 : unitsOf(mean, unit) + middle, meanChars);
  return text;
}

/** As the detector works on it. */
export function openChange(text: string): ChangeState {
  return {
    last: blockAt(text, lastAt),
    ring: meansIn(text, meansAt, wholeAt(text, 0, 1) + leastUnit),
    since: blockAt(text, sinceAt),
    settled: wholeAt(text, settledAt, 1) % 2 === 1,
    level: figureOrNullAt(text, levelAt),
    steps: { count: wholeAt(text, countAt, countChars), square: figureAt(text, squareAt) },
  };
}

/** The last block with a value, and whether it has been told that no change can be. */
export function lastBlock(text: string): number {
  return blockAt(text, lastAt) as number;
}

export function isToldUnjudged(text: string): boolean {
  return wholeAt(text, settledAt, 1) > 1;
}

/** The means that stand in a text from a place on. */
function meansIn(text: string, from: number, unit: number): (number | null)[] {
  const power = powerOfTen(Math.abs(unit));
  const ring: (number | null)[] = [];
  for (let i = from; i < text.length; i += meanChars) {
    const units = wholeAt(text, i, meanChars);
    ring.push(units === 0 ? null : unit < 0 ? (units - middle) / power : (units - middle) * power);
  }
  return ring;
}

/** The same with the blocks so many later. */
export function movedChange(text: string, by: number): string {
  const { last, since, ...rest } = openChange(text);
  const moved = { ...rest, last: (last as number) + by, since: since === null ? null : since + by };
  return keptChange(moved, isToldUnjudged(text));
}

function packBlock(block: number | null): string {
  return packWhole(block === null ? 0 : block + farthestBlock + 1, blockChars);
}

function blockAt(text: string, from: number): number | null {
  const whole = wholeAt(text, from, blockChars);
  return whole === 0 ? null : whole - farthestBlock - 1;
}

/** Whether a text is what `keptChange` writes: all in bounds, and means that begin and end with a value. */
export function isChange(text: string): boolean {
  if (text.length < meansAt || !isPacked(text, 1, meansAt + meanChars * rules.ringDays)) return false;
  if (!areMeans(text.slice(meansAt)) || wholeAt(text, 0, 1) > mostUnit - leastUnit) return false;
  if (wholeAt(text, settledAt, 1) > 3 || wholeAt(text, lastAt, blockChars) > 2 * farthestBlock) return false;
  if (wholeAt(text, sinceAt, blockChars) > 2 * farthestBlock) return false;
  const { last, ring, since, level, steps } = openChange(text);
  if (last === null || (ring.length > 0 && since === null)) return false;
  return Math.abs(level ?? 0) <= largestDifference && steps.square >= 0 && steps.square <= 1e130;
}

/** Whether kept means are whole, and begin and end with a value. */
function areMeans(means: string): boolean {
  if (!isPacked(means, meanChars, rules.ringDays)) return false;
  for (let i = 0; i < means.length; i += meanChars) {
    const units = wholeAt(means, i, meanChars);
    const end = i === 0 || i === means.length - meanChars;
    if (units > middle + mostUnits || (end && units === 0)) return false;
  }
  return true;
}

function unitsOf(mean: number, unit: number): number {
  const power = powerOfTen(Math.abs(unit));
  return Math.floor((unit < 0 ? mean * power : mean / power) + 0.5);
}

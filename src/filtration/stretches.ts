/**
 * When what is counted keeps a limit: particles of a size and larger fall or rise at one pace; those between two sizes
 * are a difference of two paces, and may leave the limit and come back.
 */
import { log1p } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import { countAfter, minutesTo } from './cleanUp.ts';
import { limitOf, sameWithin, settlesAbove } from './settling.ts';
import { cleaningRate, risingRate, type Tank } from './tank.ts';

/** From when to when a limit is kept, in minutes; `until` null: for good. */
export interface Stretch {
  readonly from: number;
  readonly until: number | null;
}

/** Of particles of a size and larger; one at most. */
export function stretchesWithin(tank: Required<Tank>, limit: number): Stretch[] {
  const from = minutesTo(tank, limit);
  return from === null ? [] : [{ from, until: minutesWithin(tank, limit) }];
}

/** How long a tank that starts within the limit stays there; null for good, or where it does not start there. */
function minutesWithin(tank: Required<Tank>, limit: number): number | null {
  const room = limit - tank.perMl;
  if (room < 0 || !settlesAbove(tank, limit)) return null;
  const rate = cleaningRate(tank);
  return rate === 0 ? room / risingRate(tank) : log1p(room / (limitOf(tank) - limit)) / rate;
}

/**
 * Of particles between two sizes; two stretches at most, as the difference of two exponentials turns once at most. Near
 * its end it is that end, as of one size. `start`: what there is between them, as a table's limit is compared with.
 */
export function stretchesBetween(
  lower: Required<Tank>,
  upper: Required<Tank>,
  limit: number,
  start: number = lower.perMl - upper.perMl,
): Stretch[] {
  const between = (minutes: number) => countAfter(lower, minutes) - countAfter(upper, minutes);
  const over = (minutes: number) => (minutes === 0 ? start : between(minutes)) - limit;
  const pace = 1 / Math.max(cleaningRate(upper), 1e-60);
  const turn = turningPoint(lower, upper);
  const starts = over(0) <= 0;
  const edges = crossing(over, starts, pace, 0, turn);
  const end = endOver(lower, upper, limit);
  const within = starts === (edges.length === 0);
  if (end !== 0 && end < 0 !== within) edges.push(...crossing(over, within, pace, turn, latest));
  if (starts) edges.unshift(0);
  const stretches: Stretch[] = [];
  for (let i = 0; i < edges.length; i += 2) stretches.push({ from: edges[i] as number, until: edges[i + 1] ?? null });
  return stretches;
}

/** Later than any run, in minutes. */
const latest = 1e60;

/** When both sizes fall (or rise) as fast as each other; 0 where they never do after the start. */
function turningPoint(lower: Required<Tank>, upper: Required<Tank>): number {
  const ratio = fall(upper) / fall(lower);
  if (!(ratio > 1) || ratio === Infinity) return 0;
  return Math.min(log1p(ratio - 1) / (cleaningRate(upper) - cleaningRate(lower)), latest);
}

/** Where the limit is crossed between two times, with no turn between: looked for in steps that double. */
function crossing(
  over: (minutes: number) => number,
  within: boolean,
  pace: number,
  from: number,
  to: number,
): number[] {
  let low = from;
  for (let ahead = pace; low < to; ahead *= 2) {
    const high = Math.min(from + ahead, to);
    if (over(high) <= 0 !== within) return [findRoot(over, low, high)];
    low = high;
  }
  return [];
}

/** How fast a size falls at the start, per mL and minute; below 0 where it rises. */
function fall(tank: Required<Tank>): number {
  return cleaningRate(tank) * tank.perMl - risingRate(tank);
}

/** On which side of the limit the particles between two sizes end up; 0 where they end upon it. */
function endOver(lower: Required<Tank>, upper: Required<Tank>, limit: number): number {
  // the smaller ones stay and more come, the larger go: never fewer than at the start
  if (cleaningRate(lower) === 0) return cleaningRate(upper) + risingRate(lower) - risingRate(upper);
  const most = limitOf(lower);
  const over = most - limitOf(upper) - limit;
  return Math.abs(over) <= sameWithin * Math.max(most, limit) ? 0 : over;
}

/** The stretches that two lists have in common. */
export function common(some: readonly Stretch[], others: readonly Stretch[]): Stretch[] {
  const both: Stretch[] = [];
  for (const a of some)
    for (const b of others) {
      const from = Math.max(a.from, b.from);
      const until = Math.min(a.until ?? Infinity, b.until ?? Infinity);
      if (from <= until) both.push({ from, until: until === Infinity ? null : until });
    }
  return both;
}

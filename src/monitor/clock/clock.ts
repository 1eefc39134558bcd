/**
 * Whether a reading shows that the clock has been set. One that lies far ahead is set aside until the next ones decide;
 * several behind the monitor's time, one after the other, show that the clock has been set back.
 */
import type { TimedReading } from '../../reading/reading.ts';
import { usualAheadMs } from '../../reading/readingLimits.ts';
import { farthest } from '../../rules/bounds.ts';
import { longestUsual, unusualMs } from '../../state/usual.ts';
import type { AsideReading, ClockDoubt, MonitorState, PreparedMonitor } from '../types.ts';
import type { Recent } from './arrivals.ts';

/** What becomes of an input: it is set aside or behind, and what is doubted then. */
export interface Doubted {
  readonly move: 'aside' | 'behind';
  readonly doubt: ClockDoubt;
}

/**
 * It is in line, or the clock has been set to it, or a moment had gone ahead that is `undone` by it; `doubt`: what it
 * says nothing of.
 */
export interface Decided {
  readonly move: 'in_line' | 'set' | 'undone';
  readonly doubt?: ClockDoubt;
  /** Readings that were set aside, all of them, and the last one's figures, which can be judged now. */
  readonly aside: readonly number[];
  readonly last: AsideReading | null;
}

/** Whether an input leaves the clock in doubt. */
export function isDoubted(judged: Doubted | Decided): judged is Doubted {
  return judged.move === 'aside' || judged.move === 'behind';
}

/** So many readings behind, in ascending order with none newer between, show that the clock has been set back. */
export const behindFor = 3;
/** So many set aside in vain are enough: the next one is believed. */
const mostAside = 2;
/** A machine may stand so long: the host's clock alone is believed (our choice). */
const longestStop: number = longestUsual;
/** No gap is longer: over more the clock has been set (our choice). */
const longestGap: number = /* @__PURE__ */ unusualMs(longestUsual);

/** How far ahead an input may lie. */
export function jumpOf({ clockJumpMs }: PreparedMonitor, { usualMs }: MonitorState): number {
  return clockJumpMs === 'usual' ? unusualMs(usualMs ?? null) : clockJumpMs;
}

/**
 * Judges the time of a reading. `receivedAt`: the host's clock where it is known, which decides at once what it can
 * decide.
 */
export function judgeReading(
  prepared: PreparedMonitor,
  state: MonitorState,
  { time, receivedAt }: TimedReading,
): Doubted | Decided {
  const now = state.time;
  const doubt = state.clock ?? null;
  if (now === undefined) return noDoubt;
  const jump = jumpOf(prepared, state);
  // how far a clock may be ahead
  const most = Math.min(prepared.limits.clockAheadMs ?? usualAheadMs, jump);
  if (time - now > jump) {
    const move =
      receivedAt === undefined ||
      leapsToo(state, receivedAt, doubt?.ahead === undefined ? Math.max(jump, longestStop) : longestGap)
        ? null
        : leapMove(receivedAt - time, state.lagMs, jump);
    if (move === null) return judgeAhead(doubt, time, jump, [time]);
    if (move === 'set') return set(doubt);
  }
  if (time >= now) return leapsAhead(state, time, receivedAt, most) ? set(doubt) : inLine(doubt);
  const count = countBehind(doubt?.behind, time, receivedAt);
  const isBack = receivedAt !== undefined && showsSetBack(state, time, receivedAt, most);
  // a clock whose readings go on has not been set: what lies ahead of it was the time of a moment
  if (isBack || count >= behindFor) return time > newestOf(state) ? { ...set(doubt), move: 'undone' } : set(doubt);
  const behind = receivedAt === undefined ? { time, count } : { time, count, receivedAt };
  return { move: 'behind', doubt: doubtOf(doubt?.ahead, behind) };
}

const noneAside: readonly number[] = [];

/** An input far ahead: set aside, or the clock is set to it where another agreed with it, or too many were in vain. */
export function judgeAhead(
  doubt: ClockDoubt | null,
  time: number,
  jump: number,
  reading: readonly number[],
): Doubted | Decided {
  const ahead = doubt?.ahead;
  if (ahead !== undefined && (Math.abs(time - ahead.time) <= jump || ahead.count >= mostAside)) return set(doubt);
  const { count, readings, last } = ahead ?? { count: 0, readings: noneAside, last: undefined };
  const next = { time, count: count + 1, readings: readings.concat(reading), ...(last === undefined ? {} : { last }) };
  return { move: 'aside', doubt: doubtOf(next, doubt?.behind) };
}

/**
 * Whether the host's clock itself leaps from reading to reading, as one that is not set when a gateway begins: it
 * proves nothing then. Ahead it may be a gap, which a second reading shows.
 */
function leapsToo({ receivedAt: before, usualMs }: MonitorState, receivedAt: number, most: number): boolean {
  return before !== undefined && receivedAt - before > Math.max(most, unusualMs(usualMs ?? null));
}

/** Whether inputs behind were readings. */
export function isOfReadings(behind: ClockDoubt['behind']): boolean {
  return behind !== undefined && behind.count > 0;
}

/** The time of the newest reading; -Infinity where none is known. */
export function newestOf({ recent }: MonitorState): number {
  return recent === undefined || recent.length === 0 ? -Infinity : (recent[recent.length - 1] as Recent[number])[0];
}

/**
 * Whether a reading that came after the usual wait lies farther from the one before than was waited, and less behind
 * the host's clock than ever: the clock has been set ahead, if by less than a jump. No clock gains a fiftieth of the
 * time (our choice).
 */
function leapsAhead(state: MonitorState, time: number, receivedAt: number | undefined, most: number): boolean {
  const { lagMs, usualMs, receivedAt: before } = state;
  if (receivedAt === undefined || before === undefined || lagMs === undefined || usualMs === undefined) return false;
  const waited = receivedAt - before;
  const leap = time - newestOf(state) - waited;
  return leap > Math.max(most, waited / 50) && lagMs - (receivedAt - time) > most && 2 * waited >= usualMs;
}

export function doubtOf(ahead: ClockDoubt['ahead'], behind: ClockDoubt['behind']): ClockDoubt {
  if (ahead === undefined) return behind === undefined ? {} : { behind };
  return behind === undefined ? { ahead } : { ahead, behind };
}

/**
 * What a leap ahead is by the host's clock, of which the reading came so much later. A gap, and being held back, leave
 * a clock as far behind as it was, or make it seem farther; one less behind than ever has been set. Null where it lies
 * behind now and nobody knows by how much before.
 */
function leapMove(lag: number, least: number | undefined, jump: number): 'in_line' | 'set' | null {
  if (lag < -jump) return 'set';
  if (least === undefined) return lag > jump ? null : 'in_line';
  return lag >= least - jump ? 'in_line' : 'set';
}

/** The least that readings have come after their time by the host's clock, after one more. */
export function leastLag(before: number | undefined, time: number, receivedAt: number | undefined): number | undefined {
  if (receivedAt === undefined) return before;
  return Math.max(-farthest, Math.min(before ?? farthest, receivedAt - time));
}

/** Whether the host's clock alone shows that the clock has been set back. */
function showsSetBack(state: MonitorState, time: number, receivedAt: number, most: number): boolean {
  const { time: now = time, receivedAt: before = receivedAt } = state;
  // the host's clock has been set back itself
  if (before - receivedAt > most) return false;
  // the monitor's time lies ahead of the host's, and that of this reading does not
  if (now - receivedAt > most && time - receivedAt <= most) return true;
  return isOutOfPlace(state, time, receivedAt);
}

/**
 * A reading that comes after the usual wait, and of a time at which none is missing among those remembered: it does not
 * come late, its clock is behind. One may be missing where a gap is half as wide again as the least, or as usual: where
 * readings come late by chance, what is usual is too long.
 */
function isOutOfPlace(
  { recent, usualMs, receivedAt: before }: MonitorState,
  time: number,
  receivedAt: number,
): boolean {
  if (recent === undefined || usualMs === undefined || before === undefined) return false;
  if (2 * (receivedAt - before) < usualMs) return false;
  let gap = 0;
  let least = usualMs;
  for (let i = 1; i < recent.length; i += 1) {
    const [from, to] = [(recent[i - 1] as Recent[number])[0], (recent[i] as Recent[number])[0]];
    if (time > from && time < to) gap = to - from;
    if (to > from) least = Math.min(least, to - from);
  }
  return gap > 0 && 2 * gap < 3 * least;
}

/**
 * How many readings have come in ascending order; of those that the host has timed only such as came at the pace they
 * were taken, and not all in one go.
 */
function countBehind(before: ClockDoubt['behind'], time: number, receivedAt: number | undefined): number {
  if (before === undefined || before.count === 0 || time < before.time) return 1;
  if (time === before.time) return before.count;
  const { receivedAt: earlier } = before;
  if (receivedAt === undefined || earlier === undefined) return before.count + 1;
  return 2 * (receivedAt - earlier) < time - before.time ? 1 : before.count + 1;
}

/**
 * A reading in line. Moments ahead may be of another clock; moments behind show no clock set back if a reading comes.
 */
function inLine(doubt: ClockDoubt | null): Decided {
  if (doubt === null) return noDoubt;
  const { ahead } = doubt;
  if (ahead === undefined || ahead.readings.length > 0) return decidedBy('in_line', ahead);
  return { ...noDoubt, doubt: { ahead } };
}

export const noDoubt: Decided = { move: 'in_line', aside: [], last: null };

export function set(doubt: ClockDoubt | null): Decided {
  return decidedBy('set', doubt?.ahead);
}

function decidedBy(move: Decided['move'], ahead: ClockDoubt['ahead']): Decided {
  return { move, aside: ahead?.readings ?? [], last: ahead?.last ?? null };
}

/**
 * Whether an input shows that the clock has been set. One that lies far ahead is set aside until the next ones decide;
 * several behind the monitor's time, one after the other, show that the clock has been set back.
 */

import { usualAheadMs } from '../reading/readingLimits.ts';
import { farthest } from '../rules/bounds.ts';
import { unusualMs } from '../state/usual.ts';
import type { AsideReading, ClockDoubt, MonitorState, PreparedMonitor } from './types.ts';

/** What becomes of an input: it is set aside or behind, and what is doubted then. */
export interface Doubted {
  readonly move: 'aside' | 'behind';
  readonly doubt: ClockDoubt;
}

/** It is in line, or the clock has been set to it. */
export interface Decided {
  readonly move: 'in_line' | 'set';
  /** Readings that were set aside, all of them, and the last one's figures, which can be judged now. */
  readonly aside: readonly number[];
  readonly last: AsideReading | null;
}

/** So many inputs behind, in ascending order with none newer between, show that the clock has been set back. */
const behindFor = 3;
/** So many are enough where the host's clock shows that they came at the pace they were taken. */
const behindForTimed = 2;
/** So many set aside in vain are enough: the next one is believed. */
const mostAside = 2;

/** How far ahead an input may lie. */
export function jumpOf({ clockJumpMs }: PreparedMonitor, { usualMs }: MonitorState): number {
  return clockJumpMs === 'usual' ? unusualMs(usualMs ?? null) : clockJumpMs;
}

/**
 * Judges the time of an input. `receivedAt`: the host's clock where it is known, which decides at once what it can
 * decide.
 */
export function judgeClock(
  prepared: PreparedMonitor,
  state: MonitorState,
  time: number,
  isReading: boolean,
  receivedAt: number | undefined,
): Doubted | Decided {
  const now = state.time;
  const doubt = state.clock ?? null;
  if (now === undefined) return inLine(null);
  const jump = jumpOf(prepared, state);
  if (time - now > jump) {
    const move = receivedAt === undefined ? null : leapMove(receivedAt - time, state.lagMs, jump);
    if (move !== null) return decided(move, doubt);
    const ahead = doubt?.ahead;
    if (ahead !== undefined && (Math.abs(time - ahead.time) <= jump || ahead.count >= mostAside)) return set(doubt);
    const readings = ahead === undefined ? [] : ahead.readings;
    const last = ahead?.last;
    const next = {
      time,
      count: ahead === undefined ? 1 : ahead.count + 1,
      readings: isReading ? readings.concat([time]) : readings,
      ...(last === undefined ? {} : { last }),
    };
    const { behind } = doubt ?? {};
    return { move: 'aside', doubt: behind === undefined ? { ahead: next } : { ahead: next, behind } };
  }
  if (time >= now) return inLine(doubt);
  if (receivedAt !== undefined && showsSetBack(prepared, state, time, receivedAt, jump)) return set(doubt);
  const before = doubt?.behind;
  const count = countBehind(before, time, receivedAt);
  const timed = receivedAt !== undefined && before?.receivedAt !== undefined;
  if (count >= (timed ? behindForTimed : behindFor)) return set(doubt);
  const behind = receivedAt === undefined ? { time, count } : { time, count, receivedAt };
  const { ahead } = doubt ?? {};
  return { move: 'behind', doubt: ahead === undefined ? { behind } : { ahead, behind } };
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
function showsSetBack(
  { limits }: PreparedMonitor,
  state: MonitorState,
  time: number,
  receivedAt: number,
  jump: number,
): boolean {
  const now = state.time as number;
  const most = Math.min(limits.clockAheadMs ?? usualAheadMs, jump);
  // the monitor's time lies ahead of the host's, and that of this reading does not
  if (now - receivedAt > most && time - receivedAt <= most) return true;
  return isOutOfPlace(state, time, receivedAt);
}

/**
 * A reading that comes after the usual wait, and of a time at which none is missing among those remembered: it does not
 * come late, its clock is behind.
 */
function isOutOfPlace(
  { recent, usualMs, receivedAt: before }: MonitorState,
  time: number,
  receivedAt: number,
): boolean {
  if (recent === undefined || usualMs === undefined || before === undefined) return false;
  if (2 * (receivedAt - before) < usualMs) return false;
  for (let i = 1; i < recent.length; i += 1) {
    const [from, to] = [(recent[i - 1] as Known)[0], (recent[i] as Known)[0]];
    if (time > from && time < to) return 2 * (to - from) < 3 * usualMs;
  }
  return false;
}

type Known = readonly [number, number | null];

/**
 * How many have come in ascending order; of those that the host has timed only such as came at the pace they were
 * taken, and not all in one go.
 */
function countBehind(before: ClockDoubt['behind'], time: number, receivedAt: number | undefined): number {
  if (before === undefined || time < before.time) return 1;
  if (time === before.time) return before.count;
  const waited = (receivedAt ?? time) - (before.receivedAt ?? before.time);
  const timed = receivedAt !== undefined && before.receivedAt !== undefined;
  return timed && 2 * waited < time - before.time ? 1 : before.count + 1;
}

function inLine(doubt: ClockDoubt | null): Decided {
  return decided('in_line', doubt);
}

function set(doubt: ClockDoubt | null): Decided {
  return decided('set', doubt);
}

function decided(move: Decided['move'], doubt: ClockDoubt | null): Decided {
  const ahead = doubt?.ahead;
  return { move, aside: ahead?.readings ?? [], last: ahead?.last ?? null };
}

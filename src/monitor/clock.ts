/**
 * Whether an input shows that the clock has been set. One that lies far ahead is set aside until the next ones decide; several behind the
 * monitor's time, one after the other, show that the clock has been set back.
 */
import { unusualMs } from '../state/usual.ts';
import type { ClockDoubt, MonitorState, PreparedMonitor } from './types.ts';

/** What becomes of an input: it is in line, set aside, behind, or the clock has been set to it. */
export interface Judged {
  readonly move: 'in_line' | 'aside' | 'behind' | 'set';
  readonly doubt: ClockDoubt | null;
  /** Readings that were set aside, and that no alarm will judge now. */
  readonly lost: readonly number[];
}

/** So many inputs behind, in ascending order with none newer between, show that the clock has been set back. */
const behindFor = 3;
/** So many set aside in vain are enough: the next one is believed. */
const mostAside = 2;
const day = 86400000;

/** How far ahead an input may lie. */
export function jumpOf({ clockJumpMs }: PreparedMonitor, { usualMs }: MonitorState): number {
  return clockJumpMs === 'usual' ? unusualMs(usualMs ?? null) : clockJumpMs;
}

/** Judges the time of an input. `receivedAt`: the host's clock where it is known, which decides at once. */
export function judgeClock(
  prepared: PreparedMonitor,
  state: MonitorState,
  time: number,
  isReading: boolean,
  receivedAt: number | undefined,
): Judged {
  const now = state.time;
  const doubt = state.clock ?? null;
  if (now === undefined) return inLine(null);
  const jump = jumpOf(prepared, state);
  if (time - now > jump) {
    if (receivedAt !== undefined) return receivedAt - time >= 0 - jump ? inLine(doubt) : set(doubt);
    const ahead = doubt?.ahead;
    if (ahead !== undefined && (Math.abs(time - ahead.time) <= jump || ahead.count >= mostAside)) return set(doubt);
    const readings = ahead === undefined ? [] : ahead.readings;
    const next = {
      time,
      count: ahead === undefined ? 1 : ahead.count + 1,
      readings: isReading ? readings.concat([time]) : readings,
    };
    const { behind } = doubt ?? {};
    return { move: 'aside', doubt: behind === undefined ? { ahead: next } : { ahead: next, behind }, lost: [] };
  }
  if (time >= now) return inLine(doubt);
  // the host's clock shows that the monitor's own is ahead
  if (receivedAt !== undefined && now - receivedAt > Math.min(jump, day)) return set(doubt);
  const count = countBehind(doubt?.behind, time, receivedAt);
  if (count >= behindFor) return set(doubt);
  const behind = receivedAt === undefined ? { time, count } : { time, count, receivedAt };
  const { ahead } = doubt ?? {};
  return { move: 'behind', doubt: ahead === undefined ? { behind } : { ahead, behind }, lost: [] };
}

/** How many have come in ascending order; of those that the host has timed only such as came at the pace they were taken, and not all in one go. */
function countBehind(before: ClockDoubt['behind'], time: number, receivedAt: number | undefined): number {
  if (before === undefined || time < before.time) return 1;
  if (time === before.time) return before.count;
  const waited = (receivedAt ?? time) - (before.receivedAt ?? before.time);
  const timed = receivedAt !== undefined && before.receivedAt !== undefined;
  return timed && 2 * waited < time - before.time ? 1 : before.count + 1;
}

function inLine(doubt: ClockDoubt | null): Judged {
  return { move: 'in_line', doubt: null, lost: doubt?.ahead?.readings ?? [] };
}

function set(doubt: ClockDoubt | null): Judged {
  return { move: 'set', doubt: null, lost: doubt?.ahead?.readings ?? [] };
}

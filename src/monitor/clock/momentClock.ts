/**
 * Whether a moment (a tick, a command, relearning) shows that the clock has been set. Moments are of the host's clock,
 * and readings of the sensor's, which may be another: neither settles a doubt of the other, but for readings that are
 * only behind a moment, and newer than all before.
 */
import type { TimedReading } from '../../reading/reading.ts';
import { earliestWritten, farthest, latestWritten } from '../../rules/bounds.ts';
import { minute } from '../../state/timeSteps.ts';
import { leapTeaches } from '../../state/usual.ts';
import type { ClockDoubt, MonitorState, PreparedMonitor } from '../types.ts';
import {
  behindFor,
  type Decided,
  type Doubted,
  doubtOf,
  isOfReadings,
  judgeAhead,
  jumpOf,
  newestOf,
  noDoubt,
  set,
} from './clock.ts';

/** Judges the time of a moment, on the clock of the readings. */
export function judgeMoment(prepared: PreparedMonitor, state: MonitorState, time: number): Doubted | Decided {
  const now = state.time;
  if (now === undefined) return noDoubt;
  const jump = jumpOf(prepared, state);
  if (time - now > jump) return judgeAhead(state.clock ?? null, time, jump, []);
  return time >= now ? inLine(state) : behind(state, time);
}

/**
 * The time of a moment on the clock of the readings, and what is then known of how far that lies behind. Where the host
 * times the readings, the last one tells it, unless the moment is nearer as it stands. Else it is what readings behind
 * moments have shown, and no more than the moment lies after a reading that has come before it.
 */
export function onReadingsClock(
  state: MonitorState,
  moment: number,
): { readonly time: number; readonly lagMs: number | undefined } {
  const { time: now = moment, lagMs, receivedAt } = state;
  const newest = newestOf(state);
  const least = leastTold(state);
  if (newest === -Infinity) return { time: moment, lagMs };
  if (receivedAt !== undefined) {
    const moved = moment - (receivedAt - newest);
    const isOfHost = Math.abs(moment - moved) > least && Math.abs(moved - now) < Math.abs(moment - now);
    return { time: isOfHost ? Math.max(earliestWritten, Math.min(latestWritten, moved)) : moment, lagMs };
  }
  if (lagMs === undefined || lagMs <= least) return { time: moment, lagMs };
  const lag = Math.max(0, Math.min(lagMs, moment - newest));
  return { time: moment - lag, lagMs: lag > least ? lag : undefined };
}

/** A clock less behind is as good as right: by a minute (our choice), or by a usual interval. */
export function leastTold({ usualMs }: MonitorState): number {
  return Math.min(minute, usualMs ?? minute);
}

/**
 * A moment behind the monitor's time: the clock of the readings is ahead, or that of the moments has been set back. The
 * latter where no reading comes for three usual intervals of them, of a week at most (our choice). The first such
 * moment is kept, with a count of 0.
 */
function behind(state: MonitorState, time: number): Doubted | Decided {
  const doubt = state.clock ?? null;
  const before = doubt?.behind;
  if (isOfReadings(before)) return { move: 'behind', doubt: doubt as ClockDoubt };
  const goesOn = before !== undefined && time >= before.time;
  if (goesOn && time - before.time > behindFor * Math.min(state.usualMs ?? leapTeaches, leapTeaches)) return set(doubt);
  return { move: 'behind', doubt: doubtOf(doubt?.ahead, goesOn ? before : { time, count: 0 }) };
}

function inLine(state: MonitorState): Decided {
  const { ahead, behind } = state.clock ?? {};
  const readingsAhead = ahead !== undefined && ahead.readings.length > 0 ? ahead : undefined;
  const setBack =
    isOfReadings(behind) && (behind as NonNullable<typeof behind>).time < newestOf(state) ? behind : undefined;
  if (readingsAhead === undefined && setBack === undefined) return noDoubt;
  return { ...noDoubt, doubt: doubtOf(readingsAhead, setBack) };
}

/**
 * How far the clock of the readings lies behind that of the moments at least, as the first reading shows that is newer
 * than all before and yet behind a moment, or one that shows the clock set back (`isSet`). Undefined where nothing
 * shows it, or the host's clock came with the reading.
 */
export function lagShown(state: MonitorState, { time, receivedAt }: TimedReading, isSet: boolean): number | undefined {
  const { time: now = time, lagMs, clock } = state;
  const isNewer = time > newestOf(state);
  if (receivedAt !== undefined || time >= now || !(isNewer || isSet)) return undefined;
  if (isNewer && isOfReadings(clock?.behind)) return lagMs;
  const lag = Math.max(0, lagMs ?? 0) + (now - time);
  return lag > leastTold(state) ? Math.min(farthest, lag) : lagMs;
}

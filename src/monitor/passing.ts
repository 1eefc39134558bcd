/**
 * The passing of time for all that a monitor holds: stale readings, blocks that close, what falls due in the alarms;
 * and the setting of its clock.
 */
import { setBack } from '../alarm/behind.ts';
import { moveClock, type Step, stepAlarm } from '../alarm/step.ts';
import { movedRepeats } from '../reading/remembered/repeats.ts';
import { farthest } from '../rules/bounds.ts';
import { leapTeaches, unusualMs } from '../state/usual.ts';
import type { Writable } from '../state/writable.ts';
import { closeBlocks, moveAllBlocks, undoBlocks } from './followed/figures.ts';
import { passTargets } from './targets.ts';
import type { AlarmWatch, ClockEvent, MonitorEvent, MonitorState, PreparedMonitor, WatchedAlarm } from './types.ts';

/** A state while it is being worked on. */
export type Draft = Writable<MonitorState>;

/**
 * What time alone does, to each alarm what `stepOf` says, and to each target what a reading `tells`. Blocks are closed
 * up to when a reading was `taken`, which a tick may have gone ahead of.
 */
export function passTime(
  prepared: PreparedMonitor,
  state: MonitorState,
  time: number,
  events: MonitorEvent[],
  stepOf: (i: number) => Step,
  tells: ((place: number) => boolean) | null = null,
  taken: number = time,
): Draft {
  const heard = state.heard ?? time;
  const last = state.time ?? time;
  const next = draftOf(state, time, heard);
  tellSilence(prepared, next, last, time, time, events);
  const { alarms, follow, targets } = prepared;
  if (targets.length > 0) next.targets = passTargets(prepared, state, last, time, events, tells);
  next.followed = closeBlocks(follow, state.followed, last, taken, events);
  next.alarms = alarms.map(({ plan }, i) => {
    const memory = state.alarms[i] as WatchedAlarm;
    return stepAlarm(plan, memory, last, time, stepOf(i), events as never, { id: plan.id, of: plan.of });
  });
  return next;
}

/**
 * Whether no reading has come for too long at a time; told as of then, but not before the last time, and as of `now`
 * where that is before. Of a time that is set aside this alone is told: a clock may be wrong, but a sensor that is
 * silent must not be silent for ever.
 */
export function tellSilence(
  { staleAfterMs }: PreparedMonitor,
  next: Draft,
  last: number,
  time: number,
  now: number,
  events: MonitorEvent[],
): void {
  if (next.stale === true || staleAfterMs === null) return;
  const since = next.heard as number;
  const from = since + silenceOf(staleAfterMs, next);
  if (time <= from) return;
  events.push({ time: Math.max(last, Math.min(from, now)), event: 'readings_stale', since });
  next.stale = true;
}

/** For how long no reading may come. */
function silenceOf(staleAfterMs: number | 'usual', { usualMs }: MonitorState): number {
  return staleAfterMs === 'usual' ? unusualMs(usualMs ?? null) : staleAfterMs;
}

/** Whether a reading has come, by the host's clock, so shortly before a moment of it that there is no silence. */
export function wasHeardOnHost({ staleAfterMs }: PreparedMonitor, state: MonitorState, moment: number): boolean {
  const { receivedAt } = state;
  if (receivedAt === undefined || staleAfterMs === null) return false;
  return Math.abs(moment - receivedAt) <= silenceOf(staleAfterMs, state);
}

/** Written out: engines copy objects whose members they know sooner than by spreading. */
function draftOf(state: MonitorState, time: number, heard: number): Draft {
  const { version, arrivals, alarms, followed, recent, repeats, receivedAt, lagMs, usualMs } = state;
  const { stale, unused, bad, restoring, told, clock } = state;
  const next: Draft = { version, arrivals, alarms, followed, time, heard };
  if (usualMs !== undefined) next.usualMs = usualMs;
  if (recent !== undefined) next.recent = recent;
  if (repeats !== undefined) next.repeats = repeats;
  if (receivedAt !== undefined) next.receivedAt = receivedAt;
  if (lagMs !== undefined) next.lagMs = lagMs;
  if (stale !== undefined) next.stale = stale;
  if (unused !== undefined) next.unused = unused;
  if (bad !== undefined) next.bad = bad;
  if (restoring !== undefined) next.restoring = restoring;
  if (told !== undefined) next.told = told;
  if (clock !== undefined) next.clock = clock;
  return next;
}

/**
 * The same state on a clock that has been set: what is remembered stays as far back as it was, and delays begin anew.
 * What a configuration that has changed makes due is told before, on the old clock.
 */
export function setClock(
  prepared: PreparedMonitor,
  before: MonitorState,
  to: number,
  told: Pick<ClockEvent, 'judged' | 'lost'>,
  events: MonitorEvent[],
): MonitorState {
  const from = before.time as number;
  const state = passTime(prepared, before, from, events, () => ({}));
  const by = to - from;
  const { clock: _doubt, usualMs, recent, repeats, heard, receivedAt: _received, lagMs: _lag, ...rest } = state;
  const next: Draft = {
    ...rest,
    time: to,
    alarms: state.alarms.map((alarm, i) => {
      const { plan } = prepared.alarms[i] as AlarmWatch;
      return moveClock(plan, alarm, from, to, { id: alarm.id, of: alarm.of });
    }),
    followed: moveAllBlocks(prepared.follow, state.followed, from, to),
  };
  if (heard !== undefined) next.heard = heard + by;
  if (state.targets !== undefined)
    next.targets = state.targets.map((one) => ({ ...one, heard: Math.max(-farthest, one.heard + by) }));
  // what led to a time that was wrong tells little of what is usual
  if (usualMs !== undefined) next.usualMs = by > 0 ? usualMs : Math.min(usualMs, leapTeaches);
  if (recent !== undefined) next.recent = recent.filter(([time]) => time < to);
  if (repeats !== undefined) next.repeats = movedRepeats(repeats, by);
  events.push({ time: to, event: 'clock_set', from, to, ...told });
  return next;
}

/**
 * The same state where a moment had gone ahead of readings that go on: nothing is later than the reading, and what is
 * earlier stands. Delays run on, a shelf ends as it was given, and has no more left than the longest.
 */
export function undoMoment(
  { alarms, follow }: PreparedMonitor,
  state: MonitorState,
  to: number,
  events: MonitorEvent[],
): MonitorState {
  const from = state.time as number;
  const next: Draft = {
    ...state,
    time: to,
    heard: Math.min(state.heard as number, to),
    alarms: state.alarms.map((alarm, i) => {
      const { plan } = alarms[i] as AlarmWatch;
      const untilOf = (until: number) => Math.min(until, to + plan.longestShelfMs);
      return setBack(plan, alarm, to, untilOf, { id: alarm.id, of: alarm.of });
    }),
    followed: undoBlocks(follow, state.followed, to),
  };
  if (state.targets !== undefined)
    next.targets = state.targets.map((one) => ({ ...one, heard: Math.min(one.heard, to) }));
  events.push({ time: to, event: 'clock_set', from, to });
  return next;
}

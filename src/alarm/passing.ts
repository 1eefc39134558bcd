/**
 * What the passing of time does to an alarm: a shelf ends, a signal goes stale, chattering is over, what still stands
 * is raised anew.
 */
import { timeAt, timeChars } from '../state/packed.ts';
import { unusualMs } from '../state/usual.ts';
import type { Writable } from '../state/writable.ts';
import type { Draft } from './memory.ts';
import { addDetails, announce, endShelf } from './silence.ts';
import type { AlarmEvent, AlarmPlan, AnyAlarmEvent } from './types.ts';

/** The end of a shelf, a stale signal, the end of chattering, and re-alarms before the end of a shelf and after it. */
const mostDue = 5;

/**
 * Brings the alarm from the last time to another: everything that fell due on the way happens at its own time, in
 * order. What settings that have changed would have made due before the last time has that time, and a re-alarm is
 * reckoned from there.
 */
export function passTime(
  plan: AlarmPlan,
  draft: Draft,
  last: number,
  time: number,
  unheardMs: number,
  events: AlarmEvent[],
): void {
  if (draft.heard === null) draft.heard = time;
  const calm = draft.shelf === null && !draft.chattering && (plan.reAlarmAfterMs === null || !draft.active);
  if (calm && (draft.stale || draft.heard + staleAfterOf(plan, draft, unheardMs) >= time)) return;
  if (dueAnew(plan, draft, last) < Infinity) draft.realarmed = last;
  // no more can be due; what a damaged plan or state makes due must not keep a gateway here for ever
  for (let due = 0; due < mostDue; due += 1) {
    const shelfEnd = draft.shelf === null ? Infinity : draft.shelf.until;
    const staleFrom = draft.stale ? Infinity : draft.heard + staleAfterOf(plan, draft, unheardMs);
    const quietFrom = draft.chattering ? lastRaise(draft) + plan.chattering.withinMs : Infinity;
    // what falls due as a shelf ends is told, so that it is not counted with what falls due before
    const anew = dueAnew(plan, draft, shelfEnd > time ? time : shelfEnd - 1);
    const next = Math.min(shelfEnd, staleFrom, quietFrom, anew);
    // At the very millisecond a shelf has ended and an alarm is raised anew; a signal is stale, and chattering over,
    // only after it.
    if (!(next <= time) || (next === time && shelfEnd > time && anew > time)) return;
    if (shelfEnd === next) {
      endShelf(plan, draft, shelfEnd, events);
    } else if (anew === next) {
      raiseAnew(plan, draft, anew, events);
    } else if (staleFrom === next) {
      draft.stale = true;
      draft.pending = null;
      announce(plan, draft, 'stale', true, Math.max(last, staleFrom), events);
    } else {
      if (!draft.chattering) return;
      draft.chattering = false;
      announce(plan, draft, 'chattering', false, Math.max(last, quietFrom), events);
    }
  }
}

/** For how long no good reading may come. */
export function staleAfterOf({ staleAfterMs }: AlarmPlan, draft: Draft, unheardMs: number): number {
  if (staleAfterMs === null) return Infinity;
  if (staleAfterMs !== 'usual') return staleAfterMs;
  return draft.value === null ? unheardMs : unusualMs(draft.usualMs);
}

/** When it was last raised, told or not; never where it is not known. */
export function lastRaise({ raises }: Draft): number {
  return raises === '' ? -Infinity : timeAt(raises, raises.length - timeChars);
}

function lastAlarm(draft: Draft): number {
  return draft.realarmed ?? draft.since ?? Infinity;
}

/** The last time up to another that a re-alarm fell due; endless where none did. */
function dueAnew({ reAlarmAfterMs: every }: AlarmPlan, draft: Draft, until: number): number {
  if (every === null || !draft.active) return Infinity;
  const last = lastAlarm(draft);
  return until - last < every ? Infinity : last + Math.floor((until - last) / every) * every;
}

/** Told once for as often as it fell due, at the last of those times. */
function raiseAnew(plan: AlarmPlan, draft: Draft, time: number, events: AlarmEvent[]): void {
  const times = (time - lastAlarm(draft)) / (plan.reAlarmAfterMs as number);
  draft.realarmed = time;
  draft.unacknowledged = true;
  if (draft.told !== null) return;
  const event: Writable<AnyAlarmEvent> = { time, alarm: plan.id, event: 're_alarmed' };
  if (times > 1) event.times = times;
  if (draft.value !== null) event.value = draft.value;
  addDetails(plan, draft, event);
  events.push(event as AlarmEvent);
}

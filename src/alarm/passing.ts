/**
 * What the passing of time does to an alarm: a shelf ends, a signal goes stale, chattering is over, what still stands is raised anew.
 */
import { unusualMs } from '../state/usual.ts';
import type { Draft } from './memory.ts';
import { addDetails, announce, endShelf } from './silence.ts';
import type { AlarmEvent, AlarmPlan } from './types.ts';

/** Brings the alarm to a time: everything that fell due on the way happens at its own time, in order. */
export function passTime(plan: AlarmPlan, draft: Draft, time: number, events: AlarmEvent[]): void {
  if (draft.heard === null) draft.heard = time;
  for (;;) {
    const shelfEnd = draft.shelf === null ? Infinity : draft.shelf.until;
    const staleFrom = draft.stale ? Infinity : staleFromOf(plan, draft, draft.heard);
    const quietFrom = draft.chattering ? lastRaise(draft) + plan.chattering.withinMs : Infinity;
    const anew = plan.reAlarmAfterMs === null || !draft.active ? Infinity : lastAlarm(draft) + plan.reAlarmAfterMs;
    const next = Math.min(shelfEnd, staleFrom, quietFrom, anew);
    // At the very millisecond a shelf has ended and an alarm is raised anew; a signal is stale, and chattering over, only after it.
    if (next > time || (next === time && shelfEnd > time && anew > time)) return;
    if (shelfEnd === next) {
      endShelf(plan, draft, shelfEnd, events);
    } else if (anew === next) {
      raiseAnew(plan, draft, Math.min(time, shelfEnd, staleFrom, quietFrom), events);
    } else if (staleFrom === next) {
      draft.stale = true;
      draft.pending = null;
      announce(plan, draft, 'stale', true, staleFrom, events);
    } else {
      draft.chattering = false;
      announce(plan, draft, 'chattering', false, quietFrom, events);
    }
  }
}

function staleFromOf({ staleAfterMs }: AlarmPlan, draft: Draft, heard: number): number {
  if (staleAfterMs === null) return Infinity;
  return heard + (staleAfterMs === 'usual' ? unusualMs(draft.usualMs) : staleAfterMs);
}

function lastRaise(draft: Draft): number {
  return draft.raises[draft.raises.length - 1] as number;
}

function lastAlarm(draft: Draft): number {
  return draft.realarmed ?? draft.since ?? Infinity;
}

/** Told once for as often as it fell due until something else did, at the last of those times. */
function raiseAnew(plan: AlarmPlan, draft: Draft, until: number, events: AlarmEvent[]): void {
  const every = plan.reAlarmAfterMs as number;
  const times = Math.floor((until - lastAlarm(draft)) / every);
  const time = lastAlarm(draft) + times * every;
  draft.realarmed = time;
  draft.unacknowledged = true;
  if (draft.told !== null) return;
  const event: { -readonly [Key in keyof AlarmEvent]: AlarmEvent[Key] } = {
    time,
    alarm: plan.id,
    event: 're_alarmed',
  };
  if (times > 1) event.times = times;
  if (draft.value !== null) event.value = draft.value;
  addDetails(plan, draft, event);
  events.push(event);
}

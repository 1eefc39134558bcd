/**
 * What an alarm tells and when it is silent: shelved, suppressed by design or out of service it is tracked all the
 * same, and tells afterwards how things stand.
 */
import type { Writable } from '../state/writable.ts';
import { type Draft, isSilent, nameOfStanding, type Standing } from './memory.ts';
import { isRateOfChange } from './plan.ts';
import type { AlarmEvent, AlarmPlan, AnyAlarmEvent } from './types.ts';

/** Begins a silence, or one within another: what stands has been told. */
export function beginSilence(draft: Draft): void {
  const { told, active, stale, chattering, bad } = draft;
  if (told === null) draft.told = { active, stale, chattering, bad };
}

/** Ends shelving, and tells how things stand. */
export function endShelf(plan: AlarmPlan, draft: Draft, time: number, events: AlarmEvent[], details?: object): void {
  draft.shelf = null;
  endSilence(plan, draft, 'unshelved', time, events, details);
}

/** Says that one silence has ended, and, if it was the last, everything that stands or has ended meanwhile. */
export function endSilence(
  plan: AlarmPlan,
  draft: Draft,
  event: 'unshelved' | 'unsuppressed' | 'returned_to_service',
  time: number,
  events: AlarmEvent[],
  details?: object,
): void {
  if (isSilent(draft)) {
    events.push({ time, alarm: plan.id, event, ...details });
    return;
  }
  const before = draft.told as Standing;
  events.push({ time, alarm: plan.id, event, silentRaises: draft.silentRaises, ...details });
  draft.silentRaises = 0;
  draft.told = null;
  if (draft.bad || before.bad) announce(plan, draft, 'bad', draft.bad, time, events, true);
  if (draft.stale || before.stale) announce(plan, draft, 'stale', draft.stale, time, events, true);
  if (draft.active || draft.latched) announce(plan, draft, 'active', true, time, events, true);
  if (!draft.active && (draft.latched || draft.unacknowledged || before.active))
    announce(plan, draft, 'active', false, time, events, true);
  if (draft.chattering || before.chattering) announce(plan, draft, 'chattering', draft.chattering, time, events, true);
}

/** Tells one of four things, unless silent. */
export function announce(
  plan: AlarmPlan,
  draft: Draft,
  what: keyof Standing,
  on: boolean,
  time: number,
  events: AlarmEvent[],
  standing = false,
): void {
  if (draft.told !== null) return;
  const event: Writable<AnyAlarmEvent> = { time, alarm: plan.id, event: words[what][on ? 1 : 0] };
  if (standing) event.standing = true;
  if (what === 'active') {
    if (standing) event.state = nameOfStanding(draft);
    if (draft.value !== null) event.value = draft.value;
    if (on) addDetails(plan, draft, event);
    else {
      if (draft.latched) event.latched = true;
      if (draft.value !== null && addChange(plan, event)) {
        event.setpoint = plan.details.setpoint;
        if (plan.details.figure !== undefined) event.figure = plan.details.figure;
      }
    }
  }
  if (what === 'stale' && on && draft.heard !== null) event.since = draft.heard;
  if ((what === 'stale' || what === 'bad') && plan.details.figure !== undefined) event.figure = plan.details.figure;
  events.push(event as AlarmEvent);
}

/** What someone needs to act on: the setpoint, how soon, which figure, the code of the reading, what to do. */
export function addDetails(plan: AlarmPlan, draft: Draft, event: Writable<AnyAlarmEvent>): void {
  const { details } = plan;
  addChange(plan, event);
  event.setpoint = details.setpoint;
  event.priority = details.priority;
  if (details.figure !== undefined) event.figure = details.figure;
  if (draft.code !== null) event.code = draft.code;
  if (details.note !== undefined) event.note = details.note;
}

/** Which way an alarm on a change looks, and how far back; whether it is one. */
function addChange({ type, withinMs }: AlarmPlan, event: Writable<AnyAlarmEvent>): boolean {
  if (!isRateOfChange(type)) return false;
  event.type = type;
  event.withinMs = withinMs;
  return true;
}

const words = {
  active: ['returned', 'raised'],
  stale: ['signal_restored', 'signal_stale'],
  chattering: ['chattering_ended', 'chattering'],
  bad: ['signal_good', 'signal_bad'],
} as const;

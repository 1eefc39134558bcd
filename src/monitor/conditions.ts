/**
 * What a monitor tells and what comes and goes: then it is told once, as that, and is silent until it has been steady,
 * by the rule of alarms that chatter, if the configuration asks for it. Only events are held: verdict and state have it
 * all.
 */
import { figureNames } from '../reading/rules.ts';
import { areRaises, type Chattering, isTooOften, movedTimes, steadyFrom, withRaise } from '../state/chattering.ts';
import { isPacked, packTime, packWhole, timeChars, wholeAt } from '../state/packed.ts';
import type { Draft } from './draft.ts';
import type { Condition, ConditionEvent, MonitorEvent, MonitorState, PreparedMonitor } from './types.ts';

type Conditions = NonNullable<MonitorState['conditions']>;

type Told = Exclude<Condition, 'quality_bad' | 'target_stale'>;

/** Those that a state keeps by the word of their event; the others by their figure. */
const toldByWord: readonly Told[] = [
  'readings_stale',
  'code_unused',
  'late',
  'too_late',
  'repeated',
  'contradicted',
  'set_aside',
];

/** How often one has come untold is kept in so many characters, and counted up to there. */
const untoldChars = 5;
const mostUntold = 6240321450;
/** What is kept of one that comes and goes: its last change, and how often it has come since untold. */
export const goingChars: number = timeChars + untoldChars;

/**
 * Tells that a condition has come (`on`) or gone. One that comes and goes is silent, but for what is told `always`:
 * then a state keeps its last change, and else its last raises.
 */
export function tell(
  { chattering }: PreparedMonitor,
  draft: Draft,
  key: string,
  on: boolean,
  event: MonitorEvent,
  events: MonitorEvent[],
  always = false,
): void {
  const isQuiet = chattering !== undefined && isHeld(draft, key, event.time, on && !always);
  if (!isQuiet || always) events.push(event);
  if (isQuiet || !on || chattering === undefined) return;
  const { time } = event;
  const { raises, withinMs } = chattering;
  const before = textFor(draft, key) ?? '';
  const now = packTime(time);
  // readings that were held back and come in one go have come once; a clock that stands still does not
  if (key !== 'contradicted' && before.slice(-timeChars) === now) return;
  const times = withRaise(chattering, before, time);
  // where no time passes none tells when it would be steady
  if (isTooOften(chattering, times) && times.slice(0, timeChars) !== now) {
    const since = steadyFrom(chattering, times.slice(0, timeChars)) - withinMs;
    events.push({ time, event: 'condition_chattering', ...aboutOf(key), raises, since, withinMs });
    keep(draft, key, goingText(now, 0));
  } else keep(draft, key, times.slice((1 - raises) * timeChars));
}

/** Whether a condition comes and goes; a change of it is noted then, and counted where it has come. */
export function isHeld(draft: Draft, key: string, time: number, counts: boolean): boolean {
  const text = textFor(draft, key);
  if (!isGoing(text)) return false;
  keep(draft, key, goingText(packTime(time), untoldIn(text) + (counts ? 1 : 0)));
  return true;
}

/**
 * Whether it names an alarm that none out of order has named for so long: that is told, whatever comes and goes. The
 * alarms note when they were named.
 */
export function namesAnew(
  { chattering }: PreparedMonitor,
  draft: Draft,
  beyond: readonly string[],
  time: number,
): boolean {
  if (chattering === undefined || beyond.length === 0) return false;
  let isAnew = false;
  draft.alarms = draft.alarms.map((alarm) => {
    if (beyond.indexOf(alarm.id) < 0) return alarm;
    if (!isNamed(chattering, alarm.named, time)) isAnew = true;
    return { ...alarm, named: time };
  });
  return isAnew;
}

/** Whether a time at which an alarm was named still counts. */
export function isNamed(chattering: Chattering | undefined, named: number | undefined, time: number): named is number {
  return named !== undefined && chattering !== undefined && time - named <= chattering.withinMs;
}

/** Brings all conditions to a time. */
export function passConditions(
  prepared: PreparedMonitor,
  draft: Draft,
  last: number,
  time: number,
  events: MonitorEvent[],
): void {
  for (const [key] of draft.conditions ?? []) passCondition(prepared, draft, key, last, time, events);
}

/**
 * Brings one to a time: if it has been steady it is over, at its own time but not before the last, and how it stands is
 * told; raises of too long ago are forgotten.
 */
export function passCondition(
  { chattering }: PreparedMonitor,
  draft: Draft,
  key: string,
  last: number,
  time: number,
  events: MonitorEvent[],
): void {
  const text = textFor(draft, key);
  if (text === undefined) return;
  const from = chattering === undefined ? -Infinity : steadyFrom(chattering, timesIn(text));
  if (!(time > from)) return;
  if (!isGoing(text)) {
    keep(draft, key, null);
    return;
  }
  const at = Math.max(last, from);
  endGoing(draft, key, at, events);
  tellStanding(draft, key, at, events);
}

/** One that comes and goes is over. */
export function endGoing(draft: Draft, key: string, time: number, events: MonitorEvent[]): void {
  const text = textFor(draft, key);
  if (!isGoing(text)) return;
  events.push({ time, event: 'condition_chattering_ended', ...aboutOf(key), untold: untoldIn(text) });
  keep(draft, key, null);
}

/** How one stands that has been steady. Nothing stands of readings out of order but a clock in doubt. */
function tellStanding(draft: Draft, key: string, time: number, events: MonitorEvent[]): void {
  const { condition, figure = '' } = aboutOf(key);
  const standing = true;
  if (condition === 'quality_bad') {
    const isBad = draft.bad !== undefined && draft.bad.indexOf(key) >= 0;
    events.push({ time, event: isBad ? 'quality_bad' : 'quality_restored', figure, standing });
  } else if (condition === 'readings_stale') {
    if (draft.stale === true) events.push({ time, event: condition, since: draft.heard as number, standing });
    else events.push({ time, event: 'readings_restored', standing });
  } else if (condition === 'target_stale') {
    for (const { id, heard, stale } of draft.targets ?? []) {
      if (key !== `code ${id}`) continue;
      if (stale === true) events.push({ time, event: condition, figure, since: heard, standing });
      else events.push({ time, event: 'target_restored', figure, standing });
    }
  } else if (condition === 'set_aside') {
    if (draft.clock?.ahead === undefined) events.push({ time, event: 'clock_kept', standing });
  } else if (condition === 'code_unused') {
    // the next reading with such codes tells which
    delete draft.unused;
  }
}

/** The same on a clock that has been set by so much. */
export function movedConditions(conditions: Conditions, by: number): Conditions {
  return conditions.map(([key, text]) => [
    key,
    isGoing(text) ? goingText(movedTimes(timesIn(text), by), untoldIn(text)) : movedTimes(text, by),
  ]);
}

/** Whether saved conditions are such as are kept, each once. */
export function areConditions(conditions: Conditions): boolean {
  return conditions.every(([key, text], i) => {
    const isKnown = toldByWord.indexOf(key as Told) >= 0 || aboutOf(key).figure !== undefined;
    const isOnce = conditions.every(([other], k) => k >= i || other !== key);
    return isKnown && isOnce && areRaises(timesIn(text)) && isPacked(text, 1, text.length);
  });
}

/** A figure stands for its being bad, a code for its target being stale; others for themselves. */
function aboutOf(key: string): Pick<ConditionEvent, 'condition' | 'figure'> {
  if (figureNames.indexOf(key as never) >= 0 || key.slice(0, 6) === 'other ')
    return { condition: 'quality_bad', figure: key };
  if (key.slice(0, 5) === 'code ') return { condition: 'target_stale', figure: key };
  return { condition: key as Told };
}

function isGoing(text: string | undefined): text is string {
  return text !== undefined && text.length === goingChars;
}

function timesIn(text: string): string {
  return isGoing(text) ? text.slice(0, timeChars) : text;
}

function goingText(lastChange: string, untold: number): string {
  return lastChange + packWhole(Math.min(untold, mostUntold), untoldChars);
}

function untoldIn(text: string): number {
  return wholeAt(text, timeChars, untoldChars);
}

/** What is kept of one; undefined where it has not come of late. */
function textFor({ conditions }: MonitorState, key: string): string | undefined {
  if (conditions !== undefined) for (const [other, text] of conditions) if (other === key) return text;
  return undefined;
}

/** With another text for one of them, or without it. */
function keep(draft: Draft, key: string, text: string | null): void {
  const next = (draft.conditions ?? []).filter(([other]) => other !== key);
  if (text !== null) next.push([key, text]);
  if (next.length > 0) draft.conditions = next;
  else delete draft.conditions;
}

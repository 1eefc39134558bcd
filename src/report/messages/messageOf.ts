/**
 * An event as a message: a subject, one line, a paragraph, for whatever sends it.
 */

import { alarmEventMembers } from '../../alarm/eventMembers.ts';
import { requireMembers, requireObject, requireOneOf, requireText } from '../../checks.ts';
import type { ConfigurationEvent, MonitorEvent, RejectedEvent } from '../../monitor/index.ts';
import { shown } from '../../numeric/shown.ts';
import type { EventWord } from '../texts/eventTypes.ts';
import { fill, localized, type Places, whole } from '../texts/fill.ts';
import { durationText } from '../texts/measures.ts';
import { requireTexts } from '../texts/requireTexts.ts';
import type { Texts } from '../texts/types.ts';
import { dateTimeText, isTime, offsetAt, requireTime, type UtcOffset, zoneText } from '../timeText.ts';
import { expectation, receivedText } from './expectedText.ts';
import { figureName, figureValue } from './figureTexts.ts';

/** What is sent. */
export interface EventMessage {
  readonly subject: string;
  /** At most 160 characters, as one text message holds. */
  readonly line: string;
  readonly paragraph: string;
}

/** How to write it. */
export interface MessageOptions {
  /** The machine; stands before the subject. */
  readonly unit?: string;
  /** Minutes ahead of UTC in which times are written, or a function of the time that gives them; 0 where left out. */
  readonly utcOffsetMinutes?: UtcOffset;
}

/** Every member that an event of a monitor may have. */
type AnyEvent = { readonly event: EventWord; readonly time: number } & Readonly<{
  [name: string]: unknown;
}>;

const longestLine = 160;

/** The members of any kind of event; those that an alarm's has too are not written again. */
type MembersOf<One> = One extends unknown ? keyof One : never;
/** What is put into words: an event of a monitor, or of a unit's record, with its id or without. */
type Told = MonitorEvent | RejectedEvent | ConfigurationEvent;
const otherMembers: Readonly<Record<Exclude<MembersOf<Told>, keyof typeof alarmEventMembers>, true>> = {
  reading: true,
  beyond: true,
  judged: true,
  followed: true,
  findings: true,
  from: true,
  to: true,
  lost: true,
  codes: true,
  kind: true,
  direction: true,
  before: true,
  after: true,
  parameter: true,
  received: true,
  expected: true,
  configuration: true,
  kept: true,
  dropped: true,
  added: true,
};

/**
 * Puts an event of an alarm, a monitor or a unit into words: a subject, one line of at most 160 characters, and a
 * paragraph with the time and all that the event tells: priority, note, who and why.
 *
 * A line that would be longer is cut at a word and ends with `…`; the paragraph is never cut.
 *
 * @param event of `advanceMonitor`, `advanceUnit` or `advanceAlarm`
 * @param texts the words of another language; English where left out
 * @throws `wrong_type`, `unknown_option` for what is no such event, and for a member that none has.
 *
 * @example
 * ```ts
 * import { messageOf } from 'motescale/report';
 * const figures = { figure: 'celsius', value: 67.2, setpoint: 65, priority: 'high' } as const;
 * const event = { time: 1795593600000, event: 'raised', alarm: 'hot', ...figures } as const;
 * const message = messageOf(event, undefined, { unit: 'Lock 3' });
 * message.subject; // => 'Lock 3: hot: alarm raised'
 * message.line; // => 'Lock 3: hot: alarm raised. Temperature is 67.2 °C, beyond 65 °C.'
 * message.paragraph; // => 'Temperature is 67.2 °C, beyond 65 °C. Priority: high. Time: 2026-11-25 08:00 (UTC).'
 * ```
 */
export function messageOf(
  event: MonitorEvent | RejectedEvent | ConfigurationEvent,
  texts?: Texts,
  options: MessageOptions = {},
): EventMessage {
  const words = requireTexts(texts, 'texts');
  const members = [...Object.keys(alarmEventMembers), ...Object.keys(otherMembers)];
  requireObject(event, 'event', 'an event of advanceMonitor, advanceUnit or advanceAlarm', members);
  requireOneOf(event.event, 'event.event', Object.keys(words.events.words) as EventWord[]);
  requireTime(event.time, 'event.time');
  requireMembers(requireObject(options, 'options'), 'options', ['unit', 'utcOffsetMinutes']);
  const offset = offsetAt(options.utcOffsetMinutes, 'options.utcOffsetMinutes');
  const told = event as unknown as AnyEvent;
  const at = (time: unknown) =>
    isTime(time) ? dateTimeText(time, offset(time)).slice(0, 16) : words.events.unknownTime;
  const places = placesOf(told, words, at);
  const template = words.events.words[event.event];
  const unit = options.unit === undefined ? '' : `${requireText(options.unit, 'options.unit')}: `;
  const subject = unit + oneLine(fill(template.subject, places));
  const { type } = told;
  const isChange = type === 'rise' || type === 'fall';
  const sentence = oneLine(fill(isChange ? words.events.changes[type] : template.sentence, places));
  const zone = zoneText(offset(event.time));
  const time = fill(words.events.details.time, { time: at(event.time), zone });
  return {
    subject,
    line: cut(`${subject}. ${sentence}`),
    paragraph: [sentence, ...detailsOf(told, words), time].join(' '),
  };
}

function placesOf(event: AnyEvent, texts: Texts, at: (time: unknown) => string): Places {
  const { events } = texts;
  const figure = typeof event.figure === 'string' ? event.figure : '';
  const isCode = typeof event.code === 'string';
  const inUnit = (value: unknown, beside: unknown) =>
    typeof value === 'number' || typeof value === 'string' ? figureValue(figure, value, beside, texts) : '';
  const numberIn = (list: unknown) => (Array.isArray(list) ? whole(list.length, texts) : '');
  const numberOf = (value: unknown) => (typeof value === 'number' ? localized(shown(value), texts) : '');
  const { state, reason, direction } = event as {
    readonly state?: keyof typeof events.states;
    readonly reason?: keyof typeof events.reasons;
    readonly direction?: 'up' | 'down';
  };
  return {
    alarm: textOf(event.alarm),
    followed: textOf(event.followed),
    figure: figure === '' ? textOf(event.alarm) : figureName(figure, texts),
    // an alarm on a code counts classes; the code itself says more
    value: isCode ? textOf(event.code) : inUnit(event.value, event.setpoint),
    setpoint: inUnit(event.setpoint, event.value),
    code: textOf(event.code),
    mode: textOf(event.mode),
    until: at(event.until),
    since: at(event.since),
    reading: at(event.reading),
    from: at(event.from),
    to: at(event.to),
    before: numberOf(event.before),
    after: numberOf(event.after),
    limit: numberOf(event.limit),
    parameter: textOf(event.parameter),
    received: receivedText(textOf(event.received), texts),
    expected: typeof event.expected === 'string' ? expectation(event.expected, texts) : '',
    configuration: textOf(event.configuration),
    kept: numberIn(event.kept),
    dropped: numberIn(event.dropped),
    added: numberIn(event.added),
    codes: Array.isArray(event.codes) ? event.codes.join(', ') : '',
    state: state === undefined ? '' : (events.states[state] ?? state),
    reason: reason === undefined ? '' : (events.reasons[reason] ?? reason),
    direction: direction === undefined ? '' : (events.directions[direction] ?? direction),
    within: typeof event.withinMs === 'number' ? durationText(event.withinMs / 60000, texts) : '',
    side: isBelow(event) ? events.sides.below : events.sides.beyond,
  };
}

/** Only an alarm of type `low` is raised by a value below its setpoint. */
function isBelow({ value, setpoint }: AnyEvent): boolean {
  return typeof value === 'number' && typeof setpoint === 'number' && value < setpoint;
}

/** What the event tells beside its sentence, in a fixed order. */
function detailsOf(event: AnyEvent, texts: Texts): string[] {
  const { details, priorities } = texts.events;
  const parts: string[] = [];
  const add = (template: string, places: Places = {}) => parts.push(oneLine(fill(template, places)));
  const priority = event.priority as keyof typeof priorities | undefined;
  if (event.standing === true) add(details.standing);
  if (event.latched === true) add(details.latched);
  if (typeof event.times === 'number') add(details.times, { number: whole(event.times, texts) });
  if (typeof event.silentRaises === 'number') add(details.silentRaises, { number: whole(event.silentRaises, texts) });
  if (Array.isArray(event.findings)) {
    if (event.findings.length === 0) add(details.byInstrument);
    else add(details.findings, { findings: event.findings.map((code) => nameOfFinding(code, texts)).join(', ') });
  }
  if (Array.isArray(event.beyond) && event.beyond.length > 0) add(details.beyond, { alarms: event.beyond.join(', ') });
  for (const name of ['judged', 'lost'] as const) {
    const times = event[name];
    if (Array.isArray(times) && times.length > 0) add(details[name], { number: whole(times.length, texts) });
  }
  if (priority !== undefined) add(details.priority, { priority: priorities[priority] ?? priority });
  if (typeof event.note === 'string') add(details.note, { note: event.note });
  if (typeof event.by === 'string') add(details.by, { by: event.by });
  if (typeof event.why === 'string') add(details.why, { why: event.why });
  return parts;
}

function nameOfFinding(code: unknown, { events }: Texts): string {
  const names: { readonly [code: string]: string } = events.findingNames;
  const word = String(code);
  return Object.keys(names).indexOf(word) >= 0 ? (names[word] as string) : word;
}

function textOf(value: unknown): string {
  return typeof value === 'string' ? value : '';
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}

/** At most 160 characters, cut at a word where there is one. */
function cut(text: string): string {
  if (text.length <= longestLine) return text;
  const part = text.slice(0, longestLine - 1);
  const blank = part.lastIndexOf(' ');
  return `${blank > longestLine / 2 ? part.slice(0, blank) : part}…`;
}

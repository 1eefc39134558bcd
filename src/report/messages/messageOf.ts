/** An event as a message: a subject, one line, a paragraph, for whatever sends it. */
import { alarmEventMembers } from '../../alarm/eventMembers.ts';
import {
  isFiniteNumber,
  requireFinite,
  requireObject,
  requireOneOf,
  requireText,
  requireWholeWithin,
} from '../../checks.ts';
import { requireSizing } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/index.ts';
import { motescaleError } from '../../errors.ts';
import type { ConfigurationEvent, MonitorEvent, RejectedEvent } from '../../monitor/index.ts';
import { requireTexts } from '../texts/english.ts';
import type { EventText, EventWord } from '../texts/eventTypes.ts';
import { durationText, fill, type Places, whole, wordIn } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { haveSeveral, isTime, minuteText, momentText, offsetAt, type UtcOffset, zoneText } from '../timeText.ts';
import { expectation, receivedText } from './expectedText.ts';
import { figureName, figureValue } from './figureTexts.ts';

/** What is sent. */
export interface EventMessage {
  readonly subject: string;
  /**
   * At most 160 characters, or as many as `longestLine` says. One text message holds 160 of the 7-bit alphabet of
   * 3GPP TS 23.038 and 70 where one is outside it (from memory): `°`, `µ`, `²` and `…` are, so a line of 160 with one
   * of them takes up to three messages.
   */
  readonly line: string;
  readonly paragraph: string;
}

/** How to write it. */
export interface MessageOptions {
  /** The machine; stands before the subject. */
  readonly unit?: string | undefined;
  /** Minutes ahead of UTC in which times are written, or a function of the time that gives them; 0 where left out. */
  readonly utcOffsetMinutes?: UtcOffset | undefined;
  /**
   * How long `line` may be: 160 characters where left out, 20 to 1600. Null: it is never cut, as a page has it, which
   * breaks lines itself.
   */
  readonly longestLine?: number | null | undefined;
  /** How the counts of the monitor are sized, for the unit beside a size: `iso11171`, µm(c), where left out. */
  readonly sizing?: Sizing | undefined;
}

/** Every member that an event of a monitor may have. */
type AnyEvent = { readonly event: EventWord; readonly time: number } & Readonly<{ [name: string]: unknown }>;

/** Members that stand in a sentence as they came, as a moment, and by their number. */
const asTheyCame = ['alarm', 'followed', 'code', 'mode', 'parameter', 'configuration'];
const moments = ['until', 'since', 'reading', 'from', 'to'];
const lists = ['kept', 'dropped', 'added'];

const usualLine = 160;
/** What `longestLine` may be (our choice). */
const [shortestLine, mostAsked] = [20, 1600] as const;
/** What the name of the unit may take of a line that is cut: 60 of 160 (our choice). */
const unitShare = 3 / 8;

/** The members of any kind of event; those that an alarm's has too are not written again. */
type MembersOf<One> = One extends unknown ? keyof One : never;
/** What is put into words: an event of a monitor, or of a unit's record, with its id or without. */
type Told = MonitorEvent | RejectedEvent | ConfigurationEvent;
const otherMembers: Readonly<Record<Exclude<MembersOf<Told>, keyof typeof alarmEventMembers>, true>> = {
  reading: true,
  beyond: true,
  judged: true,
  followed: true,
  finding: true,
  findings: true,
  lost: true,
  codes: true,
  kind: true,
  direction: true,
  before: true,
  after: true,
  meanOverMs: true,
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
 * paragraph that says the same with the time and all that the event tells: priority, note, who and why.
 *
 * A line that would be longer is cut at a word and ends with `…`, a name of the unit beyond 60 of the 160 first; the
 * paragraph is never cut, nor a line with `longestLine: null`. Line ends, control characters and embeddings of
 * direction in names and texts become blanks; all else stands as it came. They are plain text: a page or a mail in HTML
 * has to escape them.
 *
 * @param event of `advanceMonitor`, `advanceUnit` or `advanceAlarm`
 * @param texts the words of another language; English where left out
 * @throws `wrong_type`, `unknown_option` for what is no such event, for a member that none has, and for one that is
 *   missing where the words tell it.
 *
 * @example
 * ```ts
 * import { messageOf } from 'motescale/report';
 * const figures = { figure: 'celsius', value: 67.2, setpoint: 65, priority: 'high' } as const;
 * const event = { time: 1795593600000, event: 'raised', alarm: 'hot', ...figures } as const;
 * const message = messageOf(event, undefined, { unit: 'Lock 3' });
 * message.subject; // => 'Lock 3: hot: alarm raised'
 * message.line; // => 'Lock 3: hot: alarm raised. Temperature is 67.2 °C, beyond 65 °C.'
 * message.paragraph.slice(0, 64); // => 'Lock 3: hot: alarm raised. Temperature is 67.2 °C, beyond 65 °C.'
 * message.paragraph.slice(65); // => 'Priority: high. Time: 2026-11-25 08:00 (UTC).'
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
  requireFinite(event.time, 'event.time', 'ms since 1970-01-01T00:00:00Z');
  requireObject(options, 'options', undefined, ['unit', 'utcOffsetMinutes', 'sizing', 'longestLine']);
  const sizing = requireSizing(options.sizing ?? 'iso11171', 'options.sizing');
  const longest = longestOf(options);
  const offset = offsetAt(options);
  const told = event as unknown as AnyEvent;
  const template = templateOf(told, words);
  const sentences = [template.subject, sentenceOf(told, template, words)] as const;
  const when = isTime(told.taken) ? told.taken : event.time;
  const offsets = [when, ...timesTold(sentences.join(' '), told)].filter(isTime).map((time) => offset(time));
  const zoned = haveSeveral(offsets);
  const at = (time: unknown) => (isTime(time) ? momentText(time, offset(time), zoned) : words.events.unknownTime);
  const places = placesOf(told, words, sizing, at);
  const unit = options.unit === undefined ? '' : oneLine(requireText(options.unit, 'options.unit')).trim();
  const written = (text: string) => oneLine(fill(requireTold(text, places, told), places));
  const what = written(sentences[0]);
  const subject = withUnit(unit, what);
  const sentence = isRaised1(told) ? '' : written(sentences[1]);
  const beyond = beyondOf(told, words);
  const missed = told.silentRaises === 0 ? '' : silentRaisesOf(told, words);
  const time = isTime(when) ? timeOf(when, offset(when), words) : words.events.details.timeUnknown;
  return {
    subject,
    line: lineOf(unit, joined([`${what}.`, ...beyond, missed, sentence, ...stateOf(told, words)]), longest),
    paragraph: joined([`${subject}.`, sentence, ...detailsOf(told, words, beyond, at), time]),
  };
}

/** One that version 0.1.0 told: what was raised, and a value without a unit, or of classes. Its value says nothing. */
function isRaised1({ event, setpoint, priority }: AnyEvent): boolean {
  return event === 'raised' && setpoint === undefined && priority === undefined;
}

/** What stands for a figure that an event does not name; version 0.1.0 named none of a change. */
function bareName({ event, alarm, followed }: AnyEvent): string {
  return textOf(event === 'change_found' ? followed : alarm);
}

function joined(sentences: readonly string[]): string {
  return sentences.filter((one) => one !== '').join(' ');
}

/** When it was, as a sentence. */
function timeOf(time: number, offset: number, { events }: Texts): string {
  return fill(events.details.time, { time: minuteText(time, offset), zone: zoneText(offset) });
}

/** The moments that a template names. */
function timesTold(template: string, event: AnyEvent): unknown[] {
  return moments.filter((name) => template.indexOf(`{${name}}`) >= 0).map((name) => event[name]);
}

/**
 * That of an alarm on a change, of one on a code that no reading comes with, or of the event. What is told after a
 * silence is no longer beyond its setpoint for sure.
 */
function sentenceOf(event: AnyEvent, { sentence }: EventText, { events }: Texts): string {
  const change = changeOf(event);
  if (change !== null) return event.event === 'returned' ? events.settled[change].sentence : events.changes[change];
  const { value, code } = event;
  if (event.event !== 'raised' && event.event !== 're_alarmed') return sentence;
  if (isOnCode(event) && code === undefined && isFiniteNumber(value))
    return events.code[value > 0 ? 'beyond' : 'within'];
  return event.standing === true ? events.words.re_alarmed.sentence : sentence;
}

function isOnCode({ figure }: AnyEvent): boolean {
  return textOf(figure).slice(0, 5) === 'code ';
}

/** The words of an event that means two things. */
function templateOf(told: AnyEvent, { events }: Texts): EventText {
  const { event, latched, kind, since, from, to, state } = told;
  if (event === 'raised' && (state === 'latched_unacknowledged' || state === 'latched_acknowledged'))
    return { ...events.words.raised, subject: events.wasRaised };
  if (event === 'returned' && latched === true) return events.latched;
  const change = changeOf(told);
  if (event === 'returned' && change !== null) return events.settled[change];
  if (event === 'unsuppressed' && since !== undefined) return events.unsaid;
  // one of before has a date here that is none
  if (event === 'change_found' && (kind === 'slow' || kind === 'drift')) return events.crept;
  return event === 'clock_set' && (to as number) > (from as number) ? events.ahead : events.words[event];
}

/** The alarms whose setpoint a reading out of order lies beyond, as a sentence; empty where there is none. */
function beyondOf(event: AnyEvent, { events }: Texts): readonly string[] {
  const alarms = namesIn(event, 'beyond');
  return alarms.length === 0 ? [] : [oneLine(fill(events.details.beyond, { alarms: alarms.join(', ') }))];
}

/** Raises of a silence that is over, as a sentence; empty where the event tells none. */
function silentRaisesOf({ silentRaises }: AnyEvent, texts: Texts): string {
  if (!isFiniteNumber(silentRaises)) return '';
  return fill(texts.events.details.silentRaises, { number: whole(silentRaises, texts) });
}

/** What an alarm on a change watches; null for any other event. */
function changeOf({ type }: AnyEvent): 'rise' | 'fall' | null {
  return type === 'rise' || type === 'fall' ? type : null;
}

/** A template that has no hole: the event tells all that its words do. What was expected may have no words. */
function requireTold(template: string, places: Places, event: AnyEvent): string {
  template.split(/\{(\w+)\}/).forEach((name, i) => {
    if (i % 2 === 0 || places[name] !== '' || name === 'expected') return;
    const member = name === 'within' ? 'withinMs' : name;
    throw motescaleError('wrong_type', `event.${member}`, event[member], `what an event '${event.event}' tells`);
  });
  return template;
}

function placesOf(event: AnyEvent, words: Texts, sizing: Sizing, at: (time: unknown) => string): Places {
  const { events } = words;
  const figure = textOf(event.figure);
  const change = changeOf(event);
  const inUnit = (value: unknown, beside: unknown) =>
    isFiniteNumber(value) || typeof value === 'string'
      ? figureValue(figure, value, beside, change !== null, words)
      : '';
  const reason = wordOf(event, 'reason', events.reasons);
  const limit = isFiniteNumber(event.limit) ? durationText(event.limit / 60000, words, 'down') : '';
  const places: { [name: string]: string } = {};
  for (const name of asTheyCame) places[name] = textOf(event[name]);
  for (const name of moments) places[name] = at(event[name]);
  for (const name of lists) {
    const list = event[name];
    places[name] = Array.isArray(list) ? whole(list.length, words) : '';
  }
  return {
    ...places,
    figure: figure === '' ? bareName(event) : figureName(figure, words, sizing),
    // an alarm on a code counts classes; the code itself says more
    value: typeof event.code === 'string' && change === null ? event.code : inUnit(event.value, event.setpoint),
    setpoint: inUnit(event.setpoint, event.value),
    number: isFiniteNumber(event.value) ? whole(Math.abs(event.value), words) : '',
    before: inUnit(event.before, event.after),
    after: inUnit(event.after, event.before),
    received: receivedText(textOf(event.received), words),
    expected: typeof event.expected === 'string' ? expectation(event.expected, words) : '',
    codes: namesIn(event, 'codes').join(', '),
    finding: wordOf(event, 'finding', events.findingNames),
    state: wordOf(event, 'state', events.states),
    reason: fill(requireTold(reason, { limit }, event), { limit }),
    direction: wordOf(event, 'direction', events.directions),
    within: isFiniteNumber(event.withinMs) ? durationText(event.withinMs / 60000, words) : '',
    side: isBelow(event) ? events.sides.below : events.sides.beyond,
  };
}

/** Only an alarm of type `low` is raised by a value below its setpoint. */
function isBelow({ value, setpoint }: AnyEvent): boolean {
  return typeof value === 'number' && typeof setpoint === 'number' && value < setpoint;
}

/** How an alarm stands after a silence, as a sentence: whether someone still has to acknowledge it. */
function stateOf(event: AnyEvent, texts: Texts): readonly string[] {
  const state = event.standing === true ? wordOf(event, 'state', texts.events.states) : '';
  return state === '' ? [] : [oneLine(fill(texts.events.details.state, { state }))];
}

/** What the event tells beside its sentence, in a fixed order. */
function detailsOf(event: AnyEvent, texts: Texts, beyond: readonly string[], at: (time: unknown) => string): string[] {
  const { details, priorities } = texts.events;
  const parts: string[] = [];
  const add = (template: string, places: Places = {}) => parts.push(oneLine(fill(template, places)));
  const priority = wordOf(event, 'priority', priorities);
  if (event.standing === true) add(details.standing);
  parts.push(...stateOf(event, texts));
  if (event.event === 'dropped' && event.since !== undefined) add(details.stale, { since: at(event.since) });
  const { meanOverMs } = event;
  if (isFiniteNumber(meanOverMs)) add(details.mean, { within: durationText(meanOverMs / 60000, texts) });
  if (isFiniteNumber(event.times)) add(details.times, { number: whole(event.times, texts) });
  parts.push(silentRaisesOf(event, texts));
  if (Array.isArray(event.findings)) {
    const findings = namesIn(event, 'findings').map((code) => wordIn(texts.events.findingNames, code));
    if (findings.length === 0) add(details.byInstrument);
    else add(details.findings, { findings: findings.join(', ') });
  }
  parts.push(...beyond);
  for (const name of ['judged', 'lost'] as const) {
    const times = event[name];
    if (Array.isArray(times) && times.length > 0) add(details[name], { number: whole(times.length, texts) });
  }
  if (priority !== '') add(details.priority, { priority });
  if (typeof event.note === 'string') add(details.note, { note: event.note });
  if (typeof event.by === 'string') add(details.by, { by: event.by });
  if (typeof event.why === 'string') add(details.why, { why: event.why });
  return parts;
}

/** The words for a member of the event; empty where it is left out. */
function wordOf(event: AnyEvent, member: string, words: Readonly<Record<string, string>>): string {
  const value = event[member];
  return value === undefined ? '' : wordIn(words, requireText(value, `event.${member}`));
}

/** The texts of a list; none where it is no list. */
function namesIn(event: AnyEvent, member: string): string[] {
  const list = event[member];
  return Array.isArray(list) ? list.map((name, i) => requireText(name, `event.${member}[${i}]`)) : [];
}

function textOf(value: unknown): string {
  return typeof value === 'string' ? value : '';
}

/**
 * Without line ends and control characters, and those that turn the direction of what follows: a subject goes into the
 * header of a mail.
 */
function oneLine(text: string): string {
  // the other characters, since small engines know fewer blanks by \s
  return text.replace(/(?:\s|[^ -~\u00A0-\u2027\u202F-\u2065\u206A-\uFFFF])+/g, ' ');
}

function withUnit(unit: string, text: string): string {
  return unit === '' ? text : `${unit}: ${text}`;
}

function longestOf({ longestLine }: MessageOptions): number {
  if (longestLine === null) return Infinity;
  if (longestLine === undefined) return usualLine;
  requireWholeWithin(longestLine, 'options.longestLine', shortestLine, mostAsked);
  return longestLine;
}

/** No longer than that. A long name of the unit leaves the larger part of it to what it has. */
function lineOf(unit: string, text: string, longest: number): string {
  const room = longest - ': '.length - text.length;
  return cut(withUnit(cut(unit, Math.max(room, Math.floor(longest * unitShare))), text), longest);
}

/** Cut at a word where there is one. */
function cut(text: string, longest: number): string {
  if (text.length <= longest) return text;
  const part = text.slice(0, longest - 1);
  const blank = part.lastIndexOf(' ');
  return `${blank > longest / 2 ? part.slice(0, blank) : part}…`;
}

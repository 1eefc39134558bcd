/**
 * How alarms behaved over a period, counted from their events: which come too often, which stand too long, and the
 * worst flood.
 */
import { requireArray, requireFinite, requireMembers, requireObject, requireRange } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { farthest, largestWhole } from '../rules/bounds.ts';
import type { Writable } from '../state/writable.ts';
import { alarmEventMembers } from './eventMembers.ts';
import { asTheyCame, countBefore, isLeap } from './eventOrder.ts';
import { endsStanding } from './standing.ts';
import type { AlarmEvent } from './types.ts';

const tenMinutes = 600000;
const worst = 10;

/** One alarm over a period. */
export interface AlarmFigures {
  readonly alarm: string;
  /** Raises that were told when they came. */
  readonly raises: number;
  /** How often it fell due to be raised anew while it stood, told or only counted by a later event (`times`). */
  readonly reAlarms: number;
  /** Raises while it was silent, as far as a silence that has ended told them. */
  readonly silentRaises: number;
  /** How much of the period it was raised, and how much it was shelved, in ms; never more than the period has. */
  readonly standingMs: number;
  readonly shelvedMs: number;
}

/** All alarms over a period. */
export interface AlarmStatistics {
  readonly from: number;
  readonly to: number;
  readonly raises: number;
  readonly reAlarms: number;
  readonly silentRaises: number;
  readonly standingMs: number;
  readonly shelvedMs: number;
  /** Every alarm that an event names, those with the most raises first; of equal ones that which stood longest. */
  readonly alarms: readonly AlarmFigures[];
  /** The first ten of them that were raised at all. */
  readonly worst: readonly string[];
  /**
   * The greatest number of raises and re-alarms that were told in ten minutes, both ends counted, and when those ten
   * minutes ended; null where there was none.
   */
  readonly flood: { readonly raises: number; readonly to: number } | null;
}

/**
 * Raises, times and the greatest flood of a period.
 *
 * An alarm is raised from its `raised` to its `returned` or `dropped`, and shelved from `shelved` to `unshelved`,
 * `dropped` or `until`; what began before the period counts from its beginning, so hand in the events from before it
 * too. An event that says when its reading was `taken` counts as of then. Where a `clock_set` or `clock_set_back` is
 * among them, its leap is left out, and a time that the clock showed twice counts once; what a clock that was set dates
 * outside the period, between events of it, counts as of the last one before. What happened in a silence is known only
 * by the `standing` events after it.
 *
 * @param events of `advanceAlarm` or `advanceMonitor`, in the order they came, of one machine; those that name no alarm
 *   are passed over, but for `clock_set`
 * @param period `from` up to, not including, `to`, in ms since 1970
 * @throws `wrong_type`; `out_of_range` for a period that ends before it begins; `negative` for a `silentRaises` or
 *   `times` below 0; `unknown_option` for a member that no event of an alarm has
 *
 * @example
 * ```ts
 * import { alarmStatistics } from 'motescale/alarm';
 * const found = alarmStatistics(
 *   [
 *     { time: 0, alarm: 'hot', event: 'raised' },
 *     { time: 240000, alarm: 'hot', event: 'returned' },
 *     { time: 300000, alarm: 'hot', event: 'raised' },
 *   ],
 *   { from: 0, to: 600000 },
 * );
 * found.raises; // => 2
 * found.standingMs; // => 540000
 * found.flood; // => { raises: 2, to: 300000 }
 * ```
 */
export function alarmStatistics(
  events: readonly (AlarmEvent | { readonly time: number; readonly event: string })[],
  period: { readonly from: number; readonly to: number },
): AlarmStatistics {
  requireArray(events, 'events', 'an array of events');
  const { from, to } = requireObject(period, 'period', '{ from, to }', ['from', 'to']) as Period;
  requireTime(from, 'period.from');
  if (requireTime(to, 'period.to') < from) throw motescaleError('out_of_range', 'period.to', to, `at least ${from}`);
  const counts: Count[] = [];
  const times: number[] = [];
  const told = asTheyCame(eventsIn(events));
  for (const { own } of told) if (own.alarm !== undefined) countOf(counts, own.alarm);
  const [begin, end] = [countBefore(told, from), countBefore(told, to)];
  const isIn = (time: number) => time >= from && time < to;
  // what its own time puts into the period is of it, wherever a clock that was wrong before has put the end
  let most = end;
  for (let i = end; i < told.length; i += 1) {
    const { time, own } = told[i] as Told;
    if (isIn(own.taken ?? time)) most = i + 1;
  }
  let last: number | null = null;
  let isPast = false;
  // what a wrong clock dates elsewhere came no sooner than what was told before it
  const here = (time: number): number => {
    if (isIn(time)) last = time;
    isPast = last !== null && (isPast || isIn(time));
    return isIn(time) ? time : isPast && time >= to ? to : (last ?? Math.min(time, from));
  };
  told.forEach(({ time, from: before = time, event, own }, i) => {
    const { taken } = own;
    const when = taken ?? time;
    if (i >= most && !(taken !== undefined && taken < to)) return;
    if (isLeap({ event })) {
      isPast = false;
      const ended = isIn(before) ? before : last === null ? Math.min(before, from) : null;
      if (isIn(before)) last = before;
      const begun = here(time);
      for (const one of own.alarm === undefined ? counts : [countOf(counts, own.alarm)]) leap(one, ended, begun);
      return;
    }
    const inside = isIn(when) || (taken === undefined && i >= begin && i < end);
    take(countOf(counts, own.alarm), own, taken ?? here(time), inside);
    if (inside && (event === 're_alarmed' || (event === 'raised' && own.standing !== true))) times.push(when);
  });
  const alarms = counts
    .map((one): AlarmFigures => {
      const { alarm, raises, reAlarms, silentRaises, standing, shelves } = one;
      endStanding(one, to);
      endShelf(one, to);
      const [standingMs, shelvedMs] = [lengthIn(standing, from, to), lengthIn(shelves, from, to)];
      return { alarm, raises, reAlarms, silentRaises, standingMs, shelvedMs };
    })
    .sort((a, b) => b.raises - a.raises || b.standingMs - a.standingMs || (a.alarm < b.alarm ? -1 : 1));
  const sum = (name: Exclude<keyof AlarmFigures, 'alarm'>) => alarms.reduce((all, one) => all + one[name], 0);
  return {
    from,
    to,
    raises: sum('raises'),
    reAlarms: sum('reAlarms'),
    silentRaises: sum('silentRaises'),
    standingMs: sum('standingMs'),
    shelvedMs: sum('shelvedMs'),
    alarms,
    worst: alarms
      .filter(({ raises }) => raises > 0)
      .map(({ alarm }) => alarm)
      .slice(0, worst),
    flood: floodOf(times),
  };
}

type Period = Parameters<typeof alarmStatistics>[1];
type Span = readonly [from: number, to: number];

interface Count extends Writable<Omit<AlarmFigures, 'standingMs' | 'shelvedMs'>> {
  readonly standing: Span[];
  readonly shelves: Span[];
  raisedAt: number | null;
  shelvedAt: number | null;
  /** The end of the shelf, at the latest. */
  until: number;
}

function countOf(counts: Count[], alarm: string): Count {
  for (const one of counts) if (one.alarm === alarm) return one;
  const none = { raises: 0, reAlarms: 0, silentRaises: 0 };
  const one: Count = { alarm, ...none, standing: [], shelves: [], raisedAt: null, shelvedAt: null, until: Infinity };
  counts.push(one);
  return one;
}

/** An event of an alarm, or a clock that was set, at the time to which it was set. */
interface Told {
  readonly time: number;
  readonly from?: number;
  readonly event: string;
  readonly own: AlarmEvent;
}

/** Those that name an alarm, and where the clock was set; checked. */
function eventsIn(events: Parameters<typeof alarmStatistics>[0]): Told[] {
  const members = Object.keys(alarmEventMembers);
  const told: Told[] = [];
  for (let i = 0; i < events.length; i += 1) {
    const own = events[i] as AlarmEvent;
    const path = `events[${i}]`;
    requireObject(own, path, 'an event { time, alarm, event }');
    const { event } = own;
    if (typeof own.alarm === 'string') requireMembers(own, path, members);
    else if ((event as string) !== 'clock_set') continue;
    if (isLeap({ event })) {
      const from = requireTime(own.from, `${path}.from`);
      told.push({ time: requireTime(own.to, `${path}.to`), from, event, own });
      continue;
    }
    requireCount(own.silentRaises ?? 0, 0, `${path}.silentRaises`);
    requireCount(own.times ?? 1, 1, `${path}.times`);
    if (event === 'shelved' && own.until !== undefined) requireFinite(own.until, `${path}.until`);
    if (own.taken !== undefined) requireTime(own.taken, `${path}.taken`);
    told.push({ time: requireTime(own.time, `${path}.time`), event, own });
  }
  return told;
}

/** `at`: when it came, within the period. */
function take(one: Count, event: AlarmEvent, at: number, inside: boolean): void {
  const { silentRaises = 0, times = 1, until = Infinity } = event;
  if (inside) one.silentRaises += silentRaises;
  const what = event.event;
  if (what === 'raised') {
    if (inside && event.standing !== true) one.raises += 1;
    one.raisedAt = one.raisedAt ?? at;
  } else if (what === 're_alarmed') {
    if (inside) one.reAlarms += times;
  } else if (what === 'shelved' && one.shelvedAt === null) {
    one.shelvedAt = at;
    one.until = until + (at - event.time);
  }
  if (endsStanding(what)) endStanding(one, at);
  if (what === 'unshelved' || what === 'dropped') endShelf(one, at);
}

function endStanding(one: Count, time: number): void {
  if (one.raisedAt !== null) one.standing.push([one.raisedAt, time]);
  one.raisedAt = null;
}

function endShelf(one: Count, time: number): void {
  if (one.shelvedAt !== null) one.shelves.push([one.shelvedAt, Math.min(time, one.until)]);
  one.shelvedAt = null;
}

/**
 * Up to when the clock was set on the old one, from then on the new; a shelf keeps the time it has left. Where the old
 * one showed no time of the period (`ended` is null), what stands goes on.
 */
function leap(one: Count, ended: number | null, begun: number): void {
  if (ended === null) return;
  const { raisedAt, shelvedAt } = one;
  endStanding(one, ended);
  endShelf(one, ended);
  if (raisedAt !== null) one.raisedAt = begun;
  if (shelvedAt !== null) one.shelvedAt = begun;
  one.until += begun - ended;
}

/** How much of a time lies in any of the spans. */
function lengthIn(spans: readonly Span[], from: number, to: number): number {
  let [sum, end] = [0, from];
  for (const [begun, ended] of spans.slice().sort((a, b) => a[0] - b[0])) {
    const last = Math.min(ended, to);
    const first = Math.max(begun, end);
    if (last <= first) continue;
    sum += last - first;
    end = last;
  }
  return sum;
}

/** The most times within ten minutes. */
function floodOf(times: readonly number[]): AlarmStatistics['flood'] {
  const sorted = times.slice().sort((a, b) => a - b);
  let first = 0;
  let flood: { raises: number; to: number } | null = null;
  for (let i = 0; i < sorted.length; i += 1) {
    const to = sorted[i] as number;
    while (to - (sorted[first] as number) > tenMinutes) first += 1;
    if (flood === null || i - first + 1 > flood.raises) flood = { raises: i - first + 1, to };
  }
  return flood;
}

function requireTime(value: unknown, parameter: string): number {
  const expected = 'whole milliseconds since 1970-01-01 UTC';
  const number = requireFinite(value, parameter, expected);
  if (number !== Math.floor(number)) throw motescaleError('not_an_integer', parameter, value, expected);
  if (Math.abs(number) > farthest) throw motescaleError('out_of_range', parameter, value, expected);
  return number;
}

function requireCount(value: unknown, least: number, parameter: string): number {
  const expected = `a whole number of ${least} or more`;
  return requireRange(value, parameter, { expected, least, most: largestWhole, whole: true });
}

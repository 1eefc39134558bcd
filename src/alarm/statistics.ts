/**
 * How alarms behaved over a period, counted from their events: which come too often, which stand too long, and the
 * worst flood.
 */
import { requireArray, requireFinite, requireMembers, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { farthest } from '../rules/bounds.ts';
import type { Writable } from '../state/writable.ts';
import { alarmEventMembers } from './eventMembers.ts';
import type { AlarmEvent } from './types.ts';

const tenMinutes = 600000;
const worst = 10;

/** One alarm over a period. */
export interface AlarmFigures {
  readonly alarm: string;
  /** Raises that were told when they came. */
  readonly raises: number;
  /** Raised anew while it stood. */
  readonly reAlarms: number;
  /** Raises while it was silent, as far as a silence that has ended told them. */
  readonly silentRaises: number;
  /** How long it was raised, and how long it was shelved, within the period, in ms. */
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
   * The greatest number of raises and re-alarms in ten minutes, and when those ten minutes ended; null where there was
   * none.
   */
  readonly flood: { readonly raises: number; readonly to: number } | null;
}

/**
 * Raises, times and the greatest flood of a period.
 *
 * An alarm is raised from its `raised` to its `returned`, and shelved from `shelved` to `unshelved`; what began before
 * the period counts from its beginning, so hand in the events from before it too. What happened in a silence is known
 * only by the `standing` events after it.
 *
 * @param events of `advanceAlarm` or `advanceMonitor`, in the order they came, of one machine; those that name no alarm
 *   are passed over
 * @param period `from` up to, not including, `to`, in ms since 1970
 * @throws `wrong_type`; `out_of_range` for a period that ends before it begins; `unknown_option` for a member that no
 *   event of an alarm has
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
  const members = Object.keys(alarmEventMembers);
  for (let i = 0; i < events.length; i += 1) {
    const event = events[i] as AlarmEvent;
    requireObject(event, `events[${i}]`, 'an event { time, alarm, event }');
    if (typeof event.alarm !== 'string') continue;
    requireMembers(event, `events[${i}]`, members);
    requireTime(event.time, `events[${i}].time`);
    const inside = event.time >= from && event.time < to;
    take(countOf(counts, event.alarm), event, inside, { from, to });
    if (inside && (event.event === 're_alarmed' || (event.event === 'raised' && event.standing !== true)))
      times.push(event.time);
  }
  for (const one of counts) {
    one.standingMs += spanIn(one.raisedAt, to, { from, to });
    one.shelvedMs += spanIn(one.shelvedAt, to, { from, to });
  }
  const alarms = counts
    .map(({ raisedAt: _raised, shelvedAt: _shelved, ...figures }): AlarmFigures => figures)
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

interface Count extends Writable<AlarmFigures> {
  raisedAt: number | null;
  shelvedAt: number | null;
}

function countOf(counts: Count[], alarm: string): Count {
  for (const one of counts) if (one.alarm === alarm) return one;
  const one: Count = {
    alarm,
    raises: 0,
    reAlarms: 0,
    silentRaises: 0,
    standingMs: 0,
    shelvedMs: 0,
    raisedAt: null,
    shelvedAt: null,
  };
  counts.push(one);
  return one;
}

function take(one: Count, event: AlarmEvent, inside: boolean, period: Period): void {
  const { time, silentRaises } = event;
  if (inside && silentRaises !== undefined) one.silentRaises += silentRaises;
  switch (event.event) {
    case 'raised':
      if (inside && event.standing !== true) one.raises += 1;
      one.raisedAt = one.raisedAt ?? time;
      return;
    case 're_alarmed':
      if (inside) one.reAlarms += 1;
      return;
    case 'returned':
    case 'dropped':
      one.standingMs += spanIn(one.raisedAt, time, period);
      one.raisedAt = null;
      return;
    case 'shelved':
      one.shelvedAt = one.shelvedAt ?? time;
      return;
    case 'unshelved':
      one.shelvedMs += spanIn(one.shelvedAt, time, period);
      one.shelvedAt = null;
      return;
    default:
  }
}

function spanIn(begun: number | null, ended: number, { from, to }: Period): number {
  return begun === null ? 0 : Math.max(0, Math.min(ended, to) - Math.max(begun, from));
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

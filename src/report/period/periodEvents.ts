/** The period itself, from when to when, and what happened in it. */
import { asTheyCame, countBefore } from '../../alarm/eventOrder.ts';
import { endsStanding } from '../../alarm/standing.ts';
import { requireArray, requireBoolean, requireObject, requireOneOf, requireText } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { englishEventTexts } from '../texts/englishEvents.ts';
import type { EventWord } from '../texts/eventTypes.ts';
import { requireTime } from '../timeText.ts';

/** What happened, in words. */
export interface PeriodEvent {
  readonly time: number;
  /** Of a monitor's event that has it: it is told as of then, and of the period in which that lies. */
  readonly taken?: number | undefined;
  readonly text: string;
  /** Of an alarm which one, and the event, such as `raised` or `readings_stale`: so it is known what stands. */
  readonly alarm?: string | undefined;
  readonly event?: EventWord | undefined;
  /** Of `returned`: the alarm waits for a reset. */
  readonly latched?: boolean | undefined;
  /** Of `clock_set`: what the clock showed before. */
  readonly from?: number | undefined;
}

/** From `from`, up to but without `to`; without end where one is left out. */
export interface Period {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
}

/** Times that can be written, in their order. */
export function checkPeriod({ from, to }: Period): void {
  if (from !== undefined) requireTime(from, 'options.from');
  if (to !== undefined) requireTime(to, 'options.to');
  if (from !== undefined && to !== undefined && to <= from) {
    throw motescaleError('out_of_range', 'options.to', to, `a time after options.from, ${from}`);
  }
}

export function within<T extends { readonly time: number }>(list: readonly T[], { from, to }: Period): T[] {
  return list.filter(({ time }) => (from === undefined || time >= from) && (to === undefined || time < to));
}

export function checkEvents(events: readonly PeriodEvent[]): void {
  requireArray(events, 'options.events', 'an array of events { time, text }');
  events.forEach((event, i) => {
    const path = `options.events[${i}]`;
    requireObject(event, path, 'an event { time, text }', [
      'time',
      'taken',
      'text',
      'alarm',
      'event',
      'latched',
      'from',
    ]);
    requireTime(event.time, `${path}.time`);
    if (event.taken !== undefined) requireTime(event.taken, `${path}.taken`);
    if (event.from !== undefined) requireTime(event.from, `${path}.from`);
    requireText(event.text, `${path}.text`);
    if (event.alarm !== undefined) requireText(event.alarm, `${path}.alarm`);
    if (event.event !== undefined || event.alarm !== undefined)
      requireOneOf(event.event, `${path}.event`, Object.keys(englishEventTexts.words));
    if (event.latched !== undefined) requireBoolean(event.latched, `${path}.latched`);
  });
}

/** What goes on from one event until another, beside an alarm that stands: latches, silences, signals not known. */
const ends: { readonly [event in EventWord]?: readonly EventWord[] } = {
  returned: ['reset', 'raised', 'returned'],
  shelved: ['unshelved'],
  suppressed: ['unsuppressed'],
  removed_from_service: ['returned_to_service'],
  signal_stale: ['signal_restored'],
  signal_bad: ['signal_good'],
  readings_stale: ['readings_restored'],
};

/**
 * The events before a period, and those in it: by their time where it lies in it, else by when they were taken where
 * they say so, else as they came, so that what a wrong clock dates elsewhere stays beside what was told with it.
 */
export function eventsOf({ from, to }: Period, events: readonly PeriodEvent[]): [PeriodEvent[], PeriodEvent[]] {
  const told = asTheyCame(events);
  const countAt = (time: number | undefined, none: number) => (time === undefined ? none : countBefore(told, time));
  const [begin, end] = [countAt(from, 0), countAt(to, told.length)];
  const isBefore = (i: number, count: number, time: number | undefined) =>
    i < count || ((told[i] as PeriodEvent).taken ?? Infinity) < (time ?? -Infinity);
  const isIn = (i: number) => {
    const own = timeOf(told[i] as PeriodEvent);
    return own >= (from ?? -Infinity) && own < (to ?? Infinity);
  };
  const before = told.filter((_, i) => !isIn(i) && isBefore(i, begin, from));
  const during = told.filter((_, i) => isIn(i) || (!isBefore(i, begin, from) && isBefore(i, end, to)));
  return [before, during];
}

/** When an event is told to have been. */
export function timeOf({ time, taken = time }: PeriodEvent): number {
  return taken;
}

/** Those of the events that began what goes on after them. */
export function standingAfter(events: readonly PeriodEvent[]): PeriodEvent[] {
  let standing: PeriodEvent[] = [];
  for (const one of events) {
    const { alarm, event, latched } = one;
    if (event === undefined) continue;
    const isEnded = (began: EventWord) =>
      isRaise(began) ? endsStanding(event) : event === 'dropped' || (ends[began] ?? []).indexOf(event) >= 0;
    standing = standing.filter((other) => other.alarm !== alarm || !isEnded(other.event as EventWord));
    const begins = isRaise(event) || (event === 'returned' ? latched === true : ends[event] !== undefined);
    const isAlike = (other: PeriodEvent) =>
      other.alarm === alarm && (other.event === event || (isRaise(event) && isRaise(other.event as EventWord)));
    if (begins && !standing.some(isAlike)) standing.push(one);
  }
  return standing;
}

/** Also of an alarm that came while it stood, where the raise itself is not among the events. */
function isRaise(event: EventWord): boolean {
  return event === 'raised' || event === 're_alarmed';
}

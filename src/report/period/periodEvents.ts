/** The period itself, from when to when, and what happened in it. */
import { requireArray, requireObject, requireText } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { requireTime } from '../timeText.ts';

/** What happened, in words. */
interface PeriodEvent {
  readonly time: number;
  readonly text: string;
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

export function within<T extends { readonly time: number }>(list: readonly T[], period: Period): T[] {
  return list.filter(({ time }) => isWithin(time, period));
}

export function isWithin(time: number, { from, to }: Period): boolean {
  return (from === undefined || time >= from) && (to === undefined || time < to);
}

export function checkEvents(events: readonly PeriodEvent[]): void {
  requireArray(events, 'options.events', 'an array of events { time, text }');
  events.forEach((event, i) => {
    requireObject(event, `options.events[${i}]`, 'an event { time, text }', ['time', 'text']);
    requireTime(event.time, `options.events[${i}].time`);
    requireText(event.text, `options.events[${i}].text`);
  });
}

/**
 * The period itself, from when to when, and what happened in it.
 */
import { requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { inTimeOrder } from './reportReading.ts';
import { paragraph } from './textLayout.ts';
import { requireTime } from './timeText.ts';

/** What happened, in words. */
export interface PeriodEvent {
  readonly time: number;
  readonly text: string;
}

/** From `from`, up to but without `to`; without end where one is left out. */
export interface Period {
  readonly from?: number;
  readonly to?: number;
}

/** Times that can be written, in their order. */
export function checkPeriod({ from, to }: Period): void {
  if (from !== undefined) requireTime(from, 'options.from');
  if (to !== undefined) requireTime(to, 'options.to');
  if (from !== undefined && to !== undefined && to <= from) {
    throw motescaleError('out_of_range', 'options.to', to, `a time after options.from, ${from}`);
  }
}

/** What lies in the period. */
export function within<T extends { readonly time: number }>(list: readonly T[], { from, to }: Period): T[] {
  return list.filter(({ time }) => (from === undefined || time >= from) && (to === undefined || time < to));
}

/** `2026-11-02 00:00 to 2026-11-09 00:00`; empty where nothing is known of the period. */
export function periodText(start: number | undefined, end: number | undefined, at: (time: number) => string): string {
  if (start === undefined) return end === undefined ? '' : `until ${at(end)}`;
  return end === undefined ? `from ${at(start)}` : `${at(start)} to ${at(end)}`;
}

/** Throws unless these are events. */
export function checkEvents(events: readonly PeriodEvent[]): void {
  if (!Array.isArray(events)) {
    throw motescaleError('wrong_type', 'options.events', events, 'an array of events { time, text }');
  }
  events.forEach((event, i) => {
    requireObject(event, `options.events[${i}]`, 'an event { time, text }', ['time', 'text']);
    requireTime(event.time, `options.events[${i}].time`);
    if (typeof event.text !== 'string') {
      throw motescaleError('wrong_type', `options.events[${i}].text`, event.text, 'text');
    }
  });
}

/** The events, in order of time. */
export function eventLines(events: readonly PeriodEvent[], at: (time: number) => string): string[] {
  if (events.length === 0) return ['Events     none'];
  const lines = ['Events'];
  for (const event of inTimeOrder(events)) lines.push(...paragraph(`  ${at(event.time)}  `, event.text));
  return lines;
}

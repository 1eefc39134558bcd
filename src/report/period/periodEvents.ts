/** The period itself, from when to when, and what happened in it. */
import { endsStanding } from '../../alarm/standing.ts';
import { requireArray, requireObject, requireOneOf, requireText } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { inTimeOrder } from '../reportReading.ts';
import { englishEventTexts } from '../texts/englishEvents.ts';
import type { EventWord } from '../texts/eventTypes.ts';
import { requireTime } from '../timeText.ts';

/** What happened, in words. */
export interface PeriodEvent {
  readonly time: number;
  readonly text: string;
  /** Of an alarm which one, and its event, `raised` or `returned`: so it is known which stand. */
  readonly alarm?: string | undefined;
  readonly event?: EventWord | undefined;
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
    requireObject(event, path, 'an event { time, text }', ['time', 'text', 'alarm', 'event']);
    requireTime(event.time, `${path}.time`);
    requireText(event.text, `${path}.text`);
    if (event.alarm !== undefined) requireText(event.alarm, `${path}.alarm`);
    if (event.event !== undefined || event.alarm !== undefined)
      requireOneOf(event.event, `${path}.event`, Object.keys(englishEventTexts.words));
  });
}

/** The events, before a time, that raised the alarms that stand then; in order of time. */
export function standingAt(from: number, events: readonly PeriodEvent[]): PeriodEvent[] {
  let raised: PeriodEvent[] = [];
  for (const one of inTimeOrder(events.filter(({ time }) => time < from))) {
    const { alarm, event } = one;
    if (alarm === undefined || event === undefined) continue;
    // also of what came while it stood, where the raise itself is not among the events
    const stands = event === 'raised' || event === 're_alarmed';
    if (endsStanding(event)) raised = raised.filter((other) => other.alarm !== alarm);
    else if (stands && !raised.some((other) => other.alarm === alarm)) raised.push(one);
  }
  return raised;
}

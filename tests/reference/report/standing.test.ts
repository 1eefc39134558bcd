/**
 * Alarms that were raised before a period and stand through it: a page of March that says no more than that none began
 * would pass for a month without alarms. The events are a monitor's, and by hand.
 */

import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import type { MotescaleError } from '../../../src/index.ts';
import { advanceMonitor, type MonitorEvent, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import {
  messageOf,
  type PeriodEvent,
  periodFigures,
  periodSummary,
  type ReportReading,
  reportReading,
} from '../../../src/report/index.ts';

const hour = 3600000;
const [from, to] = [Date.UTC(2026, 2, 1), Date.UTC(2026, 3, 1)];
const raisedAt = Date.UTC(2026, 1, 25);

function watched(): { readings: ReportReading[]; events: PeriodEvent[] } {
  const dirt = { id: 'dirt', type: 'high', figure: { scaleNumberAt: 14 }, setpoint: 14 } as const;
  const prepared = prepareMonitor({ codes: [], alarms: [dirt] });
  let state = startMonitor(prepared);
  const readings: ReportReading[] = [];
  const events: MonitorEvent[] = [];
  for (let time = Date.UTC(2026, 1, 20); time < to; time += 6 * hour) {
    const k = time < raisedAt ? 1 : 8;
    const i = time / hour / 6;
    const counts = cumulativeCounts({ 4: (1890 + (i % 97)) * k, 6: (402 + (i % 53)) * k, 14: (33 + (i % 11)) * k });
    const reading = { time, counts };
    const step = advanceMonitor(prepared, state, { ...reading, receivedAt: time });
    state = step.state;
    events.push(...step.events);
    if (step.verdict) readings.push(reportReading(reading, step.verdict));
  }
  return { readings, events: events.map(said) };
}

function said(event: MonitorEvent): PeriodEvent {
  const alarm = 'alarm' in event ? event.alarm : undefined;
  const latched = 'latched' in event ? event.latched : undefined;
  return { time: event.time, event: event.event, alarm, latched, text: messageOf(event).line };
}

const lines = (text: string, word: string) => {
  const all = text.split('\n');
  return all.slice(all.findIndex((line) => line.startsWith(word))).filter((line) => line !== '');
};

describe('an alarm raised in February that still stands', () => {
  const { readings, events } = watched();
  const figures = periodFigures(readings, { target: '18/16/13', from, to, events });

  test('is told first on the page of March', () => {
    expect(figures.events).toEqual([]);
    expect(figures.standing?.map(({ time }) => time)).toEqual([raisedAt]);
    expect(lines(periodSummary(figures), 'What')).toEqual([
      'What stood at the beginning',
      '  2026-02-25 00:00  dirt: alarm raised. Scale number at 14 µm(c) is 16,',
      '                    beyond 14.',
      'Events     none begun in this period',
    ]);
    expect(lines(periodSummary(figures, germanTexts), 'Was')[0]).toBe('Was zu Beginn anstand');
    expect(periodSummary(figures, germanTexts)).toContain('Ereignisse  keine in diesem Zeitraum begonnen');
  });

  test('without its events the page says no more than that none began', () => {
    const bare = events.map(({ time, text }) => ({ time, text }));
    const none = periodFigures(readings, { from, to, events: bare });
    expect(none.standing).toEqual([]);
    expect(periodSummary(none)).toContain('Events     none begun in this period');
  });

  test('carries the offset of its own time', () => {
    const utcOffsetMinutes = (time: number) => (time < from ? 60 : 120);
    const text = periodSummary(periodFigures(readings, { from, to, events, utcOffsetMinutes }));
    expect(text).toContain('2026-02-25 01:00 UTC+01:00');
  });
});

describe('which alarms stand', () => {
  const at = (time: number, alarm: string, event: PeriodEvent['event']): PeriodEvent => ({
    ...{ time, alarm, event },
    text: `${alarm} ${event} ${time}`,
  });
  const standing = (events: PeriodEvent[]) =>
    periodFigures([], { from: 1000, to: 2000, events }).standing?.map(({ text }) => text);

  test('those raised and neither returned nor dropped before the beginning, by their first raise', () => {
    expect(standing([at(1, 'a', 'raised'), at(2, 'b', 'raised'), at(3, 'a', 'raised')])).toEqual([
      'a raised 1',
      'b raised 2',
    ]);
    expect(standing([at(1, 'a', 'raised'), at(2, 'a', 'acknowledged'), at(999, 'a', 'returned')])).toEqual([]);
    expect(standing([at(1, 'a', 'raised'), at(2, 'a', 'dropped')])).toEqual([]);
    expect(standing([at(1, 'a', 'raised'), at(1000, 'a', 'returned')])).toEqual(['a raised 1']);
    expect(standing([at(1, 'a', 'returned'), at(2, 'a', 'raised')])).toEqual(['a raised 2']);
    expect(standing([at(1000, 'a', 'raised')])).toEqual([]);
    expect(standing([at(1, 'a', 'raised'), at(2, 'a', 're_alarmed')])).toEqual(['a raised 1']);
    // its raise was not handed in
    expect(standing([at(5, 'a', 're_alarmed')])).toEqual(['a re_alarmed 5']);
    // in order of time, however they are given
    expect(standing([at(9, 'a', 'returned'), at(1, 'a', 'raised')])).toEqual([]);
  });

  test('a silence, a latch or a signal not known that has not ended', () => {
    const pairs: readonly [PeriodEvent['event'], PeriodEvent['event']][] = [
      ['shelved', 'unshelved'],
      ['suppressed', 'unsuppressed'],
      ['removed_from_service', 'returned_to_service'],
      ['signal_stale', 'signal_restored'],
      ['signal_bad', 'signal_good'],
    ];
    for (const [begins, ends] of pairs) {
      expect(standing([at(1, 'a', begins), at(2, 'b', ends)])).toEqual([`a ${begins} 1`]);
      expect(standing([at(1, 'a', begins), at(2, 'a', ends)])).toEqual([]);
      expect(standing([at(1, 'a', begins), at(2, 'a', 'dropped')])).toEqual([]);
      // silent or stale, it stands as it was told last
      expect(standing([at(1, 'a', 'raised'), at(2, 'a', begins)])).toEqual(['a raised 1', `a ${begins} 2`]);
    }
    const latched = { ...at(2, 'a', 'returned'), latched: true };
    expect(standing([at(1, 'a', 'raised'), latched])).toEqual(['a returned 2']);
    expect(standing([at(1, 'a', 'raised'), latched, at(3, 'a', 'reset')])).toEqual([]);
    expect(standing([at(1, 'a', 'raised'), latched, at(3, 'a', 'raised')])).toEqual(['a raised 3']);
    expect(standing([at(1, 'a', 'raised'), latched, at(3, 'a', 'raised'), at(4, 'a', 'returned')])).toEqual([]);
    const stale = (time: number, event: PeriodEvent['event']) => ({ time, text: `${event} ${time}`, event });
    expect(standing([stale(1, 'readings_stale'), stale(2, 'readings_stale')])).toEqual(['readings_stale 1']);
    expect(standing([stale(1, 'readings_stale'), stale(2, 'readings_restored')])).toEqual([]);
  });

  test('a period and events that are none are refused by their names', () => {
    const refused = (options: object) => {
      try {
        periodFigures([], options);
        return null;
      } catch (error) {
        const { code, parameter, received, expected } = error as MotescaleError;
        return `${parameter}: ${received}, not ${expected} (${code})`;
      }
    };
    expect(refused({ from: 5, to: 5 })).toBe('options.to: 5, not a time after options.from, 5 (out_of_range)');
    expect(refused({ to: 'now' })).toMatch(/^options\.to: 'now'/);
    expect(refused({ from: 'now' })).toMatch(/^options\.from: 'now'/);
    expect([refused({ from: 5 }), refused({ to: 5 }), refused({ from: 5, to: 6 })]).toEqual([null, null, null]);
    expect(refused({ events: {} })).toBe(
      'options.events: an object, not an array of events { time, text } (wrong_type)',
    );
    const broken = (event: object) => refused({ from: 1, to: 2, events: [{ time: 1, text: 'a', ...event }] });
    expect(broken({ time: 'now' })).toMatch(/^options\.events\[0\]\.time: 'now'/);
    expect(broken({ text: 5 })).toMatch(/^options\.events\[0\]\.text: 5/);
    expect(broken({ alarm: 5, event: 'raised' })).toMatch(/^options\.events\[0\]\.alarm: 5/);
    expect(broken({ event: 'Raised' })).toMatch(/^options\.events\[0\]\.event: 'Raised'/);
    expect(broken({ latched: 'yes' })).toMatch(/^options\.events\[0\]\.latched: 'yes'/);
    expect(broken({})).toBe(null);
    expect(refused({ events: [5] })).toBe('options.events[0]: 5, not an event { time, text } (wrong_type)');
  });

  test('an alarm needs an event that is one', () => {
    const broken = [{ time: 1, text: 'a', alarm: 'a', event: 'Raised' as 'raised' }];
    expect(() => standing(broken)).toThrow(/options\.events\[0\]\.event: received 'Raised'/);
    expect(() => standing([{ time: 1, text: 'a', alarm: 'a' }])).toThrow(/options\.events\[0\]\.event/);
  });
});

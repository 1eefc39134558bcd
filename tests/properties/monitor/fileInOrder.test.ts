/**
 * A file of a unit with what clocks do to files: rows of a clock a year ahead or behind, and the newest line first.
 * Sorted by time, without rows later than the file, it tells what a sound one tells (docs/files.md, "Times of a
 * file"). Untidied it says that what is usual is learned anew.
 */
import { describe, expect, test } from 'vitest';
import { advanceMonitor, type MonitorEvent, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

const hour = 3600000;
const day = 24 * hour;
const begin = Date.UTC(2026, 0, 1);
const prepared = prepareMonitor({
  codes: [],
  alarms: [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, deadband: 2, onDelayMs: 12 * hour },
  ],
  follow: [{ id: 'oil', figure: { quantity: 'celsius' }, least: 3 }],
});

/** A reading each six hours for 150 days; from day 100 on it is 25 K hotter. Some times are moved by days. */
function file(moved: Readonly<Record<number, number>> = {}): { time: number; celsius: number }[] {
  return Array.from({ length: 600 }, (_, i) => ({
    time: begin + i * 6 * hour + (moved[i] ?? 0) * day,
    celsius: 40 + (i % 7) / 10 + (i % 4) + (i >= 400 ? 25 : 0),
  }));
}

function told(rows: readonly { time: number; celsius: number }[]): MonitorEvent[] {
  let state = startMonitor(prepared);
  return rows.flatMap((row) => {
    const step = advanceMonitor(prepared, state, { ...row, receivedAt: row.time });
    state = step.state;
    return step.events;
  });
}

function tidied(rows: readonly { time: number; celsius: number }[]): { time: number; celsius: number }[] {
  return rows.filter(({ time }) => time <= begin + 150 * day).sort((a, b) => a.time - b.time);
}

const has = (events: readonly MonitorEvent[], event: MonitorEvent['event']) =>
  events.some((each) => each.event === event);

describe.each([
  ['nothing', file()],
  ['a row a year ahead', file({ 361: 365 })],
  ['a row a year behind', file({ 361: -365 })],
  ['a row a year ahead just before the step', file({ 397: 365 })],
  ['four rows 400 days ahead', file({ 81: 400, 161: 400, 241: 400, 321: 400 })],
  ['the newest line first', file().reverse()],
])('a file with %s', (_name, rows) => {
  test('sorted, it raises the alarm and tells the step, each once', () => {
    const events = told(tidied(rows));
    expect(events.filter(({ event }) => event === 'raised')).toHaveLength(1);
    expect(events.filter(({ event }) => event === 'change_found')).toHaveLength(1);
  });
});

test('as it stands, one row a year off leaves what was learned as it was, and the step is told', () => {
  for (const days of [365, -365]) {
    const events = told(file({ 397: days }));
    expect(has(events, 'change_found')).toBe(true);
    expect(has(events, 'relearning')).toBe(false);
  }
});

test('as it stands, a file with its newest line first raises nothing', () => {
  expect(has(told(file().reverse()), 'raised')).toBe(false);
});

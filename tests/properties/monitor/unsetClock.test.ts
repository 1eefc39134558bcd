/** A gateway whose clock is not set when it begins: `receivedAt` leaps with the time of readings, proving nothing. */
import { expect, test } from 'vitest';
import { advanceMonitor, type MonitorEvent, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

const hour = 3600000;
const day = 24 * hour;
const begin = Date.UTC(2026, 2, 1);
const prepared = prepareMonitor({
  codes: [],
  alarms: [{ id: 'dirty', type: 'high', figure: { other: 'six' }, setpoint: 14.5 }],
  follow: [{ id: 'six', figure: { other: 'six' }, least: 0.5 }],
});

/** A reading each six hours to day 100, those of some days by a clock of its own; a step of 1.5 on day 85. */
function run(wrong: (at: number) => number | null, from = 0, to = 100) {
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  let seed = 7;
  for (let at = from; at < to; at += 0.25) {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    const time = wrong(at) ?? begin + at * day;
    const six = 12 + (at >= 85 ? 1.5 : 0) + seed / 4e9;
    const step = advanceMonitor(prepared, state, { time, receivedAt: time + 500, others: { six } });
    state = step.state;
    events.push(...step.events);
  }
  return events.map(({ event, time }) => `${event} ${(time - begin) / day}`);
}

test('one reading or two of an unset clock, or far ahead, leave what was learned as it was', () => {
  expect(run(() => null)).toEqual(['change_found 87']);
  for (const boot of [40, 70]) {
    const unset = (at: number) => (at === boot || at === boot + 0.25 ? (at - boot) * day + 60000 : null);
    expect(run(unset)).toEqual([`too_late ${boot - 0.25}`, `too_late ${boot - 0.25}`, 'change_found 87']);
    const ahead = (at: number) => (at === boot ? begin + (boot + 100) * day : null);
    expect(run(ahead)).toEqual([`set_aside ${boot - 0.25}`, `clock_kept ${boot - 0.25}`, 'change_found 87']);
  }
});

test('after three the clock is set back, and forward again: what was learned moves with it', () => {
  const unset = (at: number) => (at >= 60 && at < 61 ? (at - 60) * day + 60000 : null);
  const told = run(unset);
  expect(told.filter((one) => /clock_set|relearning|stale/.test(one)).map((one) => one.split(' ')[0])).toEqual([
    'clock_set',
    'clock_set',
  ]);
  expect(told.some((one) => /change_found 8[6-9]/.test(one))).toBe(true);
});

test('after a gap of months the second reading is in order, the first is judged as of its time', () => {
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  for (const at of [0, 1, 2, 3, 90 * 24, 90 * 24 + 1]) {
    const time = begin + at * hour;
    const step = advanceMonitor(prepared, state, { time, receivedAt: time, others: { six: at > 4 ? 15 : 12 } });
    state = step.state;
    events.push(...step.events);
  }
  expect(events.map(({ event }) => event)).not.toContain('clock_set');
  expect(events.map(({ event }) => event)).not.toContain('clock_kept');
  expect(events.find(({ event }) => event === 'raised')?.time).toBe(begin + 90 * day);
  expect(state.recent?.length).toBe(6);
});

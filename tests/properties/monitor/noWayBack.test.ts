/** States from which no run would come back are refused at the door, and no prepared object makes an endless loop. */
import { expect, test } from 'vitest';
import { advanceAlarm, prepareAlarm, resumeAlarm, startAlarm } from '../../../src/alarm/index.ts';
import { advanceMonitor, prepareMonitor, resumeMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

/** ECMA-262 ends there; the last input that there can be lies at 253370678399999. */
const ends = [8.64e15, 1700057600000000, 253370678400000];

test('a time that no input can have', () => {
  const alarm = prepareAlarm({ id: 'x', type: 'high', setpoint: 1 });
  const monitor = prepareMonitor({ codes: [] });
  for (const time of ends) {
    const state = { ...startAlarm(alarm), time };
    expectRefused('bad_state', 'state.time', 'milliseconds', () => resumeAlarm(alarm, state));
    expectRefused('bad_state', 'state.time', 'milliseconds', () =>
      resumeMonitor(monitor, { ...startMonitor(monitor), time }),
    );
  }
  const last = { ...startAlarm(alarm), time: 253370678399999 };
  expect(resumeAlarm(alarm, last).state).toEqual(last);
});

test('a clock of the host far from that of the readings leads to no such time', () => {
  const monitor = prepareMonitor({ codes: [] });
  const last = 253370678399999;
  let { state } = advanceMonitor(monitor, startMonitor(monitor), { time: last, celsius: 50, receivedAt: 0 });
  state = advanceMonitor(monitor, state, { kind: 'tick', time: 9e6 }).state;
  expect(resumeMonitor(monitor, JSON.parse(JSON.stringify(state))).state.time).toBe(last);
});

test('a temperature that has stood for no reading', () => {
  const monitor = prepareMonitor({ codes: [] });
  const { state } = advanceMonitor(monitor, startMonitor(monitor), { time: 0, celsius: 50 });
  const spoilt = JSON.parse(JSON.stringify(state));
  expect(spoilt.repeats.steady.celsius.run).toBe(1);
  spoilt.repeats.steady.celsius.run = 0;
  expectRefused('bad_state', 'state.repeats', 'counts', () => resumeMonitor(monitor, spoilt));
});

test.each([-1, -60000, 0, 1e-300, NaN, Infinity])(
  'a prepared alarm spoilt in storage: raised anew after %d ms',
  (every) => {
    const prepared = {
      ...prepareAlarm({ id: 'x', type: 'high', setpoint: 1, reAlarmAfterMs: 60000 }),
      reAlarmAfterMs: every,
    };
    const { state } = advanceAlarm(prepared, startAlarm(prepared), { time: 0, value: 2 });
    expect(advanceAlarm(prepared, state, { kind: 'tick', time: 1e9 }).events.length).toBeLessThan(9);
  },
);

test('a state of a doubted clock is the same text before and after it was saved', () => {
  const prepared = prepareMonitor({ codes: [], clockJumpMs: 60000 });
  let { state } = advanceMonitor(prepared, startMonitor(prepared), { time: 1e6, celsius: 50 });
  for (const input of [{ time: 1e9, celsius: 51 }, { kind: 'tick', time: 5 } as const])
    state = advanceMonitor(prepared, state, input).state;
  expect(Object.keys(state.clock ?? {})).toEqual(['ahead', 'behind']);
  const saved = JSON.stringify(state);
  expect(JSON.stringify(resumeMonitor(prepared, JSON.parse(saved)).state.clock)).toBe(JSON.stringify(state.clock));
});

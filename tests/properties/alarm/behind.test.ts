/**
 * An alarm alone whose host gives a time far ahead, in a tick or a command. A shelf ends `forMs` after it was given
 * (MaxTimeShelved, OPC 10000-9; ISA-18.2 and IEC 62682 limit shelving in time; all from memory), and a signal is stale
 * when nothing comes, by the time of what comes after.
 */
import { expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmInput,
  advanceAlarm,
  alarmStatistics,
  prepareAlarm,
  resumeAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { messageOf } from '../../../src/report/index.ts';

const minute = 60000;
const day = 86400000;
const year = 365 * day;
const of: AlarmConfig = { id: 'hot', type: 'high', setpoint: 65, staleAfterMs: 10 * minute };
const tick = (time: number): AlarmInput => ({ kind: 'tick', time });
const shelve = (time: number, forMs = 60 * minute): AlarmInput => ({ kind: 'command', command: 'shelve', time, forMs });
const readings = (from: number, to: number, value: number): AlarmInput[] =>
  Array.from({ length: to - from }, (_, k) => ({ time: (from + k) * minute, value }));

function run(config: AlarmConfig, inputs: readonly AlarmInput[]) {
  const prepared = prepareAlarm(config);
  let state = startAlarm(prepared);
  const events = [];
  for (const input of inputs) {
    const saved = resumeAlarm(prepared, JSON.parse(JSON.stringify(state))).state;
    const step = advanceAlarm(prepared, saved, input);
    state = step.state;
    events.push(...step.events);
  }
  return { state, events, told: events.map(({ time, event }) => `${time / minute} ${event}`) };
}

test('a tick a year ahead: a shelf of an hour ends after an hour, and a dead sensor is told', () => {
  const inputs = [
    { time: 0, value: 50 },
    tick(year),
    ...readings(1, 4, 90),
    shelve(4 * minute),
    ...readings(4, 120, 90),
  ];
  const { told, state } = run(of, [...inputs, tick(131 * minute)]);
  expect(told.slice(0, 3)).toEqual(['10 signal_stale', `${year / minute} signal_restored`, `${year / minute} raised`]);
  // the reading of minute 3 is the third input behind it
  expect(told.slice(3)).toEqual(['3 clock_set_back', '4 shelved', '64 unshelved', '64 raised', '129 signal_stale']);
  expect(state.time).toBe(131 * minute);
  expect(state).not.toHaveProperty('behind');
});

test('a shelf that is given a year ahead ends an hour after the third input of now', () => {
  const inputs = [{ time: 0, value: 50 }, shelve(year), ...readings(1, 120, 90)];
  const { told } = run({ ...of, staleAfterMs: null }, inputs);
  expect(told).toEqual([`${year / minute} shelved`, '3 clock_set_back', '63 unshelved', '63 raised']);
});

test('also where ticks alone are right again, however many were wrong', () => {
  const wrong = Array.from({ length: 50 }, (_, k) => tick(year + k * minute));
  const right = Array.from({ length: 70 }, (_, k) => tick((5 + k) * minute));
  const { told } = run(of, [
    { time: 0, value: 50 },
    ...wrong,
    ...right.slice(0, 3),
    shelve(7 * minute),
    ...right.slice(3),
  ]);
  expect(told.slice(1)).toEqual(['7 clock_set_back', '7 shelved', '67 unshelved', '67 signal_stale']);
});

test('what was remembered of the wrong time is as of now', () => {
  const config: AlarmConfig = { ...of, staleAfterMs: null, reAlarmAfterMs: 30 * minute };
  const acknowledge: AlarmInput = { kind: 'command', command: 'acknowledge', time: 2 * minute };
  // raised as of the far time
  const inputs = [{ time: 0, value: 50 }, tick(year), { time: minute, value: 90 }, acknowledge];
  const { told, state } = run(config, [...inputs, ...readings(3, 40, 90)]);
  expect(told.slice(2)).toEqual(['3 clock_set_back', '33 re_alarmed']);
  expect(state).toMatchObject({ since: 3 * minute, heard: 39 * minute, unacknowledged: true });
});

test('less than a day behind, before the last reading, or not three times in a row: nothing is set back', () => {
  const late = (time: number) => [tick(time), tick(time), tick(time), tick(time)];
  const set = (inputs: readonly AlarmInput[]) => run(of, inputs).told.some((one) => one.includes('clock_set_back'));
  expect(set([tick(2 * day), ...late(day)])).toBe(false);
  expect(set([tick(2 * day), ...late(day - 1)])).toBe(true);
  expect(set([{ time: 2 * day, value: 1 }, ...late(day - 1)])).toBe(false);
  expect(set([{ time: day - 1, value: 1 }, tick(2 * day), ...late(day - 1)])).toBe(true);
  expect(set([tick(2 * day), tick(0), tick(0), tick(day), tick(0), tick(0)])).toBe(false);
  expect(set([tick(2 * day), tick(0), tick(0), tick(2 * day), tick(0), tick(0)])).toBe(false);
});

test('right readings of an outage of days, in one go: set back as well, and a shelf ends sooner, not later', () => {
  const outage = [{ time: 0, value: 50 }, tick(2 * day), tick(3 * day), shelve(3 * day, 480 * minute)];
  const { told } = run({ ...of, staleAfterMs: null }, [...outage, ...readings(1, 4320, 90), tick(3 * day)]);
  expect(told).toEqual([`${(3 * day) / minute} shelved`, '3 clock_set_back', '483 unshelved', '483 raised']);
});

test('the event has words, and takes the leap out of the times of a period', () => {
  const { events } = run(of, [tick(year), ...readings(0, 3, 50)]);
  const [event] = events.filter((one) => one.event === 'clock_set_back');
  expect(event).toEqual({ time: 2 * minute, alarm: 'hot', event: 'clock_set_back', from: year, to: 2 * minute });
  expect(messageOf(event as never).line).toBe(
    'hot: time set back. Back from 1971-01-01 00:00 to 1970-01-01 00:02: ' +
      'a tick or command was far ahead, or readings came late.',
  );
  expect(messageOf(event as never, germanTexts).subject).toBe('hot: Zeit zurückgestellt');
  const shelved = run(of, [tick(year), ...readings(1, 4, 50), shelve(4 * minute), ...readings(4, 120, 50)]).events;
  expect(alarmStatistics(shelved, { from: 0, to: 2 * year }).shelvedMs).toBe(60 * minute);
});

test('delays go by when readings were taken, though a tick has gone ahead of them', () => {
  const delayed: AlarmConfig = { ...of, staleAfterMs: null, onDelayMs: 10 * minute };
  const inputs = [{ time: 0, value: 50 }, tick(100 * minute), { time: 60 * minute, value: 90 }];
  expect(run(delayed, [...inputs, { time: 69 * minute, value: 90 }]).told).toEqual([]);
  expect(run(delayed, [...inputs, { time: 70 * minute, value: 90 }]).told).toEqual(['100 raised']);
});

/** States of version 2 go on as they would have: the same events at the same inputs. */
import { expect, test } from 'vitest';
import { advanceAlarm, prepareAlarm, resumeAlarm } from '../../../src/alarm/index.ts';
import { standardTables } from '../../../src/codes/index.ts';
import {
  advanceMonitor,
  advanceUnit,
  type MonitorConfig,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startUnit,
  type UnitRecord,
} from '../../../src/monitor/index.ts';
import left from './version2.json' with { type: 'json' };

const prepared = prepareMonitor(left.config as unknown as MonitorConfig, { tables: standardTables });

test.each(left.states.map((one, i) => [i, one] as const))('a monitor, %d', (_i, { state, inputs, events }) => {
  const resumed = resumeMonitor(prepared, state);
  expect([resumed.dropped, resumed.added, resumed.events]).toEqual([[], [], []]);
  expect(resumeMonitor(prepared, JSON.parse(JSON.stringify(resumed.state))).state).toEqual(resumed.state);
  let now = resumed.state;
  const told = inputs.map((input) => {
    const step = advanceMonitor(prepared, now, input as MonitorInput);
    now = step.state;
    return step.events;
  });
  expect(told).toEqual(events);
});

test('in a record that names this very version of the library', () => {
  const [{ state, inputs }] = left.states as unknown as [{ state: UnitRecord['state']; inputs: MonitorInput[] }];
  const record = { ...startUnit(prepared, { unit: 'upper gate' }), state };
  const [first] = inputs as [MonitorInput];
  const step = advanceUnit(prepared, record, { seq: 1, payload: first });
  expect(step.outcome).toBe('accepted');
  expect(step.record.state).toEqual(advanceMonitor(prepared, resumeMonitor(prepared, state).state, first).state);
});

test('among them are a reading set aside, silences, chattering and trends', () => {
  const all = JSON.stringify(left.states);
  for (const some of ['"last":{"print"', '"told":["', '"chattering":true', '"trend":{', '"shelf":{', '"raises":['])
    expect(all.includes(some), some).toBe(true);
});

test('a damaged one is refused', () => {
  const [whole] = left.states.map((one) => one.state) as unknown as [{ readonly followed: readonly object[] }];
  const { followed } = whole;
  const state = { ...whole, followed: followed.map((entry) => ({ ...entry, trend: { from: 1 } })) };
  expect(() => resumeMonitor(prepared, state)).toThrow(expect.objectContaining({ code: 'bad_state' }));
});

test('an alarm by itself', () => {
  const hot = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
  const state = {
    ...{ version: 2, of: 'high', time: 60000, read: 60000, active: true, unacknowledged: true, since: 60000 },
    ...{ shelf: { until: 3600000 }, told: ['active', 'chattering'], value: 70, heard: 60000 },
    ...{ raises: [0, 30000, 60000], chattering: true },
  };
  const resumed = resumeAlarm(hot, state);
  expect(resumed.kept).toEqual(['hot']);
  const { events } = advanceAlarm(hot, resumed.state, { kind: 'tick', time: 3660001 });
  expect(events.map(({ time, event }) => [time, event])).toEqual([
    [3600000, 'unshelved'],
    [3600000, 'raised'],
    [3600000, 'chattering'],
    [3660000, 'chattering_ended'],
  ]);
});

/** An alarm's memory is the same after it was opened to be worked on and closed again, whatever stands in it. */
import { expect, test } from 'vitest';
import { advanceAlarm, prepareAlarm, startAlarm } from '../../../src/alarm/index.ts';
import { close, open } from '../../../src/alarm/memory.ts';
import type { AlarmMemory } from '../../../src/alarm/types.ts';

const whole: AlarmMemory = {
  ...{ active: true, latched: true, unacknowledged: true, since: 1, realarmed: 2, pending: 3 },
  ...{
    shelf: { until: 9, oneShot: true },
    outOfService: true,
    suppressed: 'stop',
    modeAt: 5,
    told: 'ascb',
    silentRaises: 4,
  },
  ...{ value: 5, heard: 6, usualMs: 7, stale: true, bad: true, raises: 'r', chattering: true, part: 8, extremes: 'e' },
};

test('all of it, each member alone, and nothing', () => {
  expect(close(open(whole), {})).toStrictEqual(whole);
  expect(close(open({}), { time: 1 })).toStrictEqual({ time: 1 });
  for (const [name, value] of Object.entries(whole))
    if (name !== 'told') expect(close(open({ [name]: value }), {})).toStrictEqual({ [name]: value });
});

test('a time, a figure and a part of 0 are there', () => {
  const zeros = { since: 0, realarmed: 0, pending: 0, value: 0, heard: 0, modeAt: 0, usualMs: 0, part: 0 };
  expect(close(open(zeros), {})).toStrictEqual(zeros);
});

test('what has been told: letters', () => {
  const silent = { suppressed: 'stop' } as const;
  for (const told of ['', 'a', 's', 'c', 'b', 'asc', 'acb', 'sb']) {
    const memory = { ...silent, active: true, ...(told === '' ? {} : { told }) } as const;
    expect(close(open(memory), {})).toStrictEqual(memory);
  }
  expect(open({ active: true, told: 'a' }).told).toBe(null);
});

test('a tick before the first reading leaves no reading, and what is no alarm is refused by its maker’s name', () => {
  const prepared = prepareAlarm({ id: 'x', type: 'high', setpoint: 4 });
  const begun = startAlarm(prepared);
  expect(advanceAlarm(prepared, begun, { kind: 'tick', time: 5 }).state).toStrictEqual({
    ...{ version: begun.version, of: 'high', time: 5, heard: 5 },
  });
  for (const act of [startAlarm, advanceAlarm] as const)
    expect(() => (act as (one: unknown) => unknown)({})).toThrow('what prepareAlarm of version');
  const refused = expect.objectContaining({ code: 'bad_configuration', parameter: 'config' });
  expect(() => prepareAlarm({ id: 'x', type: 'high', setpoint: NaN })).toThrow(refused);
});

/**
 * What was told before a silence began decides what its end tells (our choice: nothing that has been told goes without
 * its end), and what is asked of a figure at the very ends that decide (ASHRAE 135 as in OPC 30030 8.9: strictly above
 * the limit raises, strictly below the limit less the deadband returns).
 */
import { expect, test } from 'vitest';
import { type AlarmConfig, type AlarmInput, advanceAlarm, prepareAlarm, startAlarm } from '../../../src/alarm/index.ts';
import { close, open } from '../../../src/alarm/memory.ts';
import { lastRaise, staleAfterOf } from '../../../src/alarm/passing.ts';
import { planOf } from '../../../src/alarm/plan.ts';
import { isDecided, takeGoodReading } from '../../../src/alarm/signal.ts';
import type { AlarmEvent } from '../../../src/alarm/types.ts';

type Given =
  | number
  | null
  | 'tick'
  | 'acknowledge'
  | 'shelve'
  | 'unshelve'
  | 'remove_from_service'
  | 'return_to_service';
const hot: AlarmConfig = { id: 'x', type: 'high', setpoint: 10 };

/** One input a second; null is a bad reading. */
function run(config: AlarmConfig, given: readonly Given[], everyMs = 1000) {
  const prepared = prepareAlarm(config);
  let state = startAlarm(prepared);
  const told: AlarmEvent[] = [];
  given.forEach((one, i) => {
    const time = i * everyMs;
    let input = { kind: 'command', time, command: one, ...(one === 'shelve' ? { forMs: 1e7 } : {}) } as AlarmInput;
    if (one === 'tick') input = { kind: 'tick', time };
    else if (one === null || typeof one === 'number')
      input = { time, value: one ?? 0, quality: one === null ? 'bad' : 'good' };
    const step = advanceAlarm(prepared, state, input);
    state = step.state;
    told.push(...step.events);
  });
  return { state, told, last: told.map(({ event, standing }) => (standing ? `${event}, standing` : event)) };
}

test('an alarm acknowledged, and gone in a silence, is told as returned when it ends', () => {
  expect(run(hot, [11, 'acknowledge', 'shelve', 5, 'unshelve']).last.slice(2)).toEqual([
    ...['shelved', 'unshelved', 'returned, standing'],
  ]);
  // gone between the beginnings of two silences, of which the first decides
  const twice = run(hot, [11, 'acknowledge', 'shelve', 5, 'remove_from_service', 'unshelve', 'return_to_service']);
  expect(twice.last.slice(-3)).toEqual(['unshelved', 'returned_to_service', 'returned, standing']);
});

test('a signal bad before a silence, or stale, and good in it; and what began in it', () => {
  expect(run(hot, [5, null, 'shelve', 5, 'unshelve']).last).toEqual([
    ...['signal_bad', 'shelved', 'unshelved'],
    'signal_good, standing',
  ]);
  expect(run(hot, [5, 'shelve', null, 'unshelve']).last).toEqual(['shelved', 'unshelved', 'signal_bad, standing']);
  // of an alarm by itself no figure has a name
  for (const one of run(hot, [5, null]).told) expect(Object.keys(one)).toEqual(['time', 'alarm', 'event']);
  const stale = run({ ...hot, staleAfterMs: 1500 }, [5, 'tick', 'tick', 'shelve', 5, 'unshelve']);
  expect(stale.last.slice(-2)).toEqual(['unshelved', 'signal_restored, standing']);
  const chatters = run(hot, ['shelve', 11, 5, 11, 5, 11, 'unshelve']);
  expect(chatters.last.slice(-2)).toEqual(['raised, standing', 'chattering, standing']);
});

test('only what was raised in the silence is counted as raised in it', () => {
  const { told, state } = run(hot, [11, 5, 11, 'shelve', 5, 11, 'unshelve']);
  expect(told.find(({ event }) => event === 'unshelved')?.silentRaises).toBe(1);
  expect(state.silentRaises).toBe(undefined);
  expect(run(hot, [11]).state.silentRaises).toBe(undefined);
});

test('the time from a first tick to the first reading teaches no interval', () => {
  expect(run(hot, ['tick', 5]).state.usualMs).toBe(undefined);
  expect(run(hot, ['tick', 5, 5]).state.usualMs).toBe(1000);
});

test('what may lie on either side of an end is not decided; the end itself is within', () => {
  const high = planOf({ id: 'x', deadband: 2 }, { type: 'high', setpoint: 10 });
  const low = planOf({ id: 'x', deadband: 2 }, { type: 'low', setpoint: 10 });
  const asked = (active: boolean, least: number, most: number) =>
    [isDecided(high, active, least, most), isDecided(low, active, 20 - most, 20 - least)] as const;
  expect(asked(false, 9, 10)).toEqual([true, true]);
  expect(asked(false, 10, 11)).toEqual([false, false]);
  expect(asked(false, 10.5, 11)).toEqual([true, true]);
  expect(asked(true, 8, 9)).toEqual([true, true]);
  expect(asked(true, 7, 8)).toEqual([false, false]);
  expect(asked(true, 7, 7.5)).toEqual([true, true]);
  // of a change the lower bound stands
  const rise = planOf({ id: 'x' }, { type: 'rise', setpoint: 10, withinMs: 1000 });
  expect([isDecided(rise, false, 9, 11), isDecided(rise, true, 9, 11)]).toEqual([true, true]);
});

test('what shows no more than the floor is no height to fall from', () => {
  const plan = planOf({ id: 'x' }, { type: 'fall', setpoint: 3, withinMs: 60000 });
  const fallFrom = (first: number) => {
    const draft = open({});
    const events: AlarmEvent[] = [];
    takeGoodReading(plan, draft, first, 0, 0, true, events, 5);
    takeGoodReading(plan, draft, 1, 1000, 1000, true, events, 1);
    return [draft.value, events.length, close(draft, {}).extremes !== undefined];
  };
  expect(fallFrom(5)).toEqual([0, 0, false]);
  expect(fallFrom(6)).toEqual([5, 1, true]);
});

test('a change is told with the time looked back over, and rises from no lower than the floor', () => {
  const rises: AlarmConfig = { id: 'x', type: 'rise', setpoint: 3, withinMs: 60000 };
  const raised = { time: 1000, alarm: 'x', event: 'raised', value: 4, type: 'rise', withinMs: 60000, setpoint: 3 };
  expect(run(rises, [1, 5]).told).toEqual([{ ...raised, priority: 'medium' }]);
  const draft = open({});
  const plan = planOf({ id: 'x' }, { type: 'rise', setpoint: 3, withinMs: 60000 });
  for (const [time, value] of [[0, 1] as const, [1000, 5] as const])
    takeGoodReading(plan, draft, value, time, time, true, [], 3);
  expect([draft.value, draft.active]).toEqual([2, false]);
});

test('a signal that never came is stale by what a monitor waits for', () => {
  const plan = planOf({ id: 'x' }, { type: 'high', setpoint: 3 });
  expect(staleAfterOf(plan, open({}), 5)).toBe(5);
  // ten usual intervals, at least a day
  expect(staleAfterOf(plan, open({ value: 1, heard: 0, usualMs: 1e8 }), 5)).toBe(1e9);
});

test('where no raise is known, no command is older than it', () => {
  expect(lastRaise(open({}))).toBe(-Infinity);
});

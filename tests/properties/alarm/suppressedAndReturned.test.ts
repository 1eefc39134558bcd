/**
 * What came and went while it was suppressed by design was no alarm (the state diagram of ISA-18.2, from memory), in
 * state, events and summary; and each other return is told, whichever silence it came in.
 */
import { expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmInput,
  advanceAlarm,
  alarmStateName,
  prepareAlarm,
  resumeAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { advanceMonitor, alarmSummary, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

const of: AlarmConfig = { id: 'x', type: 'high', setpoint: 10, suppressedInModes: ['stop'] };
type Given = number | 'stop' | 'run' | 'acknowledge' | 'reset' | 'shelve' | 'unshelve' | 'remove' | 'return';

function run(config: AlarmConfig, given: readonly Given[]) {
  const words = { remove: 'remove_from_service', return: 'return_to_service' };
  let value = 5;
  const inputs = given.map((one, time): AlarmInput => {
    if (typeof one === 'number') {
      value = one;
      return { time, value };
    }
    if (one === 'stop' || one === 'run') return { time, value, mode: one };
    const command = words[one as 'remove'] ?? one;
    return { kind: 'command', time, command, ...(one === 'shelve' ? { forMs: 1e6 } : {}) } as AlarmInput;
  });
  const prepared = prepareAlarm(config);
  let state = startAlarm(prepared);
  const told: string[] = [];
  for (const input of inputs) {
    state = resumeAlarm(prepared, JSON.parse(JSON.stringify(state))).state;
    const step = advanceAlarm(prepared, state, input);
    state = step.state;
    for (const one of step.events) told.push(one.event + (one.standing ? ' standing' : ''));
  }
  return { told, name: alarmStateName(state), state };
}

test('came and went while suppressed by design: normal, and nothing told', () => {
  const { told, name } = run(of, [5, 'stop', 11, 5, 'run']);
  expect(told).toEqual(['suppressed', 'unsuppressed']);
  expect(name).toBe('normal');
  // also where it latches, and whichever silence ends last
  expect(run({ ...of, latching: true }, [5, 'stop', 11, 5, 'run'])).toMatchObject({ told, name });
  const { told: service } = run(of, ['remove', 'stop', 11, 5, 'run', 'return']);
  expect(service.slice(-2)).toEqual(['unsuppressed', 'returned_to_service']);
});

test('came and went while shelved: told, though a suppression ends last', () => {
  const { told, name } = run(of, ['shelve', 11, 5, 'stop', 'unshelve', 'run']);
  expect(told.slice(-2)).toEqual(['unsuppressed', 'returned standing']);
  expect(name).toBe('returned_to_normal_unacknowledged');
});

test('what was so before the suppression is so after it, and told', () => {
  expect(run(of, [11, 5, 'stop', 11, 5, 'run'])).toMatchObject({
    told: ['raised', 'returned', 'suppressed', 'unsuppressed', 'returned standing'],
    name: 'returned_to_normal_unacknowledged',
  });
  expect(run({ ...of, latching: true }, [11, 5, 'acknowledge', 'stop', 11, 5, 'run'])).toMatchObject({
    told: ['raised', 'returned', 'acknowledged', 'suppressed', 'unsuppressed', 'raised standing', 'returned standing'],
    name: 'latched_acknowledged',
  });
  // acknowledged while suppressed, with what was no alarm
  expect(run(of, [11, 5, 'stop', 11, 'acknowledge', 5, 'run']).name).toBe('normal');
});

test('what came before, or still stands after, is an alarm', () => {
  expect(run(of, [11, 'stop', 5, 'run'])).toMatchObject({
    told: ['raised', 'suppressed', 'unsuppressed', 'returned standing'],
    name: 'returned_to_normal_unacknowledged',
  });
  expect(run(of, ['stop', 11, 'run', 5])).toMatchObject({
    told: ['suppressed', 'unsuppressed', 'raised standing', 'returned'],
    name: 'returned_to_normal_unacknowledged',
  });
  // suppressed from one mode to another, and then shelved only
  expect(run(of, ['stop', 11, 'shelve', 'run', 5, 'unshelve'])).toMatchObject({
    told: ['suppressed', 'shelved', 'unsuppressed', 'unshelved', 'returned standing'],
    name: 'returned_to_normal_unacknowledged',
  });
});

test('the longest state is no longer for it: a digit for the letter', () => {
  expect(run(of, [11, 'stop', 5, 11]).state.told).toBe('5');
  expect(run(of, ['stop', 11]).state.told).toBe('0');
  expect(run({ ...of, latching: true }, [11, 5, 'stop', 11]).state.told).toBe('3');
  expect(run(of, [11, 'stop']).state.told).toBe('a');
});

test('the summary of a monitor says the same', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const prepared = prepareMonitor({ codes: [], alarms: [{ ...hot, suppressedInModes: ['stop'] }] });
  let state = startMonitor(prepared);
  for (const [time, celsius] of [50, 70, 50, 51].entries())
    state = advanceMonitor(prepared, state, { time, celsius, mode: time < 3 ? 'stop' : 'run' }).state;
  expect(alarmSummary(prepared, state).alarms).toMatchObject([{ id: 'hot', state: 'normal' }]);
});

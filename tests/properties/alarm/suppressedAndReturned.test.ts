/**
 * What the figure did while an alarm was suppressed by design raises none (the state diagram of ISA-18.2, from memory),
 * and counts for no delay and no deadband after it; each other return is told, whichever silence it came in. A
 * suppression whose mode comes no longer ends.
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
import { germanTexts } from '../../../src/german/index.ts';
import { advanceMonitor, alarmSummary, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';

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

const minute = 60000;
const low: AlarmConfig = { id: 'pressure', type: 'low', setpoint: 500, suppressedInModes: ['standstill'] };

/** Three days of a machine that stands at 20 kPa and runs 12 hours a day at 700 kPa, or at what it really has. */
function days(config: Partial<AlarmConfig>, everyMin: number, withTick: boolean, really = 700) {
  const prepared = prepareAlarm({ ...low, ...config });
  let state = startAlarm(prepared);
  const raised: number[] = [];
  const take = (input: AlarmInput) => {
    const step = advanceAlarm(prepared, state, input);
    state = step.state;
    for (const { event, time } of step.events) if (event === 'raised') raised.push((time / minute) % 1440);
  };
  for (let at = 0; at < 3 * 1440; at += everyMin) {
    const runs = at % 1440 >= 360 && at % 1440 < 1080;
    if (withTick && at % 1440 === 360) take({ kind: 'tick', time: at * minute - 1000, mode: 'running' });
    take({ time: at * minute, value: runs ? really + (at % 3) : 20, mode: runs ? 'running' : 'standstill' });
  }
  return raised;
}

test('a low pressure is no alarm at standstill, with any delay or deadband; a real one is, in time', () => {
  const none = { staleAfterMs: null } as const;
  for (const withTick of [false, true])
    for (const every of [5, 20])
      for (const onDelayMs of [0, 5 * minute, 30 * minute])
        for (const off of [{}, { offDelayMs: 0 }, { offDelayMs: 600000 }, { deadband: 250 }, { latching: true }]) {
          const given = { ...none, onDelayMs, ...off };
          expect(days(given, every, withTick), JSON.stringify(given)).toEqual([]);
          // the delay begins with the first reading of the running machine; once raised it stands
          const real = days(given, every, withTick, 300);
          expect(real[0]).toBe(360 + Math.ceil(onDelayMs / minute / every) * every);
        }
});

test('a delay that ran before a suppression, or in it, does not count after it', () => {
  const delayed = { ...of, onDelayMs: 5 };
  // beyond at 0 and 1, stands from 2 to 7
  const told = run(delayed, [11, 11, 'stop', 11, 11, 11, 11, 'run', 11, 11, 11]).told;
  expect(told).toEqual(['suppressed', 'unsuppressed']);
  expect(run(delayed, [11, 11, 'stop', 11, 11, 11, 11, 'run', 11, 11, 11, 11, 11]).told.pop()).toBe('raised');
  // nor where no reading lies in it
  const prepared = prepareAlarm(delayed);
  const step = (state: Parameters<typeof advanceAlarm>[1], input: AlarmInput) => advanceAlarm(prepared, state, input);
  let state = step(startAlarm(prepared), { time: 0, value: 11 }).state;
  state = step(state, { kind: 'tick', time: 1, mode: 'stop' }).state;
  state = step(state, { kind: 'tick', time: 9, mode: 'run' }).state;
  expect(step(state, { time: 10, value: 11 }).state.active).toBe(undefined);
});

test('readings that go on without a mode end a suppression; a machine at rest is left alone', () => {
  const hour = 60 * minute;
  const run = (staleAfterMs: number | null | undefined, every: number, modes: (i: number) => string | undefined) => {
    const prepared = prepareAlarm({ ...low, ...(staleAfterMs === undefined ? {} : { staleAfterMs }) });
    let state = startAlarm(prepared);
    const told: unknown[] = [];
    for (let i = 0; i < 400; i += 1) {
      const mode = modes(i);
      const value = i < 300 ? 700 : 20;
      const step = advanceAlarm(prepared, state, { time: i * every, value, ...(mode === undefined ? {} : { mode }) });
      state = resumeAlarm(prepared, JSON.parse(JSON.stringify(step.state))).state;
      for (const { event, time, since } of step.events)
        if (event !== 'suppressed') told.push([event, time / every, ...(since === undefined ? [] : [since / every])]);
    }
    return told;
  };
  const until10 = (i: number) => (i <= 10 ? 'standstill' : undefined);
  expect(run(hour, 10 * minute, until10)).toEqual([
    ['unsuppressed', 17, 10],
    ['raised', 300],
  ]);
  // a day where nothing is said
  expect(run(undefined, 10 * minute, until10)[0]).toEqual(['unsuppressed', 155, 10]);
  expect(run(null, 10 * minute, until10)).toEqual([]);
  expect(run(hour, 10 * minute, (i) => (i % 6 === 0 ? 'standstill' : undefined))).toEqual([]);
  // a state that does not remember when the mode came begins anew; no figures come: nothing is told of the mode
  const prepared = prepareAlarm({ ...low, staleAfterMs: hour });
  const { modeAt: _, ...before } = advanceAlarm(prepared, startAlarm(prepared), {
    ...{ time: 0, value: 20, mode: 'standstill' },
  }).state;
  const resumed = resumeAlarm(prepared, before).state;
  const quiet = advanceAlarm(prepared, resumed, { kind: 'tick', time: 99 * hour });
  expect(quiet.events).toEqual([]);
  expect(advanceAlarm(prepared, quiet.state, { time: 99 * hour, value: null }).events.pop()?.event).toBe(undefined);
  expect(advanceAlarm(prepared, quiet.state, { time: 101 * hour, value: 20 }).events[0]).toEqual({
    ...{ time: 101 * hour, alarm: 'pressure', event: 'unsuppressed', silentRaises: 1, since: 99 * hour },
  });
});

test('it is told in words since when no mode has come', () => {
  const event = { time: 7.2e6, alarm: 'W', event: 'unsuppressed', silentRaises: 0 } as const;
  expect(messageOf({ ...event, since: 0 }).line).toBe(
    'W: alarm no longer suppressed. No mode of the machine has come since 1970-01-01 00:00: it is announced again.',
  );
  expect(messageOf({ ...event, since: 0 }, germanTexts).line).toContain('Seit 1970-01-01 00:00 kam keine Betriebsart');
  expect(messageOf(event).line).toContain('The mode of the machine no longer suppresses it.');
});

test('the summary of a monitor says the same', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const prepared = prepareMonitor({ codes: [], alarms: [{ ...hot, suppressedInModes: ['stop'] }] });
  let state = startMonitor(prepared);
  for (const [time, celsius] of [50, 70, 50, 51].entries())
    state = advanceMonitor(prepared, state, { time, celsius, mode: time < 3 ? 'stop' : 'run' }).state;
  expect(alarmSummary(prepared, state).alarms).toMatchObject([{ id: 'hot', state: 'normal' }]);
});

/** An alarm on a clock that has been set: all that comes after is as it would have been, by as much later. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmEvent,
  type AlarmInput,
  type AlarmState,
  advanceAlarm,
  prepareAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { lettersIn } from '../../../src/alarm/memory.ts';
import { moveClock } from '../../../src/alarm/step.ts';
import { earliestWritten, latestWritten } from '../../../src/rules/bounds.ts';
import { timeAt } from '../../../src/state/packed.ts';

/** A 24th of the time looked back over; the clock is set by whole ones. */
const part = 1000;
const config: fc.Arbitrary<Omit<AlarmConfig, 'type' | 'withinMs'>> = fc.record({
  id: fc.constant('x'),
  setpoint: fc.constant(4),
  latching: fc.boolean(),
  staleAfterMs: fc.constantFrom(7 * part, 1e9),
  chattering: fc.constantFrom({ raises: 2, withinMs: 9 * part }, { raises: 3, withinMs: 20 * part }),
  reAlarmAfterMs: fc.constant(5 * part),
});
const looked = fc.constantFrom<Pick<AlarmConfig, 'type' | 'withinMs'>>(
  { type: 'high' },
  { type: 'low' },
  { type: 'rise', withinMs: 24 * part },
  { type: 'fall', withinMs: 24 * part },
);
const input = fc.oneof(
  { weight: 6, arbitrary: fc.record({ value: fc.integer({ min: 0, max: 9 }) }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      { kind: 'command', command: 'shelve', forMs: 6 * part },
      { kind: 'command', command: 'shelve', forMs: 6 * part, oneShot: true },
      { kind: 'command', command: 'acknowledge' },
    ),
  },
);
const course = fc.array(fc.tuple(fc.constantFrom(0, 1, part - 1, part, 4 * part), input), { maxLength: 20 });

function run(of: AlarmConfig, before: AlarmState, from: number, steps: readonly (readonly [number, object])[]) {
  const prepared = prepareAlarm(of);
  const events: AlarmEvent[] = [];
  let [state, time] = [before, from];
  for (const [wait, given] of steps) {
    time += wait;
    const step = advanceAlarm(prepared, state, { time, ...given } as AlarmInput);
    state = step.state;
    events.push(...step.events);
  }
  return { state, events, time };
}

test('events and state after it are the same but for the time', () => {
  fc.assert(
    fc.property(config, looked, course, course, fc.integer({ min: -500, max: 500 }), (rest, what, one, two, parts) => {
      const of = { ...rest, ...what } as AlarmConfig;
      const by = parts * part;
      const { state, time } = run(of, startAlarm(prepareAlarm(of)), 1e6, one);
      const { version, of: meaning, time: _time, read: _read, ...whole } = state;
      // commands are of the host's clock, which has not been set
      const { told = '', ...others } = whole;
      const memory = { ...others, told: lettersIn(told) };
      const into = { version, of: meaning, time: time + by };
      const moved = moveClock(prepareAlarm(of), memory, time, time + by, into) as AlarmState;
      const here = run(of, { ...state, told: lettersIn(told) }, time, two);
      const there = run(of, moved, time + by, two);
      const later = ({ time: at, until, since, ...event }: AlarmEvent): object => ({
        ...event,
        time: at + by,
        ...(until === undefined ? {} : { until: until + by }),
        ...(since === undefined ? {} : { since: since + by }),
      });
      expect(there.events).toEqual(here.events.map(later));
      const times = ({ raises = '' }: AlarmState) =>
        Array.from({ length: raises.length / 9 }, (_, i) => timeAt(raises, 9 * i));
      const all = ['active', 'latched', 'unacknowledged', 'silentRaises', 'value', 'extremes', 'usualMs'] as const;
      for (const name of all) expect(there.state[name]).toEqual(here.state[name]);
      expect(times(there.state)).toEqual(times(here.state).map((at) => at + by));
    }),
    { numRuns: 300 },
  );
});

test('delays begin anew, and no time lies beyond those there are', () => {
  const prepared = prepareAlarm({ id: 'x', type: 'high', setpoint: 4, onDelayMs: 10, reAlarmAfterMs: 5 });
  const [first, last] = [earliestWritten, latestWritten];
  const raised = run({ id: 'x', type: 'high', setpoint: 4, reAlarmAfterMs: 5 }, startAlarm(prepared), 0, [
    [0, { value: 9 }],
    [7, { value: 9 }],
    [0, { kind: 'command', command: 'shelve', forMs: 10 }],
  ]).state;
  const { version: _version, of: _of, time: _time, read: _read, ...memory } = { ...raised, pending: 3 };
  for (const [to, sign] of [
    [last, 1],
    [first, -1],
  ] as const) {
    const far = moveClock(prepared, memory, -sign, to, {}) as AlarmState;
    const moved = (time: number) => Math.max(first, Math.min(last, time + to + sign));
    // told as of then, unless that would lie ahead
    const times = {
      since: sign > 0 ? 0 : moved(0),
      realarmed: moved(5),
      heard: moved(7),
      shelf: { until: moved(17) },
    };
    expect(far).toMatchObject(times);
    expect(far.pending).toBeUndefined();
    expect(timeAt(far.raises as string, 0)).toBe(moved(0));
  }
  const { since, realarmed, heard } = moveClock(prepared, memory, 7, 107, {}) as AlarmState;
  expect([since, realarmed, heard]).toEqual([0, 105, 107]);
});

test('a clock that is set moves no time that is not there', () => {
  const prepared = prepareAlarm({ id: 'x', type: 'high', setpoint: 4 });
  expect(moveClock(prepared, {}, 0, 5000, {})).toStrictEqual({});
  expect(moveClock(prepared, { since: 7, heard: 9 }, 0, 5000, {})).toStrictEqual({ since: 7, heard: 5009 });
  expect(moveClock(prepared, { since: 7, heard: 9 }, 10, 8, {})).toStrictEqual({ since: 7, heard: 7 });
  expect(moveClock(prepared, { since: 7, heard: 9 }, 10, 6, {})).toStrictEqual({ since: 3, heard: 5 });
});

test('a re-alarm is due as soon after it as before, and no sooner told', () => {
  const plain = prepareAlarm({ id: 'x', type: 'high', setpoint: 4 });
  const again = prepareAlarm({ id: 'x', type: 'high', setpoint: 4, reAlarmAfterMs: 5 });
  expect(moveClock(again, {}, 0, 5000, {})).toStrictEqual({});
  expect(moveClock(again, { since: 7 }, 10, 5010, {})).toStrictEqual({ since: 7, realarmed: 5007 });
  expect(moveClock(plain, { since: 7, realarmed: 9 }, 10, 5010, {})).toStrictEqual({ since: 7, realarmed: 5009 });
  // raised at the very time that it is set to
  expect(moveClock(plain, { since: 8 }, 10, 8, {})).toStrictEqual({ since: 8 });
});

/** Alarms against their definition, which looks back over the whole history, on thousands of random configurations. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmInput,
  type AlarmState,
  advanceAlarm,
  alarmStateName,
  prepareAlarm,
  resumeAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { some } from '../../volume.ts';
import { modelOf } from './alarmModel.ts';

const runs = some(4000, 800);

const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
const settings = fc.record(
  {
    deadband: maybe(fc.constantFrom(0, 0.5, 1, 1.9)),
    onDelayMs: maybe(fc.constantFrom(0, 1, 100, 250)),
    offDelayMs: maybe(fc.constantFrom(0, 100, 251)),
    latching: maybe(fc.boolean()),
    staleAfterMs: fc.constantFrom(null, 150, 300, 5000),
    reAlarmAfterMs: maybe(fc.constantFrom(70, 333, 1000)),
    longestShelfMs: maybe(fc.constantFrom(200, 28800000)),
    suppressedInModes: maybe(fc.constantFrom(['standstill'], ['standstill', 'service'])),
    priority: maybe(fc.constantFrom('low' as const, 'urgent' as const)),
  },
  { requiredKeys: ['staleAfterMs'] },
);
const looked = fc.oneof(
  fc.record({ type: fc.constantFrom('high' as const, 'low' as const), setpoint: fc.constantFrom(10, 9.5) }),
  fc.record({
    type: fc.constantFrom('rise' as const, 'fall' as const),
    setpoint: fc.constantFrom(2, 2.5),
    withinMs: fc.constantFrom(48, 240, 1000),
  }),
);
const config: fc.Arbitrary<AlarmConfig> = fc
  .tuple(settings, looked)
  .map(([own, at]) => JSON.parse(JSON.stringify({ id: 'x', ...own, ...at })));

const step = fc.constantFrom(-120, -1, 0, 1, 10, 69, 70, 99, 100, 101, 150, 151, 250, 333);
const mode = maybe(fc.constantFrom('running', 'standstill', 'service'));
const untimed = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({
      value: fc.constantFrom(7, 7.5, 8, 8.5, 9, 9.5, 9.6, 10, 10.1, 11, 12, 13, null),
      quality: maybe(fc.constantFrom('good' as const, 'uncertain' as const, 'bad' as const)),
      mode,
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('tick' as const), mode }) },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant('command' as const),
      command: fc.constantFrom('acknowledge', 'reset', 'unshelve', 'remove_from_service', 'return_to_service'),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('command' as const),
      command: fc.constant('shelve'),
      forMs: fc.constantFrom(50, 100, 201, 600),
      oneShot: fc.boolean(),
    }),
  },
);
const history = fc.array(fc.tuple(step, untimed), { minLength: 1, maxLength: 30, size: 'max' }).map((list) => {
  let time = 1.8e12;
  return list.map(([after, input]): AlarmInput => {
    time += after;
    return JSON.parse(JSON.stringify({ time, ...input }));
  });
});

test(`${runs} configurations: state and events are those of the definition; a restart changes nothing`, () => {
  const names = new Set<string>();
  fc.assert(
    fc.property(config, history, (of, inputs) => {
      const prepared = prepareAlarm(of);
      let state: AlarmState = startAlarm(prepared);
      const raised: number[] = [];
      const returned: number[] = [];
      inputs.forEach((input, i) => {
        // killed and started again
        const saved = resumeAlarm(JSON.parse(JSON.stringify(prepared)), JSON.parse(JSON.stringify(state)));
        expect(saved.state).toEqual(state);
        expect(saved.events).toEqual([]);
        const next = advanceAlarm(prepared, saved.state, input);
        state = next.state;
        for (const { event, time, standing } of next.events) {
          if (event === 'raised' && standing !== true) raised.push(time);
          if (event === 'returned' && standing !== true) returned.push(time);
        }
        const model = modelOf(of, inputs.slice(0, i + 1));
        const name = alarmStateName(state);
        names.add(name);
        expect(name).toBe(model.name);
        expect(state.active === true).toBe(model.active);
        expect(raised).toEqual(model.toldRaised);
        expect(returned).toEqual(model.toldReturned);
      });
    }),
    { numRuns: runs },
  );
  expect(names.size).toBe(9);
});

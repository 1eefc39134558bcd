/** A monitor killed and started again at every input tells what one tells that runs on: all kinds of inputs. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import {
  advanceMonitor,
  type MonitorEvent,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const prepared = prepareMonitor({
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', suppressedInModes: ['standby'] },
    {
      ...{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, latching: true },
      ...{ reAlarmAfterMs: 5 * minute, chattering: { raises: 2, withinMs: 60 * minute } },
    },
    { id: 'rise', type: 'rise', figure: { quantity: 'celsius' }, setpoint: 8, withinMs: 30 * minute },
  ],
  follow: [{ id: 'celsius', figure: { quantity: 'celsius' }, blockMs: minute, blocks: 8, least: 5 }],
});

const alarm = fc.constantFrom('code', 'hot', 'rise');
const mode = fc.constantFrom('running', 'standby');
const reading = fc.record(
  {
    celsius: fc.constantFrom(40, 50, 59, 61, 70),
    mlPerMin: fc.constantFrom(0, 40, 60),
    codes: fc.constantFrom({ iso4406: '18/16/13' }, { iso4406: '20/18/15' }),
    mode,
  },
  { requiredKeys: [] },
);
const command = fc.record({
  kind: fc.constant('command' as const),
  alarm,
  command: fc.constantFrom('acknowledge', 'reset', 'unshelve', 'remove_from_service', 'return_to_service'),
});
const shelve = fc.record({
  ...{ kind: fc.constant('command' as const), alarm, command: fc.constant('shelve') },
  ...{ forMs: fc.constantFrom(minute, 20 * minute), oneShot: fc.boolean() },
});
const tick = fc.record({ kind: fc.constant('tick' as const), mode }, { requiredKeys: ['kind'] });
const relearn = fc.constant({ kind: 'relearn' as const });
const after = fc.constantFrom(-2 * minute, 0, 1000, minute, minute, minute, 3 * minute, 40 * minute, 3000 * minute);
const untimed = fc.oneof(
  { weight: 8, arbitrary: reading },
  { weight: 2, arbitrary: command },
  ...[shelve, tick, relearn].map((arbitrary) => ({ weight: 1, arbitrary })),
);

test('every input, killed and started again before it', () => {
  const seen: { [event: string]: true } = {};
  fc.assert(
    fc.property(fc.array(fc.tuple(after, untimed), { minLength: 1, maxLength: 60 }), (list) => {
      let time = 1.8e12;
      let on = startMonitor(prepared);
      let again = on;
      for (const [ms, one] of list) {
        time += ms;
        const input = { time, ...one } as MonitorInput;
        const step = advanceMonitor(prepared, on, input);
        const resumed = resumeMonitor(prepared, JSON.parse(JSON.stringify(again)));
        expect([resumed.events, resumed.dropped, resumed.added]).toEqual([[], [], []]);
        const restarted = advanceMonitor(prepared, resumed.state, input);
        expect(restarted).toEqual(step);
        on = step.state;
        again = restarted.state;
        for (const { event } of step.events as MonitorEvent[]) seen[event] = true;
      }
    }),
    { numRuns: some(300, 120) },
  );
  expect(Object.keys(seen)).toEqual(
    expect.arrayContaining(['suppressed', 'unsuppressed', 're_alarmed', 'chattering', 'relearning', 'shelved', 'late']),
  );
  expect(Object.keys(seen)).toEqual(expect.arrayContaining(['set_aside', 'clock_set', 'refused', 'quality_bad']));
});

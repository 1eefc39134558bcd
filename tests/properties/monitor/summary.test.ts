/** What stands by the state alone is what the verdict says, and what commands and ticks have made of it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  alarmSummary,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { advanceChange, prepareChange, startChange } from '../../../src/trend/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const begin = Date.UTC(2026, 5, 1);
const prepared = prepareMonitor({
  codes: [],
  staleAfterMs: 30 * minute,
  alarms: [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, latching: true },
    {
      id: 'low flow',
      type: 'low',
      figure: { quantity: 'mlPerMin' },
      setpoint: 20,
      onDelayMs: 3 * minute,
      priority: 'high',
      note: 'See the filter.',
    },
  ],
});

/** What the configuration says of each. */
const hotSays = { id: 'hot', setpoint: 60, priority: 'medium', figure: 'celsius' };
const flowSays = { id: 'low flow', setpoint: 20, priority: 'high', figure: 'mlPerMin', note: 'See the filter.' };

/** The rows of a summary after inputs so many minutes after the beginning. */
function shownAfter(inputs: readonly (readonly [number, object])[]) {
  let state = startMonitor(prepared);
  for (const [minutes, input] of inputs)
    state = advanceMonitor(prepared, state, { ...input, time: begin + minutes * minute } as MonitorInput).state;
  return alarmSummary(prepared, state);
}

describe('alarmSummary', () => {
  test('of an alarm on a change, and of one on a code, whose value is in classes', () => {
    const figure = { quantity: 'celsius' } as const;
    const both = prepareMonitor({
      codes: [{ table: iso4406 }],
      alarms: [
        { id: 'fast', type: 'rise', figure, setpoint: 5, withinMs: 60 * minute },
        { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' },
      ],
    });
    const counts = cumulativeCounts({ 4: 25000, 6: 7000, 14: 330 }, { volumeMl: 10 });
    let state = advanceMonitor(both, startMonitor(both), { time: begin, celsius: 40 }).state;
    state = advanceMonitor(both, state, { time: begin + minute, celsius: 47, counts }).state;
    expect(alarmSummary(both, state).alarms).toEqual([
      {
        ...{ id: 'fast', state: 'unacknowledged_alarm', since: begin + minute, value: 7, setpoint: 5 },
        ...{ priority: 'medium', figure: 'celsius', type: 'rise', withinMs: 60 * minute },
      },
      {
        ...{ id: 'dirty', state: 'unacknowledged_alarm', since: begin + minute, value: 1, setpoint: '18/16/13' },
        ...{ priority: 'medium', figure: 'code iso4406' },
      },
    ]);
  });

  test('of a monitor that has heard nothing', () => {
    expect(shownAfter([])).toEqual({
      time: null,
      stale: false,
      bad: [],
      alarms: [
        { ...hotSays, state: 'normal', since: null, value: null },
        { ...flowSays, state: 'normal', since: null, value: null },
      ],
      followed: [],
    });
  });

  test('follows commands and ticks, which have no verdict', () => {
    const hot = [[0, { celsius: 70, mlPerMin: 50 }]] as const;
    expect(shownAfter(hot).alarms[0]).toEqual({ ...hotSays, state: 'unacknowledged_alarm', since: begin, value: 70 });
    const acknowledged = [...hot, [1, { kind: 'command', command: 'acknowledge', alarm: 'hot' }]] as const;
    expect(shownAfter(acknowledged).alarms[0]).toEqual({
      ...hotSays,
      state: 'acknowledged_alarm',
      since: begin,
      value: 70,
    });
    const low = [[0, { mlPerMin: 5 }]] as const;
    expect(shownAfter(low).alarms[1]).toEqual({ ...flowSays, state: 'normal', since: null, value: 5 });
    const raised = shownAfter([...low, [3, { mlPerMin: 5 }], [4, { kind: 'tick' }]]);
    expect(raised.alarms[1]).toEqual({
      ...{ ...flowSays, state: 'unacknowledged_alarm', since: begin + 3 * minute, value: 5 },
    });
    expect(raised.stale).toBe(false);
    expect(shownAfter([...low, [31, { kind: 'tick' }]]).stale).toBe(true);
    expect(shownAfter([[0, { celsius: 70, qualities: { celsius: 'bad' } }]]).bad).toEqual(['celsius']);
  });

  test('says of each reading what its verdict says, from a saved state too', () => {
    const inputs = fc.array(
      fc.record({
        minutes: fc.integer({ min: 0, max: 90 }),
        celsius: fc.constantFrom(40, 59, 61, 75),
        mlPerMin: fc.constantFrom(0, 10, 25, 60),
        command: fc.constantFrom(null, null, 'acknowledge', 'reset', 'remove_from_service'),
      }),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(inputs, (list) => {
        let state = startMonitor(prepared);
        let time = begin;
        for (const { minutes, celsius, mlPerMin, command } of list) {
          time += minutes * minute;
          if (command !== null)
            state = advanceMonitor(prepared, state, {
              kind: 'command',
              time,
              command,
              alarm: 'hot',
            } as MonitorInput).state;
          const step = advanceMonitor(prepared, state, { time, celsius, mlPerMin });
          state = resumeMonitor(prepared, JSON.parse(JSON.stringify(step.state))).state;
          const summary = alarmSummary(prepared, state);
          expect(summary.alarms.map(({ id, state: name }) => [id, name])).toEqual(
            step.verdict?.alarms.map(({ id, state: name }) => [id, name]),
          );
          expect(summary.time).toBe(time);
        }
      }),
      { numRuns: some(2000, 100) },
    );
  });

  test('says how small a step of a followed figure would be told, as the detector by itself does', () => {
    const follow = [
      { id: 'six', figure: { other: 'six' }, least: 0.5 },
      { id: 'hot', figure: { quantity: 'celsius' } },
    ] as const;
    const watch = prepareMonitor({ codes: [], follow });
    const day = 86400000;
    const first = Math.floor(begin / day);
    const detector = prepareChange({ least: 0.5 });
    let [state, change] = [startMonitor(watch), startChange()];
    const take = (input: object) => {
      state = resumeMonitor(watch, advanceMonitor(watch, state, input as MonitorInput).state).state;
      return alarmSummary(watch, state).followed;
    };
    expect(alarmSummary(watch, state).followed[0]).toEqual({
      ...{ id: 'six', figure: 'other six', standing: 'learning', smallestStep: null },
    });
    let yesterday = 0;
    for (let at = 0; at < 60; at += 1) {
      // three classes above at first, fading by a seventh a day
      const six = 16 + 3 * (6 / 7) ** at + 0.2 * Math.sin(at * at);
      const [sight, silent] = take({ time: (first + at) * day, others: { six }, celsius: 40 });
      expect(silent).toEqual({ id: 'hot', figure: 'celsius', standing: 'not_asked', smallestStep: null });
      const step = at === 0 ? null : advanceChange(detector, change, { day: first + at - 1, value: yesterday });
      change = step?.state ?? change;
      expect(sight?.standing).toBe(step?.standing ?? 'learning');
      if (step?.smallestStep == null) expect(sight?.smallestStep).toBeNull();
      else expect(sight?.smallestStep).toBeCloseTo(step.smallestStep, 5);
      yesterday = six;
    }
    for (let at = 60; at < 100; at += 1) take({ kind: 'tick', time: (first + at) * day });
    const silent = take({ kind: 'tick', time: (first + 100) * day });
    expect(silent[0]).toMatchObject({ standing: 'cannot_judge', smallestStep: null });
    expect(take({ kind: 'relearn', time: (first + 101) * day })[0]).toMatchObject({ smallestStep: null });
  });

  test('refuses a state of another configuration', () => {
    const other = startMonitor(prepareMonitor({ codes: [] }));
    expect(() => alarmSummary(prepared, other)).toThrow(/state\.alarms/);
  });
});

/** What stands by the state alone is what the verdict says, and what commands and ticks have made of it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  alarmSummary,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const begin = Date.UTC(2026, 5, 1);
const prepared = prepareMonitor({
  codes: [],
  staleAfterMs: 30 * minute,
  alarms: [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, latching: true },
    { id: 'low flow', type: 'low', figure: { quantity: 'mlPerMin' }, setpoint: 20, onDelayMs: 3 * minute },
  ],
});

/** The rows of a summary after inputs so many minutes after the beginning. */
function shownAfter(inputs: readonly (readonly [number, object])[]) {
  let state = startMonitor(prepared);
  for (const [minutes, input] of inputs)
    state = advanceMonitor(prepared, state, { ...input, time: begin + minutes * minute } as MonitorInput).state;
  return alarmSummary(prepared, state);
}

describe('alarmSummary', () => {
  test('of a monitor that has heard nothing', () => {
    expect(shownAfter([])).toEqual({
      time: null,
      stale: false,
      bad: [],
      alarms: [
        { id: 'hot', state: 'normal', since: null },
        { id: 'low flow', state: 'normal', since: null },
      ],
    });
  });

  test('follows commands and ticks, which have no verdict', () => {
    const hot = [[0, { celsius: 70, mlPerMin: 50 }]] as const;
    expect(shownAfter(hot).alarms[0]).toEqual({ id: 'hot', state: 'unacknowledged_alarm', since: begin });
    const acknowledged = [...hot, [1, { kind: 'command', command: 'acknowledge', alarm: 'hot' }]] as const;
    expect(shownAfter(acknowledged).alarms[0]).toEqual({ id: 'hot', state: 'acknowledged_alarm', since: begin });
    const low = [[0, { mlPerMin: 5 }]] as const;
    expect(shownAfter(low).alarms[1]).toEqual({ id: 'low flow', state: 'normal', since: null });
    const raised = shownAfter([...low, [3, { mlPerMin: 5 }], [4, { kind: 'tick' }]]);
    expect(raised.alarms[1]).toEqual({ id: 'low flow', state: 'unacknowledged_alarm', since: begin + 3 * minute });
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

  test('refuses a state of another configuration', () => {
    const other = startMonitor(prepareMonitor({ codes: [] }));
    expect(() => alarmSummary(prepared, other)).toThrow(/state\.alarms/);
  });
});

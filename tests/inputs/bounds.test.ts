/** Shared bounds, at their edges; and the rules of older states, which stand still. */
import { describe, expect, test } from 'vitest';
import { advanceAlarm, prepareAlarm, resumeAlarm, startAlarm } from '../../src/alarm/index.ts';
import { prepareMonitor, resumeMonitor, startMonitor } from '../../src/monitor/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import {
  earliestWritten,
  farthest,
  largestDifference,
  largestFigure,
  largestWhole,
  latestWritten,
  smallestFigure,
} from '../../src/rules/bounds.ts';
import {
  advanceFlowControl,
  type FlowControlState,
  prepareFlowControl,
  startFlowControl,
} from '../../src/sampling/index.ts';

describe('the bounds that several folders share', () => {
  test('the span of times is that of ECMA-262, Time Values and Time Range', () => {
    expect([new Date(farthest).getTime(), new Date(-farthest).getTime()]).toEqual([farthest, -farthest]);
    expect(new Date(farthest + 1).getTime()).toBeNaN();
    // those that can be written lie a leap year within the years of four digits
    const year = 366 * 86400000;
    expect(earliestWritten).toBe(Date.parse('0001-01-01T00:00:00Z') + year);
    expect(latestWritten).toBe(Date.parse('9999-12-31T23:59:59.999Z') - year);
  });

  test('whole numbers end where a double no longer holds each', () => {
    expect(largestWhole).toBe(Number.MAX_SAFE_INTEGER);
  });

  test('figures are those of the trade, and a difference of two is kept', () => {
    expect([smallestFigure, largestFigure, largestDifference]).toEqual([1e-60, 1e60, 2e60]);
  });

  test.each([
    ['an alarm, at the last of times', latestWritten, 1e60, null],
    ['an alarm, after it', latestWritten + 1, 1, 'input.time'],
    ['an alarm, at the first of times', earliestWritten, 1e60, null],
    ['an alarm, before it', earliestWritten - 1, 1, 'input.time'],
    ['an alarm, at the largest figure', 0, -1e60, null],
    ['an alarm, beyond it', 0, 1.001e60, 'input.value'],
  ])('%s', (_what, time, value, parameter) => {
    const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
    const advance = () => advanceAlarm(prepared, startAlarm(prepared), { time, value });
    if (parameter === null) expect(advance().state.time).toBe(time);
    else expect(advance).toThrow(expect.objectContaining({ code: 'out_of_range', parameter }));
  });
});

test.each([
  ['bad', 'uncertain', 'uncertain'],
  ['bad', 'bad', 'bad'],
  ['uncertain', 'bad', 'uncertain'],
  ['uncertain', 'uncertain', 'uncertain'],
  ['good', 'bad', 'good'],
  ['good', 'uncertain', 'good'],
] as const)('limit %s, and the instrument says %s: %s', (limit, own, quality) => {
  const reading = { celsius: 40, qualities: { celsius: own } };
  const { figureQualities } = assessReading(reading, { qualities: { flagged_by_instrument: limit } });
  expect(figureQualities.celsius).toBe(quality);
});

test('the side of a swing is one of three', () => {
  const prepared = prepareFlowControl({
    ...{ mlPerMin: 45, gain: 0.2, integralSeconds: 4, leastPercent: 8, mostPercent: 92, slewPerSecond: 4 },
  });
  const state = startFlowControl(prepared);
  const swinging = (side: number) => ({ ...state, swing: { ...state.swing, side } }) as FlowControlState;
  const step = (side: number) => () => advanceFlowControl(prepared, swinging(side), { elapsedSeconds: 1, mlPerMin: 9 });
  for (const side of [-1, 0, 1]) expect(step(side)).not.toThrow();
  expect(step(2)).toThrow(expect.objectContaining({ code: 'bad_state', parameter: 'state.swing.side' }));
});

describe('an alarm state of 0.1.0 at its longest', () => {
  const prepared = prepareAlarm({ id: 'rise', type: 'rise', setpoint: 5, withinMs: 86400000 });
  const times = (count: number) => Array.from({ length: count }, (_x, i) => i);
  const extremes = times(25).map((part) => [part, 2e60]);
  const full = {
    ...{ version: 1, time: 25 * 3600000, read: 30, active: false, latched: false, acknowledged: true, changed: null },
    ...{ pending: null, shelf: { until: 60, oneShot: false }, outOfService: false, silentRaises: 0, value: 2e60 },
    ...{ announced: { active: true, stale: true, chattering: true }, heard: 30, stale: false, chattering: false },
    ...{ raises: times(20), extremes },
  };

  test('goes on', () => {
    const { state, kept } = resumeAlarm(prepared, full);
    expect([kept, state.extremes?.length, state.raises?.length, state.told]).toEqual([['rise'], 275, 180, 'asc']);
  });

  test.each([
    ['extremes', { extremes: [...extremes, [25, 0]] }],
    ['raises', { raises: times(21) }],
    ['value', { value: 2.1e60 }],
  ])('%s beyond it is refused', (name, more) => {
    expect(() => resumeAlarm(prepared, { ...full, ...more })).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter: `state.${name}` }),
    );
  });

  test('a version between that and this was never one', () => {
    expect(() => resumeAlarm(prepared, { ...startAlarm(prepared), version: 2 })).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter: 'state.version' }),
    );
    const monitor = prepareMonitor({ codes: [] });
    expect(() => resumeMonitor(monitor, { ...startMonitor(monitor), version: 2 })).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter: 'state.version' }),
    );
  });
});

/** Shared bounds, at their edges; and the rules of older states, which stand still. */
import { describe, expect, test } from 'vitest';
import { advanceAlarm, prepareAlarm, resumeAlarm, startAlarm } from '../../src/alarm/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { farthest, largestDifference, largestFigure, largestWhole, smallestFigure } from '../../src/rules/bounds.ts';
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
  });

  test('whole numbers end where a double no longer holds each', () => {
    expect(largestWhole).toBe(Number.MAX_SAFE_INTEGER);
  });

  test('figures are those of the trade, and a difference of two is kept', () => {
    expect([smallestFigure, largestFigure, largestDifference]).toEqual([1e-60, 1e60, 2e60]);
  });

  test.each([
    ['an alarm, at the last of times', farthest, 1e60, null],
    ['an alarm, after it', farthest + 2, 1, 'input.time'],
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

describe('an alarm state of version 2 at its longest', () => {
  const prepared = prepareAlarm({ id: 'rise', type: 'rise', setpoint: 5, withinMs: 86400000 });
  // 25 extremes of eleven characters: the part of time, and a figure of 0
  const extremes = `#${'#'.repeat(10)}`.repeat(25);
  const raises = Array.from({ length: 20 }, (_x, i) => i);
  const full = { version: 2, of: prepared.of, time: 30, part: 0, extremes, raises, told: ['active', 'bad'] };

  test('goes on', () => {
    const { state, kept } = resumeAlarm(prepared, full);
    expect([kept, state.extremes?.length, state.raises?.length]).toEqual([['rise'], 275, 180]);
  });

  test.each([
    ['extremes', { extremes: `${extremes}#` }],
    ['raises', { raises: [...raises, 20] }],
    ['told', { told: ['active', 'bad', 'stale', 'chattering', 'active'] }],
    ['value', { value: 2.1e60 }],
  ])('%s beyond it is refused', (name, more) => {
    expect(() => resumeAlarm(prepared, { ...full, ...more })).toThrow(
      expect.objectContaining({ code: 'bad_state', parameter: `state.${name}` }),
    );
  });
});

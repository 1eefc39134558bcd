/**
 * Single steps of the flow controller by hand, with all that it remembers of them: a setpoint of 100 mL/min, 0.5 % for
 * each mL/min, an integral time of 4 s, a deadband of 3 mL/min, 4 %/s, 20 to 70 %. At 80 mm²/s the feed-forward is
 * 40 %.
 */
import { describe, expect, test } from 'vitest';
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlInput,
  type FlowControlState,
  prepareFlowControl,
  startFlowControl,
} from '../../../src/sampling/index.ts';

const config: FlowControlConfig = {
  ...{ mlPerMin: 100, gain: 0.5, integralSeconds: 4, deadbandMlPerMin: 3 },
  ...{ leastPercent: 20, mostPercent: 70, slewPerSecond: 4 },
};
const curve = [20, 80].map((mm2PerS) => ({ mm2PerS, percent: mm2PerS / 2 }));
const fed: FlowControlConfig = { ...config, feedForward: { curve, mlPerMin: 100 } };

const calm = { side: 0, mean: 0, seconds: 0, count: 0 } as const;
const running: FlowControlState = {
  ...{ version: 2, percent: 50, integral: 40, feedForward: null, mlPerMin: 100, mm2PerS: null },
  ...{ mode: 'automatic', byHand: false, lost: false, lostSeconds: 0, outside: false, swing: calm },
};
/** With 40 % of the viscosity, which has the next 30 mL/min for itself. */
const runningFed = { ...running, integral: 10, feedForward: 40, mm2PerS: 80, left: { mlPerMin: 30, seconds: 5 } };
const still = (mlPerMin: number, percent: number | null, told = false) => {
  return { mlPerMin, percent, seconds: 0, farSeconds: 0, told };
};

function next(of: FlowControlConfig, state: FlowControlState, input: Partial<FlowControlInput>) {
  const step = advanceFlowControl(prepareFlowControl(of), state, { elapsedSeconds: 10, mlPerMin: 91, ...input });
  expect(step.state.percent).toBe(step.percent);
  return step.state;
}

test('9 mL/min too little: 3 % at once, 7.5 % in 10 s', () => {
  expect(next(config, running, {})).toStrictEqual({
    ...{ ...running, percent: 50.5, integral: 47.5, swing: { ...calm, mean: 3, seconds: 10, turns: 1 } },
    ...{ off: { seconds: 0, told: false, mean: 2.25 }, still: still(91, 50) },
  });
});

test('at a limit the integral part takes as much as the output can follow, on either side', () => {
  expect(next(config, { ...running, percent: 69, integral: 66 }, {})).toMatchObject({ percent: 70, integral: 67 });
  const above = { ...running, percent: 21, integral: 24 };
  expect(next(config, above, { mlPerMin: 109 })).toMatchObject({ percent: 20, integral: 23 });
});

test('a speed of 0 by hand: at once, and stays; with a start it starts anew', () => {
  const stopped = (percent: number) =>
    next(config, { ...running, percent }, { elapsedSeconds: 1, manualPercent: 0 }).percent;
  expect([50, 21, 20].map(stopped)).toEqual([0, 0, 0]);
  const stood = { ...running, percent: 0, mode: 'manual', byHand: true } as const;
  expect(next(config, stood, {})).toMatchObject({ mode: 'manual', percent: 0, byHand: true });
  expect(next(config, stood, { start: true })).toMatchObject({
    mode: 'automatic',
    percent: 20,
    integral: 0,
    byHand: false,
  });
});

describe('what stands where the flow does not set the speed', () => {
  const off = { seconds: 50, told: true, mean: 9 };
  const before = { ...running, off, atLimit: { seconds: 7, told: false }, still: still(91, 30) };

  test('by hand: what is off and at a limit; a signal that has stopped where it is told', () => {
    const { still: _, ...rest } = before;
    const byHand = { mode: 'manual', byHand: true, percent: 60, swing: { ...calm, seconds: 10 } };
    expect(next(config, before, { manualPercent: 60 })).toStrictEqual({ ...rest, ...byHand });
    const told = { ...before, still: still(91, 30, true) };
    const goesOn = { ...told.still, seconds: 10, farSeconds: 10 };
    expect(next(config, told, { manualPercent: 60 })).toStrictEqual({ ...told, ...byHand, still: goesOn });
    expect(next(fed, runningFed, { manualPercent: 60, mm2PerS: 80 })).not.toHaveProperty('left');
  });

  test('without a signal: all of it', () => {
    const lost = { mode: 'holding', lost: true, lostSeconds: 10, lostSteps: 1, swing: { ...calm, seconds: 10 } };
    expect(next(config, before, { mlPerMin: null })).toStrictEqual({ ...before, ...lost });
    for (const mlPerMin of [30, -30]) {
      const alone = { ...runningFed, left: { mlPerMin, seconds: 5 } };
      expect(next(fed, alone, { mlPerMin: null, mm2PerS: 80 })).toStrictEqual({ ...alone, ...lost });
    }
    const sixth: FlowControlState = { ...before, lost: true, lostSeconds: 10, lostSteps: 6 };
    expect(next(config, sixth, { mlPerMin: null })).toMatchObject({ lostSteps: 6, lostSeconds: 20 });
  });

  test('while the flow sets it they go on', () => {
    expect(next(config, before, {})).toMatchObject({ off: { seconds: 60, mean: 9 }, still: { seconds: 10 } });
    expect(next(config, before, {})).not.toHaveProperty('atLimit');
    expect(next(config, { ...before, percent: 70, integral: 70 }, {}).atLimit).toEqual({ seconds: 17, told: false });
  });
});

describe('a signal that has stopped', () => {
  test('is answered by the speed at which it last moved, and the integral part is what is left of it', () => {
    const stopped = { ...runningFed, still: still(60, -10, true) };
    const back = { mode: 'holding', percent: 46, integral: 6, feedForward: 40 };
    expect(next(fed, stopped, { elapsedSeconds: 1, mlPerMin: 60, mm2PerS: 80 })).toMatchObject(back);
  });

  test('also where the viscosity is back, which moves nothing', () => {
    const stopped = { ...runningFed, feedForward: 30, mm2PerS: null, still: still(60, -5, true) };
    expect(next(fed, stopped, { mlPerMin: 60, mm2PerS: 80 })).toMatchObject({
      ...{ percent: 25, integral: -15, feedForward: 40, still: { percent: -15 } },
    });
  });
});

test('what the feed-forward has for itself is not answered; once the speed is there its time runs', () => {
  const { left } = next(fed, runningFed, { mm2PerS: 80 });
  expect(left).toEqual({ mlPerMin: 30, seconds: 15 });
  expect(next(fed, runningFed, { mm2PerS: 80 })).toMatchObject({ percent: 50, integral: 10 });
  expect(next(fed, { ...runningFed, integral: 30 }, { elapsedSeconds: 1, mm2PerS: 80 }).left?.seconds).toBe(5);
});

describe('a start', () => {
  const start = (of: FlowControlConfig, input: Partial<FlowControlInput>) =>
    next(of, startFlowControl(prepareFlowControl(of)), input);

  test('waits for a signal, with nothing of its integral part', () => {
    expect(start(fed, { mlPerMin: null, mm2PerS: 80 })).toStrictEqual({
      ...{ ...running, percent: 0, integral: 0, feedForward: 40, mm2PerS: 80, mode: 'starting' },
      ...{
        lost: true,
        lostSeconds: 10,
        lostSteps: 1,
        swing: { ...calm, seconds: 10 },
        left: { mlPerMin: 100, seconds: 0 },
      },
    });
  });

  test('is from the lowest speed, and the flow is not yet judged', () => {
    expect(start(fed, { mlPerMin: 40, mm2PerS: 80 })).toStrictEqual({
      ...{ ...running, percent: 20, integral: 0, feedForward: 40, mm2PerS: 80 },
      ...{ swing: { side: 1, mean: 20, seconds: 0, count: 1, turns: 1 }, left: { mlPerMin: 60, seconds: 0 } },
      still: still(40, 20),
    });
  });

  test('of a pump whose lowest speed is 0', () => {
    const from0 = { ...config, leastPercent: 0 };
    expect(start(from0, { mlPerMin: null }).mode).toBe('starting');
    expect(start(from0, {})).toMatchObject({ mode: 'automatic', percent: 0, integral: 0 });
    // one that ran is regulated on
    expect(next(from0, { ...running, percent: 0 }, {})).toMatchObject({ percent: 40, integral: 40 });
    expect(next(from0, { ...running, percent: 0, integral: 5 }, {})).toMatchObject({ percent: 15.5, integral: 12.5 });
  });
});

test('a longer step than that of the step test has a lower gain: half of it is dead time', () => {
  const tested = (deadSeconds: number, lagSeconds: number, elapsedSeconds: number) => {
    const response = { gain: 2, lagSeconds, deadSeconds, stepSeconds: 2 };
    const { percent, integral } = next({ ...config, response }, running, { elapsedSeconds, mlPerMin: 81 });
    // proportional part of 16 mL/min
    return (percent - integral) / 16;
  };
  expect([1, 2, 6].map((seconds) => tested(5, 12, seconds))).toEqual([0.5, 0.5, 0.375]);
  // a tenth of the lag is the least dead time
  expect(tested(0, 120, 30)).toBeCloseTo(0.4, 12);
  expect(tested(0, 60, 5)).toBe(0.5);
});

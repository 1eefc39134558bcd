/**
 * What the flow controller remembers from step to step, worked out by hand: the setpoint is 100 mL/min, a response
 * takes 16 s, a flow beyond 8 mL/min is off, and the speed goes from 20 to 70 %. The bounds are our choice, as their
 * docs say.
 */
import { describe, expect, test } from 'vitest';
import { eventsBetween } from '../../../src/sampling/flow/events.ts';
import { beyondLeft, feedForwardOf, leftAfter, leftToFeedForward } from '../../../src/sampling/flow/feedForward.ts';
import { offAfter, swingAfter } from '../../../src/sampling/flow/oscillation.ts';
import { atLimitAfter, responseSeconds, shifted, stillAfter } from '../../../src/sampling/flow/still.ts';
import type { FlowControlState } from '../../../src/sampling/flow/types.ts';
import { type FlowControlConfig, prepareFlowControl, startFlowControl } from '../../../src/sampling/index.ts';

const config: FlowControlConfig = {
  ...{ mlPerMin: 100, gain: 1, integralSeconds: 4, deadbandMlPerMin: 3 },
  ...{ leastPercent: 20, mostPercent: 70, slewPerSecond: 4 },
};
const prepared = prepareFlowControl(config);
const response = { gain: 4, lagSeconds: 12, deadSeconds: 5, stepSeconds: 2 };
const stateAt = (percent: number, more: Partial<FlowControlState> = {}): FlowControlState => ({
  ...startFlowControl(prepared, { percent }),
  ...more,
});

test('a response: dead time, lag and a step, or four integral times', () => {
  expect([prepared, prepareFlowControl({ ...config, response })].map(responseSeconds)).toEqual([16, 19]);
});

describe('a flow signal that has stopped', () => {
  const still = (mlPerMin: number, percent: number | null, seconds = 0, farSeconds = 0, told = false) => {
    return { mlPerMin, percent, seconds, farSeconds, told };
  };
  const next = (percent: number, before: FlowControlState['still'], flow: number, seconds = 1, feedForward = 0) =>
    stillAfter(prepared, stateAt(percent, before && { still: before, feedForward }), flow, seconds);

  test('a figure that changes begins anew, with the speed that gave it', () => {
    expect(next(50, still(60, 30, 9, 9), 61)).toEqual(still(61, 50));
    expect(next(10, still(60, 30), 61)).toEqual(still(61, 20));
    expect(next(50, still(60, 30), 61, 1, 12)).toEqual(still(61, 38));
    expect(next(50, undefined, 61)).toEqual(still(61, 50));
    // of a pump that stood the same figure, too
    expect(next(0, still(60, 30, 9, 9, true), 60)).toEqual(still(60, 20));
    expect(stillAfter(prepared, stateAt(50, { feedForward: 7 }), 61, 1)).toEqual(still(61, 43));
  });

  test('one that may stay for long is not judged', () => {
    // little, from standing on until more came
    expect([9.9, 10].map((flow) => next(0, still(5, 30, 9, 9, true), flow)?.percent)).toEqual([null, 20]);
    expect(next(50, still(5, null), 6)?.percent).toBe(null);
    expect(next(50, still(10, null), 6)?.percent).toBe(50);
    expect(next(50, still(5, 40), 6)?.percent).toBe(50);
    expect(next(50, still(5, null), 60)?.percent).toBe(50);
    // much, at once after a hand let go
    expect([100, 100.1].map((flow) => next(50, undefined, flow)?.percent)).toEqual([50, null]);
    expect(next(50, still(5, 40), 101)?.percent).toBe(50);
    expect(next(0, undefined, 101)?.percent).toBe(20);
    const stays = still(6, null, 3, 2);
    expect(next(70, stays, 6)).toEqual(stays);
  });

  test('one that stays the same is told where the speed is far from it for longer than a response', () => {
    // 2 mL/min for each percent: 20 mL/min are 10 %
    const far = (percent: number, seconds = 1) => next(50, still(60, percent, 4, 15.5), 60, seconds);
    expect(far(39.9)).toEqual(still(60, 39.9, 5, 16.5, true));
    expect(far(60.1)).toEqual(still(60, 60.1, 5, 16.5, true));
    expect([far(40), far(60)]).toEqual([still(60, 40, 5), still(60, 60, 5)]);
    expect(far(39, 0.5)).toEqual(still(60, 39, 4.5, 16));
    // no sooner than after two steps
    expect(next(50, still(60, 39), 60, 30)).toEqual(still(60, 39, 30, 30));
    expect(next(50, still(60, 39, 0, 1), 60, 30)).toEqual(still(60, 39, 30, 31, true));
    expect(next(50, still(60, 40, 0, 9, true), 60)).toEqual(still(60, 40, 1, 0, true));
    // by the gain of the step test: 4 mL/min for each percent
    const tested = prepareFlowControl({ ...config, response });
    const by4 = (percent: number) => stillAfter(tested, stateAt(50, { still: still(60, percent) }), 60, 1)?.farSeconds;
    expect([45, 44.9, 55, 55.1].map(by4)).toEqual([0, 1, 0, 1]);
    // without what came from the viscosity
    expect(next(50, still(60, 30), 60, 1, 12)?.farSeconds).toBe(0);
    expect(next(50, still(60, 60), 60, 1, 12)?.farSeconds).toBe(1);
    // far above the setpoint it is not judged
    expect([120, 120.1].map((flow) => next(50, still(flow, 30), flow)?.farSeconds)).toEqual([1, 0]);
  });

  test('one that trembles by a five-hundredth is the same for five responses, and as long as it is told', () => {
    const trembling = (flow: number, seconds: number, told = false) =>
      next(50, still(60, 30, seconds, 7, told), flow)?.percent;
    expect([59.81, 60.19, 59.79, 60.21].map((flow) => trembling(flow, 79))).toEqual([30, 30, 50, 50]);
    expect([trembling(60.1, 80), trembling(60, 80), trembling(60.1, 80, true)]).toEqual([50, 30, 30]);
    expect(next(50, still(60, 30, 79, 7), 60.1)).toEqual(still(60, 30, 80, 8));
    expect(next(50, still(60, null, 79), 60.1)).toEqual(still(60, null, 79));
  });

  test('its speed goes with what the viscosity takes over', () => {
    expect(shifted(still(60, 30), 4)).toEqual(still(60, 26));
    expect([shifted(still(60, 30), 0), shifted(still(60, null), 4)]).toEqual([still(60, 30), still(60, null)]);
  });
});

test('at a limit: a hundredth of the range near it, for ten responses and twenty steps', () => {
  const at = (percent: number, seconds: number, told = false, elapsed = 1) =>
    atLimitAfter(prepared, { seconds, told }, percent, elapsed);
  const is = (percent: number) => atLimitAfter(prepared, undefined, percent, 1);
  expect([19, 20.5, 20.51, 69.49, 69.5, 71].map((one) => is(one)?.seconds)).toEqual([1, 1, undefined, undefined, 1, 1]);
  expect(is(20)).toEqual({ seconds: 1, told: false });
  expect([at(20, 158), at(20, 159)].map((one) => [one?.seconds, one?.told])).toEqual([
    [159, false],
    [160, true],
  ]);
  expect(at(20, 160, true)).toEqual({ seconds: 160, told: true });
  expect([at(20, 180, false, 10), at(20, 190, false, 10)].map((one) => one?.told)).toEqual([false, true]);
  expect([at(50, 5, true), at(50, 5), at(50, 1, true)]).toEqual([
    ...[{ seconds: 4, told: true }, { seconds: 4, told: false }, undefined],
  ]);
});

test('off: a deviation smoothed over ten integral times or four steps, for longer than a loop settles', () => {
  const off = (before: FlowControlState['off'], deviation: number, seconds: number) =>
    offAfter(prepared, before, deviation, seconds) as NonNullable<FlowControlState['off']>;
  const mean = (elapsed: number) => off({ seconds: 0, told: false, mean: 4 }, 36, elapsed).mean;
  expect([5, 10, 20].map(mean)).toEqual([8, 12, 12]);
  expect(off({ seconds: 0, told: false }, 16, 10).mean).toBe(4);
  expect(off(undefined, 16, 10)).toEqual({ seconds: 0, told: false, mean: 4 });
  expect(off(undefined, 40, 10)).toEqual({ seconds: 10, told: false, mean: 10 });
  // beyond 8 mL/min
  expect([32, 32.5, -32, -32.5].map((one) => off(undefined, one, 10).seconds)).toEqual([0, 10, 0, 10]);
  // 100 integral times and 50 % by the slew: 412.5 s
  const told = (since: number, elapsed: number) => off({ seconds: since, told: false, mean: 20 }, 20, elapsed);
  expect([told(400, 10), told(410, 10), told(412.5, 10)]).toEqual([
    { seconds: 410, told: false, mean: 20 },
    { seconds: 412.5, told: true, mean: 20 },
    { seconds: 412.5, told: true, mean: 20 },
  ]);
  expect([told(540, 30), told(570, 30)].map((one) => [one.seconds, one.told])).toEqual([
    [570, false],
    [600, true],
  ]);
  // three times as fast back
  const back = (since: number) => off({ seconds: since, told: true, mean: 0 }, 0, 10);
  expect([back(35), back(30), back(20)]).toEqual([
    ...[{ seconds: 5, told: true, mean: 0 }, ...Array(2).fill({ seconds: 0, told: false, mean: 0 })],
  ]);
});

describe('swings', () => {
  const from = (more: Partial<FlowControlState['swing']>) =>
    ({ side: 0, mean: 0, seconds: 0, count: 0, ...more }) as const;
  const next = (more: Partial<FlowControlState['swing']>, deviation: number, elapsed = 1) =>
    swingAfter(prepared, from(more), deviation, elapsed);

  test('a third of a deviation is taken in; 8 mL/min on the other side is a swing', () => {
    expect(next({ mean: 3, seconds: 5, count: 2, side: 1 }, 6)).toEqual(
      from({ mean: 4, seconds: 6, count: 2, side: 1 }),
    );
    expect([24, 27, -24, -27].map((one) => next({ seconds: 5, count: 2 }, one).side)).toEqual([0, 1, 0, -1]);
    expect(next({ seconds: 5, count: 2 }, 27)).toEqual(from({ side: 1, mean: 9, count: 3, turns: 1 }));
    expect(next({ side: 1, seconds: 5, count: 6 }, -27)).toEqual(from({ side: -1, mean: -9, count: 6, turns: -1 }));
    expect(next({ side: 1, seconds: 5, count: 2 }, 27)).toEqual(
      from({ side: 1, mean: 9, seconds: 6, count: 2, turns: 1 }),
    );
  });

  test('one more than 100 integral times or 20 steps later begins anew', () => {
    const swung = (seconds: number, elapsed: number) => next({ side: -1, seconds, count: 4 }, 27, elapsed).count;
    const none = (seconds: number, elapsed: number) => next({ side: -1, seconds, count: 4 }, 0, elapsed).count;
    for (const [seconds, elapsed] of [
      [399, 1],
      [570, 30],
    ] as const) {
      expect([swung(seconds, elapsed), none(seconds, elapsed)]).toEqual([5, 4]);
      expect([swung(seconds + 1, elapsed), none(seconds + 1, elapsed)]).toEqual([1, 0]);
    }
    expect(next({ seconds: 1e60 }, 0, 1e60).seconds).toBe(1e60);
  });

  test('turns from step to step count by themselves, and eight tell', () => {
    const turns = (before: number, deviation: number) => next({ turns: before }, deviation).turns;
    expect([9, -9].map((one) => [-3, 0, 3].map((before) => turns(before, one)))).toEqual([
      [4, 1, 1],
      [-1, -1, -4],
    ]);
    expect([8, -8, 0].map((one) => turns(3, one))).toEqual([undefined, undefined, undefined]);
    const told = (before: number, deviation: number) =>
      next({ turns: before, seconds: 5, count: 2, side: 1 }, deviation);
    expect(told(-6, 9)).toEqual(from({ side: 1, mean: 3, seconds: 6, count: 2, turns: 7 }));
    expect([told(-7, 9), told(-8, 9)]).toEqual(Array(2).fill(from({ side: 1, mean: 3, count: 6, turns: 8 })));
    expect(told(7, -9)).toEqual(from({ side: 1, mean: -3, count: 6, turns: -8 }));
  });
});

describe('the feed-forward', () => {
  const curve = [
    { mm2PerS: 20, percent: 20 },
    { mm2PerS: 80, percent: 40 },
  ];
  const fed = prepareFlowControl({ ...config, feedForward: { curve, mlPerMin: 50 } });

  test('is in proportion to the setpoint; what nobody saw change is a jump', () => {
    const known = (mm2PerS: number | null, now: number | null, more: Partial<FlowControlState> = {}) =>
      feedForwardOf(fed, stateAt(50, { feedForward: 30, mlPerMin: 50, mm2PerS, ...more }), now);
    // 30 at 50 mL/min are 60 at 100; the curve asks for 80 and 40
    expect(known(80, 20)).toEqual({ percent: 40, jump: 20, outside: false });
    expect(known(null, 80)).toEqual({ percent: 80, jump: 20, outside: false });
    expect(known(80, null, { outside: true })).toEqual({ percent: 60, jump: 0, outside: true });
    expect(known(80, 90).outside).toBe(true);
    const unknown = { feedForward: null, mlPerMin: null };
    expect(known(null, 80, unknown)).toEqual({ percent: 80, jump: 80, outside: false });
    expect(known(null, null, unknown)).toEqual({ percent: null, jump: 0, outside: false });
    const dropped = feedForwardOf(prepared, stateAt(50, { feedForward: 30, mlPerMin: 50, outside: true }), 80);
    expect(dropped).toEqual({ percent: null, jump: -60, outside: false });
  });

  test('has a start and a change of setpoint for itself', () => {
    const left = { mlPerMin: 30, seconds: 9 };
    const alone = (more: Partial<FlowControlState>, feedForward: number | null = 40, stands = false) =>
      leftToFeedForward(
        fed,
        stateAt(50, { feedForward: 40, mlPerMin: 100, left, byHand: false, ...more }),
        stands,
        feedForward,
        10,
      );
    expect(alone({}, null, true)).toBe(undefined);
    expect(alone({}, 40, true)).toEqual({ mlPerMin: 90, seconds: 0 });
    expect(leftToFeedForward(fed, stateAt(0), true, 40, null)).toEqual({ mlPerMin: 100, seconds: 0 });
    expect(alone({ byHand: true, mlPerMin: 60 })).toBe(undefined);
    expect([alone({}), alone({ mlPerMin: null }), alone({ mlPerMin: 60, feedForward: null })]).toEqual([
      left,
      left,
      left,
    ]);
    expect(alone({ mlPerMin: 60 })).toEqual({ mlPerMin: 70, seconds: 0 });
    const none = { left: undefined as never };
    expect(alone({ mlPerMin: 60, ...none })).toEqual({ mlPerMin: 40, seconds: 0 });
  });

  test('what the loop answers meanwhile, and until when', () => {
    const beyond = (deviation: number, of: number) => beyondLeft(deviation, { mlPerMin: of, seconds: 0 });
    expect([beyond(50, 30), beyond(20, 30), beyond(-20, 30), beyond(0, 30)]).toEqual([20, 0, -20, 0]);
    expect([beyond(-50, -30), beyond(-20, -30), beyond(20, -30), beyond(5, 0)]).toEqual([-20, 0, 20, 5]);
    expect(beyondLeft(7, undefined)).toBe(7);
    const later = (deviation: number, seconds: number) =>
      leftAfter(prepared, { mlPerMin: 30, seconds: 20 }, deviation, seconds);
    expect([later(5, 12), later(5, 12.5), later(-5, 1)]).toEqual([{ mlPerMin: 30, seconds: 32 }, undefined, undefined]);
    expect(later(0, 1)).toEqual({ mlPerMin: 30, seconds: 21 });
    expect(leftAfter(prepared, undefined, 5, 1)).toBe(undefined);
    expect(leftAfter(prepared, { mlPerMin: 0, seconds: 20 }, -5, 1)).toEqual({ mlPerMin: 0, seconds: 21 });
  });
});

test('what is told: each as it becomes true, and as it ends, once', () => {
  const still = { mlPerMin: 60, percent: 30, seconds: 0, farSeconds: 0, told: false };
  const swing = { side: 0, mean: 0, seconds: 0, count: 5 } as const;
  const off = { seconds: 9, told: false };
  const quiet = { ...stateAt(50), byHand: false, lostSteps: 5, swing, off, still, atLimit: off, mm2PerS: 30 };
  const told = (before: FlowControlState, now: FlowControlState) => eventsBetween(before, { ...now, mode: 'holding' });
  for (const [on, ended, change] of [
    ['signal_lost', 'signal_back', { lostSteps: 6 }],
    ['to_manual', 'to_automatic', { byHand: true }],
    ['viscosity_outside', 'viscosity_inside', { outside: true }],
    ['oscillation', 'oscillation_ended', { swing: { ...swing, count: 6 } }],
    ['off_setpoint', 'at_setpoint', { off: { ...off, told: true } }],
    ['signal_frozen', 'signal_frozen_ended', { still: { ...still, told: true } }],
    ['speed_at_limit', 'speed_off_limit', { atLimit: { ...off, told: true } }],
    ['no_flow', 'no_flow_ended', { dry: { ...off, told: true } }],
  ] as const) {
    const loud = { ...quiet, ...change };
    const at = { mode: 'holding', percent: 50 };
    expect(told(quiet, loud)).toEqual([{ event: on, ...at }]);
    expect(told(loud, quiet)).toEqual([{ event: ended, ...at }]);
    expect([...told(loud, loud), ...told(quiet, quiet)]).toEqual([]);
  }
  // what is left out is not so
  const { lostSteps: _, off: __, still: ___, atLimit: ____, ...bare } = quiet;
  expect([...told(quiet, bare), ...told(bare, quiet)]).toEqual([]);
  // a state of before knew only whether the signal was lost; without a viscosity there is no inside
  expect(told(bare, { ...bare, lost: true }).map(({ event }) => event)).toEqual(['signal_lost']);
  expect(told({ ...quiet, outside: true }, { ...quiet, mm2PerS: null })).toEqual([]);
});

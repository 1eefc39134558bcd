/**
 * The closed loop on pumps with a lag and a dead time: lost samples, drives in steps, settings by rule, slow polling,
 * oscillation.
 */
import { describe, expect, test } from 'vitest';
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlEvent,
  type FlowControlState,
  flowControlFor,
  prepareFlowControl,
  startFlowControl,
} from '../../../src/sampling/index.ts';
import { numbersFrom } from '../../engines/inputs.ts';

interface Pump {
  /** mL/min for each percent. */
  readonly gain: number;
  readonly lagSeconds: number;
  readonly deadSeconds: number;
}

interface Scene {
  readonly pump: Pump;
  readonly settings: Partial<FlowControlConfig> & { readonly gain: number; readonly integralSeconds: number };
  readonly mlPerMin?: number;
  readonly steps: number;
  readonly stepSeconds?: number;
  readonly noise?: number;
  readonly lostShare?: number;
  readonly seed?: number;
  /** The speeds the drive itself makes; any where left out. */
  readonly driveStep?: number;
  /** What went before, with other settings. */
  readonly before?: { readonly state: FlowControlState; readonly flow: number };
}

/** The flow at each step of a loop with a pump of first order and dead time, started from standing. */
function loop(of: Scene): { flows: number[]; events: FlowControlEvent[]; state: FlowControlState; flow: number } {
  const { pump, settings, mlPerMin = 60, stepSeconds = 1, noise = 0, lostShare = 0, seed = 1, driveStep = 0 } = of;
  const next = numbersFrom(seed);
  const share = () => next(1_000_000) / 1_000_000;
  const normal = () => (share() + share() + share() + share() - 2) * Math.sqrt(3);
  const prepared = prepareFlowControl({
    leastPercent: 0,
    mostPercent: 100,
    slewPerSecond: 20,
    ...settings,
    mlPerMin,
  });
  let state = of.before?.state ?? startFlowControl(prepared);
  const parts = 10;
  const delay: number[] = new Array(Math.round((pump.deadSeconds * parts) / stepSeconds)).fill(state.percent);
  const keep = Math.exp(-stepSeconds / parts / pump.lagSeconds);
  let flow = of.before?.flow ?? 0;
  const flows: number[] = [];
  const events: FlowControlEvent[] = [];
  for (let i = 0; i < of.steps; i += 1) {
    const seen = share() < lostShare ? null : Math.max(0, flow * (1 + noise * normal()));
    const step = advanceFlowControl(prepared, state, { elapsedSeconds: stepSeconds, mlPerMin: seen });
    state = step.state;
    events.push(...step.events);
    const percent = driveStep > 0 ? Math.round(step.percent / driveStep) * driveStep : step.percent;
    for (let part = 0; part < parts; part += 1) {
      delay.push(percent);
      flow = flow * keep + pump.gain * (delay.shift() as number) * (1 - keep);
    }
    flows.push(flow);
  }
  return { flows, events, state, flow };
}

const deviation = (list: readonly number[]) => {
  const mean = list.reduce((sum, one) => sum + one, 0) / list.length;
  return Math.sqrt(list.reduce((sum, one) => sum + (one - mean) ** 2, 0) / list.length);
};
const told = (events: readonly FlowControlEvent[], event: string) => events.some((one) => one.event === event);

describe('lost samples', () => {
  const pump = { gain: 2.4, lagSeconds: 3, deadSeconds: 1 };
  const settings = flowControlFor(pump);
  const spread = (lostShare: number) => {
    let sum = 0;
    for (let seed = 1; seed <= 6; seed += 1)
      sum += deviation(loop({ pump, settings, steps: 1500, noise: 0.02, lostShare, seed }).flows.slice(100)) ** 2;
    return Math.sqrt(sum / 6);
  };
  const whole = spread(0);

  test.each([0.1, 0.3])(
    '%s of the samples lost: the spread of the flow is at most 1.2 times that without loss',
    (share) => {
      expect(spread(share) / whole).toBeLessThan(1.2);
    },
  );
});

describe('settings by rule', () => {
  const lags = [5, 12, 30, 60];
  const deads = [2, 10, 30, 60, 90];
  const pumps = lags.flatMap((lagSeconds) => deads.map((deadSeconds) => ({ gain: 2.4, lagSeconds, deadSeconds })));

  test.each(pumps)('lag $lagSeconds s, dead time $deadSeconds s: settles, overshoot at most 10 %', (pump) => {
    const span = 12 * (pump.lagSeconds + pump.deadSeconds) + 120;
    const { flows, events } = loop({ pump, settings: flowControlFor(pump), steps: span });
    expect(Math.max(...flows) / 60).toBeLessThan(1.1);
    const late = flows.slice(Math.floor(span / 2));
    expect(Math.max(...late) / 60).toBeLessThan(1.02);
    expect(Math.min(...late) / 60).toBeGreaterThan(0.98);
    expect(told(events, 'oscillation')).toBe(false);
  });

  test.each([1, 3])(
    'a drive in steps of %s %%, known to the controller: comes to rest within the deadband',
    (percentStep) => {
      for (const pump of pumps) {
        const settings = flowControlFor({ ...pump, percentStep });
        const span = 16 * (pump.lagSeconds + pump.deadSeconds) + 200;
        const late = loop({ pump, settings, steps: span }).flows.slice(Math.floor(span * 0.7));
        const what = `lag ${pump.lagSeconds}, dead ${pump.deadSeconds}`;
        expect(Math.max(...late) - Math.min(...late), what).toBeLessThan(0.01);
        expect(Math.abs((late[0] as number) - 60), what).toBeLessThanOrEqual(settings.deadbandMlPerMin + 1e-9);
      }
    },
  );

  test.each([1, 3])('a drive that makes steps of %s %% by itself: the deadband is enough', (driveStep) => {
    for (const pump of pumps) {
      const { deadbandMlPerMin } = flowControlFor({ ...pump, percentStep: driveStep });
      const settings = { ...flowControlFor(pump), deadbandMlPerMin };
      const span = 16 * (pump.lagSeconds + pump.deadSeconds) + 200;
      const late = loop({ pump, settings, driveStep, steps: span }).flows.slice(Math.floor(span * 0.7));
      expect(Math.max(...late) - Math.min(...late), `lag ${pump.lagSeconds}, dead ${pump.deadSeconds}`).toBeLessThan(
        0.01,
      );
    }
  });

  test('polled once a minute: within 2 % after six polls', () => {
    for (const pump of [
      { gain: 2.4, lagSeconds: 5, deadSeconds: 2 },
      { gain: 5, lagSeconds: 20, deadSeconds: 10 },
    ]) {
      const settings = flowControlFor({ ...pump, stepSeconds: 60 });
      const { flows } = loop({ pump, settings, steps: 40, stepSeconds: 60 });
      for (const flow of flows.slice(6)) expect(Math.abs(flow / 60 - 1)).toBeLessThan(0.02);
    }
  });
});

test('a drive in steps stops at the outermost steps within the limits', () => {
  const prepared = prepareFlowControl({
    mlPerMin: 60,
    gain: 1,
    integralSeconds: 10,
    leastPercent: 11,
    mostPercent: 89,
    slewPerSecond: 100,
    percentStep: 10,
  });
  const by = (manualPercent: number, from = 50) => {
    const state = startFlowControl(prepared, { percent: from });
    return advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 60, manualPercent }).percent;
  };
  expect([by(0), by(24), by(76), by(100)]).toEqual([20, 20, 80, 80]);
  // less than three quarters of a step away it stays
  expect([by(27, 20), by(27.5, 20), by(73, 80), by(72.5, 80)]).toEqual([20, 30, 80, 70]);
});

test('a drive in steps whose outermost steps are the limits stays on them', () => {
  const prepared = prepareFlowControl({
    ...{ mlPerMin: 60, gain: 1, integralSeconds: 10, slewPerSecond: 100 },
    ...{ leastPercent: 20, mostPercent: 80, percentStep: 10 },
  });
  const from = (percent: number, manualPercent: number) => {
    const state = startFlowControl(prepared, { percent });
    return advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 60, manualPercent }).percent;
  };
  expect([from(80, 74), from(20, 26), from(80, 72), from(20, 28)]).toEqual([80, 20, 70, 30]);
});

describe('oscillation', () => {
  const slow = { gain: 2.4, lagSeconds: 30, deadSeconds: 60 };
  const wrong = flowControlFor({ gain: 2.4, lagSeconds: 3, deadSeconds: 1 });

  test('settings of a quick pump on a slow one swing, and an event says so', () => {
    const { flows, events } = loop({ pump: slow, settings: wrong, steps: 3000 });
    expect(deviation(flows.slice(1500))).toBeGreaterThan(20);
    expect(told(events, 'oscillation')).toBe(true);
  });

  test('right settings end it, and an event says so, once', () => {
    const swung = loop({ pump: slow, settings: wrong, steps: 3000 });
    const calm = loop({ pump: slow, settings: flowControlFor(slow), steps: 6000, before: swung });
    const words = [...swung.events, ...calm.events].map(({ event }) => event);
    expect(words.filter((word) => word.startsWith('oscillation'))).toEqual(['oscillation', 'oscillation_ended']);
  });

  test('noise of 2 % is none, over a day of steps', () => {
    const pump = { gain: 2.4, lagSeconds: 3, deadSeconds: 1 };
    const { events } = loop({ pump, settings: flowControlFor(pump), steps: 86400, noise: 0.02 });
    expect(told(events, 'oscillation')).toBe(false);
  });
});

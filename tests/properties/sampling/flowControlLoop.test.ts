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
import { some } from '../../volume.ts';

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
  /** The correlation of the noise from step to step; 0 where left out. */
  readonly alike?: number;
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
  const { alike = 0 } = of;
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
  let wander = 0;
  const flows: number[] = [];
  const events: FlowControlEvent[] = [];
  for (let i = 0; i < of.steps; i += 1) {
    wander = alike * wander + Math.sqrt(1 - alike * alike) * normal();
    const seen = share() < lostShare ? null : Math.max(0, flow * (1 + noise * wander));
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
  expect([by(6), by(24), by(76), by(100)]).toEqual([20, 20, 80, 80]);
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

test('a drive in 39 steps, or any number, is no faster than full speed by a rounding, and its state goes on', () => {
  for (let n = 2; n <= 400; n += 1) {
    const range = { leastPercent: 5, mostPercent: 100, slewPerSecond: 100, percentStep: 100 / n };
    const prepared = prepareFlowControl({ ...{ mlPerMin: 60, gain: 9, integralSeconds: 10 }, ...range });
    let state = startFlowControl(prepared);
    for (let second = 0; second < 4; second += 1)
      state = advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 0 }).state;
    expect(state.percent, `${n}`).toBeLessThanOrEqual(100);
    expect(state.percent, `${n}`).toBeGreaterThan(99.99 - 100 / n);
  }
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

describe('what is said of late and of noise', () => {
  const seeds = some(3, 1);
  const pump = { gain: 2.4, lagSeconds: 12, deadSeconds: 5 };
  const settings = { ...flowControlFor(pump), leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
  const swings = (noise: number, seed: number, steps: number, more: Partial<Scene> = {}) =>
    told(loop({ pump, settings, mlPerMin: 45, noise, seed, steps, ...more }).events, 'oscillation');

  test('a flow that stays low is told once it was so for 100 integral times and the way of the slew', () => {
    const prepared = prepareFlowControl({ ...settings, mlPerMin: 45 });
    let state = startFlowControl(prepared, { percent: 18 });
    let seconds = 0;
    const due = 100 * settings.integralSeconds + (92 - 8) / 4;
    expect(due).toBe(1221);
    for (let off = false; !off; seconds += 1) {
      // no two alike: a signal that stands still is told as that
      const step = advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 10 + (seconds % 2) });
      state = step.state;
      off = told(step.events, 'off_setpoint');
      expect(seconds).toBeLessThan(due + 20);
    }
    // smoothed over ten integral times, it is beyond a twentieth a little later
    expect(seconds).toBeGreaterThan(due);
  });

  test('noise of 3 % is no oscillation in 12 hours, of 4 % it is within one, of 8 % within ten minutes', () => {
    for (let seed = 1; seed <= seeds; seed += 1) {
      expect(swings(0.03, seed, 43200)).toBe(false);
      expect(swings(0.04, seed, 3600)).toBe(true);
      expect(swings(0.08, seed, 600)).toBe(true);
    }
  });

  test('noise that is alike from step to step: 3 % is an oscillation, 1.5 % is none, a deadband helps', () => {
    const deadband = { ...settings, deadbandMlPerMin: 45 / 20 };
    for (let seed = 1; seed <= seeds; seed += 1) {
      expect(swings(0.03, seed, 3600, { alike: 0.9 })).toBe(true);
      expect(swings(0.025, seed, 14400, { alike: 0.8 })).toBe(true);
      expect(swings(0.015, seed, 43200, { alike: 0.8 })).toBe(false);
      expect(swings(0.03, seed, 43200, { alike: 0.9, settings: deadband })).toBe(false);
    }
  });

  test('noise of 8 %: means of ten samples help, a light filter does not', () => {
    const left = 0.08 * Math.sqrt(0.5 / 1.5);
    for (let seed = 1; seed <= seeds; seed += 1) {
      expect(swings(0.08 / Math.sqrt(10), seed, 43200)).toBe(false);
      expect(swings(left, seed, 1800, { alike: 0.5 })).toBe(true);
    }
  });
});

describe('a slow slew', () => {
  const pump = { gain: 2, lagSeconds: 10, deadSeconds: 3 };
  const settings = { ...flowControlFor(pump), leastPercent: 10, mostPercent: 90 };
  const gains = [2, 1.2, 0.8];
  const slews = [4, 1, 0.5, 0.05];

  test('the flow comes to the setpoint, however slow it is and whatever the pump gives for a percent', () => {
    for (const gain of gains)
      for (const slewPerSecond of slews) {
        const scene = {
          pump: { ...pump, gain },
          settings: { ...settings, slewPerSecond },
          steps: slewPerSecond < 0.1 ? 6000 : 2000,
        };
        const { flows, state } = loop(scene);
        expect(flows[flows.length - 1], `${gain} ${slewPerSecond}`).toBeCloseTo(60, 3);
        expect(state.percent).toBeCloseTo(60 / gain, 3);
      }
  });

  test('the output rises by the slew without a stop, and does not wind up', () => {
    const prepared = prepareFlowControl({ ...settings, slewPerSecond: 0.5, mlPerMin: 60 });
    let state = startFlowControl(prepared);
    for (let second = 0; second < 600; second += 1) {
      const before = state.percent;
      state = advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 20 + (second % 2) }).state;
      expect(state.percent).toBe(second === 0 ? 10 : Math.min(before + 0.5, 90));
    }
    // at the limit for minutes; the first sample that is too high turns it
    expect(advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 61 }).percent).toBe(89.5);
  });

  test('one absurd sample when the hand lets go is over within minutes', () => {
    const prepared = prepareFlowControl({ ...settings, slewPerSecond: 4, mlPerMin: 60 });
    let state = startFlowControl(prepared, { percent: 30 });
    state = advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: 1e6 }).state;
    const after = loop({ pump, settings: { ...settings, slewPerSecond: 4 }, steps: 600, before: { state, flow: 60 } });
    expect(after.flows[599]).toBeCloseTo(60, 3);
  });
});

describe('a speed of 0 by hand', () => {
  const range = { leastPercent: 11, mostPercent: 89, slewPerSecond: 20 };
  const config = { mlPerMin: 60, gain: 1, integralSeconds: 10, ...range };
  const prepared = prepareFlowControl(config);
  const byHand = { elapsedSeconds: 1, mlPerMin: 60, manualPercent: 0 };

  test('does not start a standing pump, and brings a running one to rest at once', () => {
    expect(advanceFlowControl(prepared, startFlowControl(prepared), byHand).percent).toBe(0);
    let state = startFlowControl(prepared, { percent: 50 });
    const percents = [1, 2, 3, 4, 5].map(() => {
      const step = advanceFlowControl(prepared, state, byHand);
      state = step.state;
      return step.percent;
    });
    expect(percents).toEqual([0, 0, 0, 0, 0]);
  });

  test('of a drive in steps, from its lowest step', () => {
    const inSteps = prepareFlowControl({ ...config, percentStep: 10 });
    const at20 = startFlowControl(inSteps, { percent: 20 });
    expect(advanceFlowControl(inSteps, at20, byHand).percent).toBe(0);
  });

  test('then the pump is not started without a flow signal, and from its lowest speed with one', () => {
    const rest = advanceFlowControl(prepared, startFlowControl(prepared), byHand).state;
    const blind = advanceFlowControl(prepared, rest, { elapsedSeconds: 1, mlPerMin: null, start: true });
    expect([blind.percent, blind.state.mode]).toEqual([0, 'manual']);
    const seen = advanceFlowControl(prepared, blind.state, { elapsedSeconds: 1, mlPerMin: 0, start: true });
    expect([seen.percent, seen.state.mode]).toEqual([11, 'automatic']);
  });
});

describe('a flow that stays off the setpoint', () => {
  const pump = { gain: 2, lagSeconds: 10, deadSeconds: 3 };
  const settings = { ...flowControlFor(pump), leastPercent: 10, mostPercent: 90, slewPerSecond: 4 };
  const words = (events: readonly FlowControlEvent[]) => events.map(({ event }) => event);
  const off = (gain: number) => loop({ pump: { ...pump, gain }, settings, steps: 3000, noise: 0.02 });

  test('a pump too weak or too strong is told, once', () => {
    expect(words(off(0.5).events)).toEqual(['started', 'speed_at_limit', 'off_setpoint']);
    expect(words(off(8).events)).toEqual(['started', 'speed_at_limit', 'off_setpoint']);
  });

  test('a meter that stands still beside the setpoint is told; one that stands on it cannot be', () => {
    const prepared = prepareFlowControl({ ...settings, mlPerMin: 60 });
    const told = (mlPerMin: number) => {
      let state = startFlowControl(prepared, { percent: 30 });
      const events: FlowControlEvent[] = [];
      for (let second = 0; second < 3000; second += 1) {
        const step = advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin });
        state = step.state;
        events.push(...step.events);
      }
      return words(events);
    };
    expect([told(30), told(200), told(60)].map((all) => all.filter((word) => word !== 'to_automatic'))).toEqual([
      ...[['signal_frozen'], ['speed_at_limit', 'off_setpoint'], []],
    ]);
  });

  test('it ends when the flow comes back, and stands while signal or hand take the loop away', () => {
    const weak = off(0.5);
    const prepared = prepareFlowControl({ ...settings, mlPerMin: 60 });
    let state = weak.state;
    const held = [{ mlPerMin: null }, { mlPerMin: 20, manualPercent: 40 }];
    for (const input of held) {
      const step = advanceFlowControl(prepared, state, { elapsedSeconds: 3600, ...input });
      expect(words(step.events)).not.toContain('at_setpoint');
      state = step.state;
    }
    const back = loop({ pump, settings, steps: 3000, noise: 0.02, before: { state, flow: 60 } });
    expect(words(back.events).filter((word) => word.endsWith('_setpoint'))).toEqual(['at_setpoint']);
  });

  test('a loop that settles tells nothing: pumps of many kinds from rest, and a day of noise', () => {
    for (const lagSeconds of [5, 12, 30, 60])
      for (const deadSeconds of [2, 10, 30, 60, 90]) {
        const one = { gain: 2.4, lagSeconds, deadSeconds };
        const { events } = loop({ pump: one, settings: flowControlFor(one), steps: 3000, noise: 0.02 });
        expect(words(events), `${lagSeconds} ${deadSeconds}`).toEqual(['started']);
      }
    const day = loop({ pump, settings, steps: 86400, noise: 0.02 });
    expect(words(day.events)).toEqual(['started']);
  });
});

describe('by hand', () => {
  const range = { leastPercent: 11, mostPercent: 89, slewPerSecond: 20 };
  const config = { mlPerMin: 60, gain: 1, integralSeconds: 10, ...range };
  const prepared = prepareFlowControl(config);

  test('off_setpoint comes after 100 integral times and one way through the speeds, beyond a twentieth', () => {
    const toldAfter = (mlPerMin: number) => {
      let state = startFlowControl(prepared, { percent: 50 });
      for (let second = 1; second <= 1200; second += 1) {
        const trembling = mlPerMin + (second % 2 === 0 ? 0.5 : -0.5);
        const step = advanceFlowControl(prepared, state, { elapsedSeconds: 1, mlPerMin: trembling });
        if (told(step.events, 'off_setpoint')) return second;
        state = step.state;
      }
      return null;
    };
    // 1000 s, and 78 % at 20 %/s, and until the smoothed deviation is beyond
    for (const mlPerMin of [56, 64]) expect(toldAfter(mlPerMin)).toBeGreaterThan(1004);
    expect([toldAfter(57.05), toldAfter(62.95)]).toEqual([null, null]);
  });

  test('the integral part is ten times full speed at most, with what the viscosity asks for', () => {
    const curve = [
      { mm2PerS: 20, percent: 30 },
      { mm2PerS: 80, percent: 30 },
    ];
    const fed = prepareFlowControl({ ...config, feedForward: { curve, mlPerMin: 60 } });
    const integral = (of: typeof prepared, mlPerMin: number) => {
      const state = startFlowControl(of, { percent: 50 });
      return advanceFlowControl(of, state, { elapsedSeconds: 1, mlPerMin, mm2PerS: 40 }).state.integral;
    };
    expect([integral(prepared, 1e6), integral(fed, 1e6)]).toEqual([1000, 970]);
    const wide = prepareFlowControl({ ...config, mlPerMin: 1e6 });
    expect(integral(wide, 0)).toBe(-1000);
  });

  test('a pump whose lowest speed is 0 is held at it without a signal, and stands until it had one', () => {
    const fromRest = prepareFlowControl({ ...config, leastPercent: 0 });
    const blind = { elapsedSeconds: 1, mlPerMin: null };
    expect(advanceFlowControl(fromRest, startFlowControl(fromRest), blind).state.mode).toBe('starting');
    const slow = advanceFlowControl(fromRest, startFlowControl(fromRest), { elapsedSeconds: 1, mlPerMin: 90 }).state;
    expect([slow.percent, slow.mode]).toEqual([0, 'automatic']);
    expect(advanceFlowControl(fromRest, slow, blind).state.mode).toBe('holding');
  });
});

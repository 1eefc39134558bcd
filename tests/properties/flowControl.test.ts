/**
 * The flow controller on a simulated pump and line: thick cold oil, slip, a slow motor, a noisy and failing signal.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isMotescaleError } from '../../src/counts/index.ts';
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlEvent,
  type FlowControlInput,
  type FlowControlState,
  startFlowControl,
} from '../../src/sampling/index.ts';

const config: FlowControlConfig = {
  mlPerMin: 100,
  gain: 0.1,
  integralSeconds: 2.5,
  leastPercent: 5,
  mostPercent: 95,
  slewPerSecond: 5,
  feedForward: {
    curve: [
      { mm2PerS: 20, percent: 22 },
      { mm2PerS: 75, percent: 25 },
      { mm2PerS: 140, percent: 35 },
    ],
    mlPerMin: 100,
  },
};

/** Even numbers from 0 to 1, the same for the same seed. */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * A positive-displacement pump of 500 mL/min at full speed. Thick oil fills it badly; thin oil slips back under 800 kPa plus what the line
 * takes, in proportion to pressure and to fluidity. Motor and sensor follow with lags of 0.7 and 1.5 s.
 */
function simulatedPump(
  size = 1,
  slowness = 1,
): { step: (percent: number, mm2PerS: number, seconds: number) => number; flow: () => number } {
  let speed = 0;
  let shownFlow = 0;
  let flow = 0;
  return {
    flow: () => flow,
    step: (percent, mm2PerS, seconds) => {
      const parts = 20;
      for (let i = 0; i < parts; i += 1) {
        const dt = seconds / parts;
        speed += ((percent - speed) * dt) / (0.7 * slowness);
        const displaced = (5 * size * speed) / (1 + mm2PerS / 200);
        const kPa = 800 + 0.004 * mm2PerS * flow;
        flow = Math.max(0, displaced - (0.6 * kPa) / mm2PerS);
        shownFlow += ((flow - shownFlow) * dt) / (1.5 * slowness);
      }
      return shownFlow;
    },
  };
}

interface Run {
  readonly noise: number;
  readonly dropouts: number;
  readonly seed: number;
  readonly seconds: number;
  readonly viscosityAt: (second: number) => number;
  readonly setpointAt: (second: number) => number;
  readonly feedForward?: boolean;
  readonly size?: number;
  readonly slowness?: number;
}

function run(of: Run): { flows: number[]; percents: number[]; events: FlowControlEvent[] } {
  const next = random(of.seed);
  const noisy = (value: number) => value * (1 + of.noise * (next() + next() + next() - 1.5) * 2);
  const pump = simulatedPump(of.size, of.slowness);
  let state = startFlowControl();
  let shown = 0;
  let lostFor = 0;
  const flows: number[] = [];
  const percents: number[] = [];
  const events: FlowControlEvent[] = [];
  const { feedForward, ...bare } = config;
  for (let second = 0; second < of.seconds; second += 1) {
    const mm2PerS = of.viscosityAt(second);
    lostFor = lostFor > 0 ? lostFor - 1 : next() < of.dropouts ? Math.ceil(next() * 8) : 0;
    const input = {
      elapsedSeconds: 1,
      mlPerMin: lostFor > 0 ? null : Math.max(0, noisy(shown)),
      mm2PerS: next() < of.dropouts ? null : noisy(mm2PerS),
    };
    const own = { ...(of.feedForward === false ? bare : { ...bare, feedForward }), mlPerMin: of.setpointAt(second) };
    const result = advanceFlowControl(own as FlowControlConfig, state, input);
    state = JSON.parse(JSON.stringify(result.state)) as FlowControlState;
    expect(result.percent).toBeGreaterThanOrEqual(config.leastPercent);
    expect(result.percent).toBeLessThanOrEqual(config.mostPercent);
    percents.push(result.percent);
    events.push(...result.events);
    shown = pump.step(result.percent, mm2PerS, 1);
    flows.push(pump.flow());
  }
  return { flows, percents, events };
}

/** From 350 mm²/s cold to 20 mm²/s warm, as an oil warms up: fast at first. */
const warming = (over: number) => (second: number) => 20 * (350 / 20) ** Math.exp((-3 * second) / over);
/** Steps every five minutes. */
const steps = (second: number) => [100, 60, 120, 80][Math.floor(second / 300) % 4] as number;

describe('from cold start to warm', () => {
  test.each([
    ['quiet', 0, 0, 1],
    ['noise of 2 %', 0.02, 0, 2],
    ['noise and dropouts', 0.02, 0.01, 3],
    ['noise and dropouts, another seed', 0.02, 0.01, 4],
  ])('%s: within 5 %% of the setpoint 60 s after each step, and it stays there', (_, noise, dropouts, seed) => {
    const { flows, events } = run({
      noise,
      dropouts,
      seed,
      seconds: 1800,
      viscosityAt: warming(1800),
      setpointAt: steps,
    });
    let outside = 0;
    flows.forEach((flow, second) => {
      if (second % 300 >= 60 && Math.abs(flow / steps(second) - 1) > 0.05) outside += 1;
    });
    expect(outside).toBe(0);
    expect(events.some((event) => event.code === 'signal_lost')).toBe(dropouts > 0);
    expect(events.some((event) => event.code === 'viscosity_outside')).toBe(true);
  });

  test('no sustained oscillation: at rest, without noise, the flow comes to rest', () => {
    for (const mm2PerS of [350, 140, 75, 46, 20]) {
      const { flows, percents } = run({
        noise: 0,
        dropouts: 0,
        seed: 5,
        seconds: 300,
        viscosityAt: () => mm2PerS,
        setpointAt: () => 100,
      });
      const spread = (list: readonly number[]) => Math.max(...list) - Math.min(...list);
      expect(spread(flows.slice(120)), `${mm2PerS} mm²/s`).toBeLessThan(0.1);
      expect(spread(percents.slice(120)), `${mm2PerS} mm²/s`).toBeLessThan(0.05);
      expect(flows[299]).toBeCloseTo(100, 1);
    }
  });

  test.each([
    [0.7, 1],
    [1.4, 1],
    [1, 1.5],
    [1.4, 1.5],
    [1, 0.3],
  ])('a pump %s times the size and %s times as slow as tuned for, noise of 1 %%', (size, slowness) => {
    const { flows } = run({
      noise: 0.01,
      dropouts: 0,
      seed: 8,
      seconds: 1800,
      viscosityAt: warming(1800),
      setpointAt: steps,
      size,
      slowness,
    });
    const late = flows.filter((flow, second) => second % 300 >= 60 && Math.abs(flow / steps(second) - 1) > 0.05);
    expect(late).toEqual([]);
  });

  test('without feed-forward it settles too', () => {
    const { flows } = run({
      noise: 0.02,
      dropouts: 0,
      seed: 6,
      seconds: 300,
      viscosityAt: () => 350,
      setpointAt: () => 100,
      feedForward: false,
    });
    for (const flow of flows.slice(60)) expect(Math.abs(flow / 100 - 1)).toBeLessThan(0.05);
  });

  test('a setpoint out of reach does not wind it up', () => {
    const unreachable = (second: number) => (second < 300 ? 400 : 100);
    const { flows, percents } = run({
      noise: 0,
      dropouts: 0,
      seed: 7,
      seconds: 400,
      viscosityAt: () => 350,
      setpointAt: unreachable,
    });
    expect(percents[299]).toBe(config.mostPercent);
    expect(Math.abs((flows[340] as number) / 100 - 1)).toBeLessThan(0.05);
  });
});

describe('laws', () => {
  const flow = fc.option(fc.double({ min: 0, max: 500, noNaN: true }), { freq: 5 });
  const input = fc.record<FlowControlInput>({
    elapsedSeconds: fc.double({ min: 0, max: 100, noNaN: true }),
    mlPerMin: flow,
    mm2PerS: fc.option(fc.double({ min: 1, max: 2000, noNaN: true })),
    manualPercent: fc.option(fc.double({ min: 0, max: 100, noNaN: true }), { freq: 1 }),
  });

  test('never outside the limits, never faster than the slew, whatever comes', () => {
    fc.assert(
      fc.property(fc.array(input, { maxLength: 40 }), fc.double({ min: 0, max: 100, noNaN: true }), (inputs, start) => {
        let state = startFlowControl(start);
        for (const one of inputs) {
          const before = Math.min(Math.max(state.percent, config.leastPercent), config.mostPercent);
          const result = advanceFlowControl(config, state, one);
          expect(result.percent).toBeGreaterThanOrEqual(config.leastPercent);
          expect(result.percent).toBeLessThanOrEqual(config.mostPercent);
          const most = config.slewPerSecond * Math.min(one.elapsedSeconds, 10);
          expect(Math.abs(result.percent - before)).toBeLessThanOrEqual(most + 1e-9);
          if (one.mlPerMin === null && (one.manualPercent ?? null) === null) expect(result.percent).toBe(before);
          state = result.state;
        }
      }),
    );
  });

  test('bumpless: the first automatic step after manual or a lost signal moves by the integral step at most', () => {
    const flows = fc.double({ min: 50, max: 150, noNaN: true });
    const speeds = fc.double({ min: 10, max: 90, noNaN: true });
    fc.assert(
      fc.property(flows, speeds, fc.boolean(), (mlPerMin, percent, byHand) => {
        const away: FlowControlInput = byHand
          ? { elapsedSeconds: 1, mlPerMin, mm2PerS: 75, manualPercent: percent }
          : { elapsedSeconds: 1, mlPerMin: null, mm2PerS: 75 };
        const held = advanceFlowControl(config, { ...startFlowControl(percent), mode: 'automatic' }, away);
        const back = advanceFlowControl(config, held.state, { elapsedSeconds: 1, mlPerMin, mm2PerS: 75 });
        const step = (config.gain * Math.abs(100 - mlPerMin)) / config.integralSeconds;
        expect(Math.abs(back.percent - held.percent)).toBeLessThanOrEqual(step + 1e-9);
      }),
    );
  });
});

describe('what it reports and refuses', () => {
  const at = (state: FlowControlState, input: Partial<FlowControlInput>) =>
    advanceFlowControl(config, state, { elapsedSeconds: 1, mlPerMin: 100, mm2PerS: 75, ...input });

  test('events once each, and how long the signal is lost', () => {
    let state = startFlowControl(25);
    const codes = [
      {},
      { manualPercent: 30 },
      { manualPercent: 31 },
      { mlPerMin: null },
      { mlPerMin: null },
      {},
      { mm2PerS: 350 },
      { mm2PerS: null },
      { mm2PerS: 75 },
    ].map((input) => {
      const result = at(state, input);
      state = result.state;
      return [result.events.map((event) => event.code).join(), state.mode, state.lostSeconds];
    });
    expect(codes).toEqual([
      ['to_automatic', 'automatic', 0],
      ['to_manual', 'manual', 0],
      ['', 'manual', 0],
      ['signal_lost,to_automatic', 'holding', 1],
      ['', 'holding', 2],
      ['signal_back', 'automatic', 0],
      ['viscosity_outside', 'automatic', 0],
      ['', 'automatic', 0],
      ['viscosity_inside', 'automatic', 0],
    ]);
  });

  test('a running pump goes on from where it is; a viscosity that comes late makes no jump', () => {
    expect(at(startFlowControl(40), {}).percent).toBe(40);
    const blind = at(startFlowControl(40), { mm2PerS: null });
    expect(blind.state.feedForward).toBe(null);
    expect(at(blind.state, { mm2PerS: 140 }).percent).toBeCloseTo(40, 12);
    const waiting = at(startFlowControl(), { mlPerMin: null });
    expect(waiting.state.mode).toBe('starting');
    expect(at(waiting.state, { mlPerMin: 0 }).percent).toBe(10);
  });

  test('a long sleep counts as ten seconds, or as configured', () => {
    const slow = { ...config, slewPerSecond: 1 };
    const input = { elapsedSeconds: 3600, mlPerMin: 100, manualPercent: 90 };
    expect(advanceFlowControl(slow, startFlowControl(10), input).percent).toBe(20);
    expect(advanceFlowControl({ ...slow, longestStepSeconds: 3 }, startFlowControl(10), input).percent).toBe(13);
  });

  const thrown = (run: () => unknown): string => {
    try {
      run();
    } catch (error) {
      return isMotescaleError(error) ? `${error.code} ${error.parameter}` : String(error);
    }
    return 'no error';
  };

  test.each<[string, object]>([
    ['out_of_range config.mlPerMin', { mlPerMin: 0 }],
    ['out_of_range config.gain', { gain: 0 }],
    ['out_of_range config.integralSeconds', { integralSeconds: 0 }],
    ['out_of_range config.mostPercent', { mostPercent: 4 }],
    ['out_of_range config.slewPerSecond', { slewPerSecond: 0 }],
    ['out_of_range config.longestStepSeconds', { longestStepSeconds: 0 }],
    ['too_few config.feedForward.curve', { feedForward: { curve: [{ mm2PerS: 1, percent: 1 }], mlPerMin: 1 } }],
  ])('%s', (expected, change) => {
    const input = { elapsedSeconds: 1, mlPerMin: 1 };
    expect(thrown(() => advanceFlowControl({ ...config, ...change }, startFlowControl(), input))).toBe(expected);
  });

  test('a state or an input that is none', () => {
    const input = { elapsedSeconds: 1, mlPerMin: 1 };
    for (const state of [
      null,
      {},
      { ...startFlowControl(), integral: Number.NaN },
      { ...startFlowControl(), mode: 'x' },
    ]) {
      expect(thrown(() => advanceFlowControl(config, state as never, input))).toBe('bad_state state');
    }
    expect(thrown(() => at(startFlowControl(), { elapsedSeconds: -1 }))).toBe('negative input.elapsedSeconds');
    expect(thrown(() => at(startFlowControl(), { mlPerMin: Number.NaN }))).toBe('not_a_number input.mlPerMin');
    expect(thrown(() => at(startFlowControl(), { manualPercent: 101 }))).toBe('out_of_range input.manualPercent');
    expect(thrown(() => at(startFlowControl(), { mm2PerS: 0 }))).toBe('out_of_range input.mm2PerS');
    expect(thrown(() => startFlowControl(101))).toBe('out_of_range percent');
  });
});

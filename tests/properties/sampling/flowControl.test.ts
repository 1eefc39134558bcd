/**
 * The flow controller on a simulated pump and line: thick cold oil, slip, a slow motor, a noisy and failing signal.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isMotescaleError, problemsOf } from '../../../src/index.ts';
import {
  advanceFlowControl as advancePrepared,
  type FlowControlConfig,
  type FlowControlEvent,
  type FlowControlInput,
  type FlowControlState,
  flowControlText,
  flowControlTexts,
  prepareFlowControl,
  resumeFlowControl,
  speedForViscosity,
  startFlowControl as startPrepared,
} from '../../../src/sampling/index.ts';

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
      { mm2PerS: 80, percent: 27 },
      { mm2PerS: 160, percent: 37 },
    ],
    mlPerMin: 100,
  },
};

const advanceFlowControl = (of: FlowControlConfig, state: FlowControlState, input: FlowControlInput) =>
  advancePrepared(prepareFlowControl(of), state, input);
const startFlowControl = (percent?: number) =>
  startPrepared(prepareFlowControl(config), percent === undefined ? {} : { percent });

/** Even numbers from 0 to 1, the same for the same seed. */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * A positive-displacement pump of 500 mL/min at full speed. Thick oil fills it badly; thin oil slips back under 800 kPa
 * plus what the line takes, in proportion to pressure and to fluidity. Motor and sensor follow with lags of 0.7 and 1.5
 * s.
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
  /** Whether the viscosity signal is there; always where left out. */
  readonly knownAt?: (second: number) => boolean;
  readonly configAt?: (second: number) => FlowControlConfig;
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
      mm2PerS: next() < of.dropouts || of.knownAt?.(second) === false ? null : noisy(mm2PerS),
    };
    const own = of.configAt?.(second) ?? {
      ...(of.feedForward === false ? bare : { ...bare, feedForward }),
      mlPerMin: of.setpointAt(second),
    };
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

/** From 320 mm²/s cold to 20 mm²/s warm, as an oil warms up: fast at first. */
const warming = (over: number) => (second: number) => 20 * (320 / 20) ** Math.exp((-3 * second) / over);
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
    expect(events.some((event) => event.event === 'signal_lost')).toBe(dropouts > 0);
    expect(events.some((event) => event.event === 'viscosity_outside')).toBe(true);
  });

  test('no sustained oscillation: at rest, without noise, the flow comes to rest', () => {
    for (const mm2PerS of [320, 160, 80, 46, 20]) {
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
      viscosityAt: () => 320,
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
      viscosityAt: () => 320,
      setpointAt: unreachable,
    });
    expect(percents[299]).toBe(config.mostPercent);
    expect(Math.abs((flows[340] as number) / 100 - 1)).toBeLessThan(0.05);
  });
});

describe('a viscosity that was away', () => {
  const calm = { noise: 0, dropouts: 0, seed: 9, seconds: 400 };
  const awayAt = (second: number) => second >= 100 && second < 240;

  test('comes back unchanged, the setpoint having changed: the output is as if it had been there', () => {
    const scene = { ...calm, viscosityAt: () => 140, setpointAt: (second: number) => (second < 120 ? 120 : 60) };
    const away = run({ ...scene, knownAt: (second) => !awayAt(second) });
    const there = run(scene);
    away.percents.forEach((percent, second) => {
      expect(percent, `second ${second}`).toBeCloseTo(there.percents[second] as number, 9);
    });
    for (const flow of away.flows.slice(180)) expect(Math.abs(flow / 60 - 1)).toBeLessThan(0.01);
  });

  test('comes back lower, the oil having warmed from 140 to 40 mm²/s: no bump', () => {
    const warmed = (second: number) => (second < 100 ? 140 : second < 240 ? 140 - ((second - 100) * 100) / 140 : 40);
    const { flows, percents } = run({
      ...calm,
      viscosityAt: warmed,
      knownAt: (second) => !awayAt(second),
      setpointAt: () => 100,
    });
    for (const flow of flows.slice(180)) expect(Math.abs(flow / 100 - 1)).toBeLessThan(0.02);
    expect(Math.abs((percents[240] as number) - (percents[239] as number))).toBeLessThan(0.2);
  });

  test('feed-forward dropped from the configuration, added again, with another curve: no bump', () => {
    const { feedForward, ...bare } = config;
    const other = {
      curve: [
        { mm2PerS: 20, percent: 50 },
        { mm2PerS: 200, percent: 90 },
      ],
      mlPerMin: 60,
    };
    const configAt = (second: number) => {
      const part = Math.floor(second / 100);
      return part === 1 ? bare : part === 2 ? { ...bare, feedForward: other } : config;
    };
    const { percents, flows } = run({ ...calm, viscosityAt: () => 100, setpointAt: () => 100, configAt });
    for (const second of [100, 200, 300]) {
      expect(Math.abs((percents[second] as number) - (percents[second - 1] as number))).toBeLessThan(0.05);
    }
    for (const flow of flows.slice(90)) expect(Math.abs(flow / 100 - 1)).toBeLessThan(0.01);
  });

  test('feed-forward is not lost: a viscosity seen to change moves the output at once', () => {
    const input = { elapsedSeconds: 1, mlPerMin: 100 };
    const before = advanceFlowControl(config, startFlowControl(27), { ...input, mm2PerS: 80 });
    const after = advanceFlowControl(config, before.state, { ...input, mm2PerS: 100 });
    expect(after.percent - before.percent).toBeCloseTo((after.state.feedForward as number) - 27, 9);
    expect(after.percent - before.percent).toBeGreaterThan(2);
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
      fc.property(fc.array(input, { maxLength: 40 }), fc.double({ min: 1, max: 100, noNaN: true }), (inputs, start) => {
        let state = startFlowControl(start);
        for (const one of inputs) {
          const before = Math.min(Math.max(state.percent, config.leastPercent), config.mostPercent);
          const result = advanceFlowControl(config, state, one);
          if (one.manualPercent === 0 && state.percent <= config.leastPercent) {
            expect(result.percent).toBe(0);
            break;
          }
          expect(result.percent).toBeGreaterThanOrEqual(config.leastPercent);
          expect(result.percent).toBeLessThanOrEqual(config.mostPercent);
          const most = config.slewPerSecond * Math.min(one.elapsedSeconds, 10);
          expect(Math.abs(result.percent - before)).toBeLessThanOrEqual(most + 1e-9);
          if (one.mlPerMin === null && (one.manualPercent ?? null) === null) expect(result.percent).toBe(before);
          expect(result.state.mode).not.toBe('starting');
          state = result.state;
        }
      }),
    );
  });

  test('a standing pump stands until there is a signal or a hand, and then keeps the same limits', () => {
    fc.assert(
      fc.property(fc.array(input, { maxLength: 40 }), (inputs) => {
        let state = startFlowControl();
        let started = false;
        for (const one of inputs) {
          const result = advanceFlowControl(config, state, one);
          if (one.manualPercent === 0) break;
          started = started || one.mlPerMin !== null || (one.manualPercent ?? null) !== null;
          if (started) expect(result.percent).toBeGreaterThanOrEqual(config.leastPercent);
          else expect(result).toMatchObject({ percent: 0, state: { mode: 'starting', percent: 0 } });
          state = JSON.parse(JSON.stringify(result.state)) as FlowControlState;
        }
      }),
    );
  });

  test('events come in turns, and say what is so', () => {
    const pairs = [
      ['signal_lost', 'signal_back'],
      ['to_manual', 'to_automatic'],
      ['viscosity_outside', 'viscosity_inside'],
    ];
    const bare: FlowControlConfig = { ...config };
    delete (bare as { feedForward?: unknown }).feedForward;
    const step = fc.tuple(input, fc.boolean());
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), fc.constantFrom(0, 30), (steps, start) => {
        let state = startFlowControl(start);
        const told = pairs.map((pair, i) => (i === 1 && start > 0 ? pair[0] : pair[1]));
        let lostFor = 0;
        for (const [one, fed] of steps) {
          const { state: next, events } = advanceFlowControl(fed ? config : bare, state, one);
          for (const told_ of events) {
            const { event: code } = told_;
            const text = flowControlText(told_);
            const pair = pairs.findIndex((codes) => codes.indexOf(code) >= 0);
            if (pair < 2) expect(code).not.toBe(told[pair]);
            told[pair] = code;
            if (code === 'signal_lost') expect(one.mlPerMin).toBe(null);
            if (code === 'signal_back') expect(one.mlPerMin).not.toBe(null);
            if (code === 'to_manual') expect(next.mode).toBe('manual');
            if (code === 'to_automatic') expect(next.mode).toBe('automatic');
            if (/held at/.test(text)) expect(next).toMatchObject({ mode: 'holding', percent: state.percent });
            if (/not started/.test(text)) expect(next.percent).toBe(0);
            if (pair === 2) expect([fed, code === 'viscosity_outside']).toEqual([true, next.outside]);
          }
          // told from the sixth step without one on
          lostFor = one.mlPerMin === null ? lostFor + 1 : 0;
          expect(told[0] === 'signal_lost').toBe(lostFor >= 6);
          state = next;
        }
      }),
    );
  });

  test('bumpless over gaps of the viscosity and changes of its curve', () => {
    const curve = fc.record({
      mlPerMin: fc.constantFrom(60, 100, 140),
      curve: fc
        .tuple(fc.double({ min: 5, max: 40, noNaN: true }), fc.double({ min: 5, max: 40, noNaN: true }))
        .map(([thin, thick]) => [
          { mm2PerS: 20, percent: thin },
          { mm2PerS: 200, percent: thick },
        ]),
    });
    const part = fc.record({
      mm2PerS: fc.double({ min: 10, max: 400, noNaN: true }),
      gap: fc.integer({ min: 1, max: 3 }),
      feedForward: fc.option(curve),
    });
    const wide = { ...config, leastPercent: 0, mostPercent: 100 };
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 2, maxLength: 8 }),
        fc.double({ min: 98, max: 102, noNaN: true }),
        (parts, mlPerMin) => {
          let state = startFlowControl(50);
          const { feedForward: _, ...bare } = wide;
          const step = (config.gain * Math.abs(100 - mlPerMin)) / config.integralSeconds + 1e-9;
          for (const { mm2PerS, gap, feedForward } of parts) {
            const own = feedForward === null ? bare : { ...bare, feedForward };
            // known twice, then away; the curve changes while it is away, and while it is known
            for (const seen of [mm2PerS, mm2PerS, ...new Array(gap).fill(null), mm2PerS / 2]) {
              const next = advanceFlowControl(own, state, { elapsedSeconds: 1, mlPerMin, mm2PerS: seen });
              expect(Math.abs(next.percent - state.percent)).toBeLessThanOrEqual(step);
              state = next.state;
            }
            const last = advanceFlowControl(bare, state, { elapsedSeconds: 1, mlPerMin, mm2PerS: null });
            expect(Math.abs(last.percent - state.percent)).toBeLessThanOrEqual(step);
            state = last.state;
          }
        },
      ),
    );
  });

  test('bumpless: the first automatic step after manual moves by the integral step at most', () => {
    const flows = fc.double({ min: 50, max: 150, noNaN: true });
    const speeds = fc.double({ min: 10, max: 90, noNaN: true });
    const viscosities = fc.option(fc.double({ min: 10, max: 400, noNaN: true }), { freq: 2 });
    fc.assert(
      fc.property(
        flows,
        speeds,
        fc.boolean(),
        fc.array(viscosities, { minLength: 3, maxLength: 3 }),
        (mlPerMin, percent, lostBetween, seen) => {
          const [first = null, then = null, last = null] = seen;
          const step = (state: FlowControlState, input: Partial<FlowControlInput>) =>
            advanceFlowControl(config, state, { elapsedSeconds: 1, mlPerMin, ...input });
          const ran = step(startFlowControl(percent), { mm2PerS: first });
          let held = step(ran.state, { mm2PerS: then, manualPercent: percent });
          if (lostBetween) held = step(held.state, { mlPerMin: null, mm2PerS: then });
          const back = step(held.state, { mm2PerS: last });
          const most = (config.gain * Math.abs(100 - mlPerMin)) / config.integralSeconds;
          expect(Math.abs(back.percent - held.percent)).toBeLessThanOrEqual(most + 1e-8);
        },
      ),
    );
  });

  test('a lost sample holds the loop: without change of the flow it goes on as if none had been lost', () => {
    fc.assert(
      fc.property(fc.double({ min: 60, max: 140, noNaN: true }), fc.integer({ min: 1, max: 9 }), (mlPerMin, lost) => {
        const input = { elapsedSeconds: 1, mlPerMin, mm2PerS: 80 };
        const ran = advanceFlowControl(config, advanceFlowControl(config, startFlowControl(40), input).state, input);
        let { state } = ran;
        for (let i = 0; i < lost; i += 1) state = advanceFlowControl(config, state, { ...input, mlPerMin: null }).state;
        const back = advanceFlowControl(config, state, input);
        expect(back.percent).toBe(advanceFlowControl(config, ran.state, input).percent);
      }),
    );
  });
});

describe('swings', () => {
  // beyond 5 % of 100 mL/min and the deadband of 2, of the mean that takes in a third of each deviation
  const of = { ...config, deadbandMlPerMin: 2 };
  const swings = (flows: readonly number[], elapsedSeconds = 1) => {
    let state = startFlowControl(40);
    return flows.map((mlPerMin) => {
      const step = advanceFlowControl(of, state, { elapsedSeconds, mlPerMin });
      state = step.state;
      const told = step.events.map(({ event }) => event).filter((event) => event.startsWith('oscillation'));
      return { ...state.swing, told: told.join() };
    });
  };
  // a mean of 10, then of -10, and so on
  const turns = (n: number) => [70, ...Array.from({ length: n - 1 }, (_, i) => (i % 2 === 0 ? 150 : 50))];

  test('six to alternate sides are told, once; and that they have ended', () => {
    const found = swings([...turns(7), ...Array(260).fill(100)]);
    expect(found.slice(0, 7).map(({ side, count }) => [side, count])).toEqual([
      ...[1, 2, 3, 4, 5, 6, 6].map((count, i) => [i % 2 === 0 ? 1 : -1, count]),
    ]);
    const told = found.flatMap((one, i) => (one.told === '' ? [] : [[i, one.told]]));
    // the seventh step, number 6, is the last to swing: 250 s later none has come
    expect(told).toEqual([
      [5, 'oscillation'],
      [257, 'oscillation_ended'],
    ]);
  });

  test('only what lies beyond the edge on either side is one', () => {
    const side = (deviation: number) => swings([100 - deviation])[0]?.side;
    expect([0, 18, -18, 21, -21, 21.1, -21.1].map(side)).toEqual([0, 0, 0, 0, 0, 1, -1]);
  });

  test('one that comes later than a hundred integral times, or than twenty steps, begins anew', () => {
    const onOneSide = (quiet: number) => swings([70, ...Array(quiet).fill(100), 50]).at(-1)?.count;
    const turned = (quiet: number, elapsedSeconds: number) =>
      swings([70, ...Array(quiet).fill(100), 150], elapsedSeconds).at(-1)?.count;
    expect([turned(249, 1), turned(250, 1)]).toEqual([2, 1]);
    expect([turned(19, 20), turned(20, 20)]).toEqual([2, 1]);
    // to the same side it is none
    expect([onOneSide(249), onOneSide(250)]).toEqual([1, 0]);
  });

  test('a hand at the speed makes none', () => {
    const { state } = advanceFlowControl(of, startFlowControl(40), {
      ...{ elapsedSeconds: 1, mlPerMin: 10, manualPercent: 40 },
    });
    expect(state.swing).toMatchObject({ side: 0, mean: 0 });
  });
});

describe('a drive in steps', () => {
  const of = (percentStep: number, leastPercent = 5, mostPercent = 95) => {
    const { feedForward: _, ...bare } = config;
    return { ...bare, percentStep, leastPercent, mostPercent };
  };
  const next = (own: FlowControlConfig, start: number) =>
    advanceFlowControl(own, startFlowControl(start), { elapsedSeconds: 1, mlPerMin: 100 }).percent;

  test('goes to a step from where it stands on none, and stays on one', () => {
    expect([30, 31, 31.3, 32.5].map((start) => next(of(2.5), start))).toEqual([30, 30, 32.5, 32.5]);
  });

  test('stays on no step that lies beyond the limits', () => {
    expect([next(of(10, 12), 10), next(of(10, 5, 88), 90)]).toEqual([20, 80]);
  });
});

describe('what it reports and refuses', () => {
  const at = (state: FlowControlState, input: Partial<FlowControlInput>, own = config) =>
    advanceFlowControl(own, state, { elapsedSeconds: 1, mlPerMin: 100, mm2PerS: 80, ...input });

  test('events once each, and how long the signal is lost', () => {
    let state = startFlowControl(27);
    const codes = [
      {},
      { manualPercent: 30 },
      { manualPercent: 31 },
      ...Array(7).fill({ mlPerMin: null }),
      {},
      ...Array(6).fill({ mm2PerS: 320 }),
      { mm2PerS: null },
      ...Array(6).fill({ mm2PerS: 80 }),
    ].map((input) => {
      const result = at(state, input);
      state = result.state;
      return [result.events.map((event) => event.event).join(), state.mode, state.lostSeconds];
    });
    expect(codes).toEqual([
      ['to_automatic', 'automatic', 0],
      ['to_manual', 'manual', 0],
      ['', 'manual', 0],
      ...[1, 2, 3, 4, 5, 6, 7].map((n) => [n === 6 ? 'signal_lost' : '', 'holding', n]),
      ['signal_back,to_automatic', 'automatic', 0],
      ...[1, 2, 3, 4, 5, 6].map((n) => [n === 6 ? 'viscosity_outside' : '', 'automatic', 0]),
      ['', 'automatic', 0],
      ...[1, 2, 3, 4, 5, 6].map((n) => [n === 6 ? 'viscosity_inside' : '', 'automatic', 0]),
    ]);
  });

  test('each sentence is true of the step it is told at', () => {
    const texts = (state: FlowControlState, input: Partial<FlowControlInput>, own = config) =>
      advanceFlowControl(own, state, { elapsedSeconds: 1, mlPerMin: 100, mm2PerS: 80, ...input }).events.map((event) =>
        flowControlText(event),
      );
    const running = at(startFlowControl(30), {}).state;
    const lostFive = (from: FlowControlState, input: Partial<FlowControlInput> = {}) => {
      let state = from;
      for (let i = 0; i < 5; i += 1) state = at(state, { mlPerMin: null, ...input }).state;
      return state;
    };
    expect(texts(lostFive(running), { mlPerMin: null })).toEqual(['The flow signal is lost: speed held at 30 %.']);
    expect(texts(lostFive(running), { mlPerMin: null, manualPercent: 60 })).toEqual([
      'The flow signal is lost; the speed is set by hand.',
      'The speed is set by hand.',
    ]);
    const byHand = at(running, { manualPercent: 60 }).state;
    expect(texts(lostFive(byHand, { manualPercent: 60 }), { mlPerMin: null, manualPercent: 60 })).toEqual([
      'The flow signal is lost; the speed is set by hand.',
    ]);
    expect(texts(lostFive(startFlowControl()), { mlPerMin: null })).toEqual([
      'There is no flow signal: the pump is not started.',
    ]);
    // within no time at all it is still the same loss
    const lost = at(lostFive(running), { mlPerMin: null, elapsedSeconds: 0 }).state;
    expect(texts(lost, { mlPerMin: null })).toEqual([]);
    expect(texts(lost, {})).toEqual(['The flow signal is back.']);
    // one that ends before is not told
    expect(texts(lostFive(running), {})).toEqual([]);
    // without a curve there is no inside
    const sixTimes = (from: FlowControlState, input: Partial<FlowControlInput>, own = config) => {
      let state = from;
      for (let i = 0; i < 6; i += 1) state = at(state, input, own).state;
      return state;
    };
    const outside = sixTimes(running, { mm2PerS: 900 });
    const { feedForward: _, ...bare } = config;
    expect(outside.outside).toBe(true);
    expect(sixTimes(outside, {}, bare)).toMatchObject({ feedForward: null, outside: false });
    expect(texts(outside, {}, bare)).toEqual([]);
  });

  test('a running pump goes on from where it is; a viscosity that comes late makes no jump', () => {
    expect(at(startFlowControl(40), {}).percent).toBe(40);
    const blind = at(startFlowControl(40), { mm2PerS: null });
    expect(blind.state.feedForward).toBe(null);
    expect(at(blind.state, { mm2PerS: 160 }).percent).toBeCloseTo(40, 12);
    const waiting = at(startFlowControl(), { mlPerMin: null });
    expect(waiting.state.mode).toBe('starting');
    expect(waiting.percent).toBe(0);
    expect(at(waiting.state, { mlPerMin: 0 }).percent).toBe(5);
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
      const problems = problemsOf(error).map(({ code, path }) => `${code} ${path.join('.')}`);
      if (problems.length > 0) return problems.join('; ');
      return isMotescaleError(error) ? `${error.code} ${error.parameter}` : String(error);
    }
    return 'no error';
  };

  test.each<[string, object]>([
    ['out_of_range mlPerMin', { mlPerMin: 0 }],
    ['out_of_range gain', { gain: 0 }],
    ['out_of_range integralSeconds', { integralSeconds: 0 }],
    ['out_of_range mostPercent', { mostPercent: 4 }],
    ['out_of_range slewPerSecond', { slewPerSecond: 0 }],
    ['out_of_range longestStepSeconds', { longestStepSeconds: 0 }],
    ['negative deadbandMlPerMin', { deadbandMlPerMin: -1 }],
    ['out_of_range percentStep', { percentStep: 48, leastPercent: 50 }],
    ['too_few feedForward.curve', { feedForward: { curve: [{ mm2PerS: 1, percent: 1 }], mlPerMin: 1 } }],
    [
      'out_of_range feedForward.curve.1.mm2PerS',
      { feedForward: { curve: [1, 1].map((mm2PerS) => ({ mm2PerS, percent: 9 })), mlPerMin: 1 } },
    ],
    ['unknown_option gane; not_a_number gain', { gane: 3, gain: Number.NaN }],
  ])('%s', (expected, change) => {
    expect(thrown(() => prepareFlowControl({ ...config, ...change }))).toBe(expected);
  });

  test('a configuration that was not prepared, or by another version', () => {
    const input = { elapsedSeconds: 1, mlPerMin: 1 };
    const prepared = prepareFlowControl(config);
    for (const one of [config, null, 7, { ...prepared, version: '0.0.1' }, { ...prepared, prepared: 'alarm' }]) {
      expect(thrown(() => advancePrepared(one as never, startFlowControl(), input))).toBe('not_prepared prepared');
      expect(thrown(() => startPrepared(one as never))).toBe('not_prepared prepared');
      expect(thrown(() => resumeFlowControl(one as never, startFlowControl()))).toBe('not_prepared prepared');
    }
  });

  test('a state or an input that is none', () => {
    const input = { elapsedSeconds: 1, mlPerMin: 1 };
    const prepared = prepareFlowControl(config);
    for (const [state, parameter] of [
      [null, 'state'],
      [{}, 'state.byHand'],
      [{ ...startFlowControl(), integral: Number.NaN }, 'state.integral'],
      [{ ...startFlowControl(), mode: 'x' }, 'state.mode'],
      [{ ...startFlowControl(), feedForward: 20 }, 'state.mlPerMin'],
      [{ ...startFlowControl(), mlPerMin: 0 }, 'state.mlPerMin'],
      [{ ...startFlowControl(), mm2PerS: 'thick' }, 'state.mm2PerS'],
      [{ ...startFlowControl(), byHand: undefined }, 'state.byHand'],
      [{ ...startFlowControl(), lost: null }, 'state.lost'],
      [{ ...startFlowControl(), swing: undefined }, 'state.swing'],
      [{ ...startFlowControl(), swing: { ...startFlowControl().swing, mean: Infinity } }, 'state.swing.mean'],
      [{ ...startFlowControl(), version: 3 }, 'state.version'],
      [{ ...startFlowControl(), percent: 500 }, 'state.percent'],
      [{ ...startFlowControl(), percent: -20 }, 'state.percent'],
      [{ ...startFlowControl(), integral: 1e300 }, 'state.integral'],
      [{ ...startFlowControl(), integral: -1001 }, 'state.integral'],
      [{ ...startFlowControl(), lostSeconds: -1 }, 'state.lostSeconds'],
      [{ ...startFlowControl(), swing: { ...startFlowControl().swing, count: 7 } }, 'state.swing.count'],
      [{ ...startFlowControl(), swing: { ...startFlowControl().swing, seconds: -1 } }, 'state.swing.seconds'],
      [{ ...startFlowControl(), off: { seconds: -1, told: false } }, 'state.off.seconds'],
    ] as const) {
      expect(thrown(() => advanceFlowControl(config, state as never, input))).toBe(`bad_state ${parameter}`);
      expect(thrown(() => resumeFlowControl(prepared, state))).toBe(`bad_state ${parameter}`);
    }
    expect(thrown(() => at(startFlowControl(), { elapsedSeconds: -1 }))).toBe('negative input.elapsedSeconds');
    expect(thrown(() => at(startFlowControl(), { mlPerMin: Number.NaN }))).toBe('not_a_number input.mlPerMin');
    expect(thrown(() => at(startFlowControl(), { manualPercent: 101 }))).toBe('out_of_range input.manualPercent');
    expect(thrown(() => at(startFlowControl(), { mm2PerS: Number.NaN }))).toBe('not_a_number input.mm2PerS');
    expect(thrown(() => at(startFlowControl(), { start: 1 } as never))).toBe('wrong_type input.start');
    expect(thrown(() => at(startFlowControl(), { mlPerMinute: 3 } as never))).toBe('unknown_option input.mlPerMinute');
    expect(thrown(() => startFlowControl(101))).toBe('out_of_range options.percent');
  });

  test('texts that are none are named', () => {
    const event = { event: 'signal_lost', mode: 'holding', percent: 31 } as const;
    const given = (texts: unknown) => () => flowControlText(event, texts as never);
    const { signal_lost: lost } = flowControlTexts;
    for (const [texts, parameter] of [
      [5, 'texts'],
      [{ ...flowControlTexts, signal_back: 5 }, 'texts.signal_back'],
      [{ ...flowControlTexts, signal_lost: 'lost' }, 'texts.signal_lost'],
      [{ ...flowControlTexts, signal_lost: { ...lost, other: null } }, 'texts.signal_lost.other'],
    ] as const)
      expect(given(texts)).toThrow(expect.objectContaining({ code: 'wrong_type', parameter }));
    expect(given({ ...flowControlTexts, signal_lost: { ...lost, other: '{percent}' } })()).toBe('31');
  });

  test('a curve is read in any order, left as it is, and has each viscosity once', () => {
    const curve = [80, 20, 160].map((mm2PerS) => Object.freeze({ mm2PerS, percent: 20 + mm2PerS / 10 }));
    expect(speedForViscosity(Object.freeze(curve), 50).percent).toBeCloseTo(25, 10);
    const twice = [...curve, { mm2PerS: 20, percent: 50 }];
    const refused = expect.objectContaining({ code: 'out_of_range', expected: 'each viscosity once' });
    expect(() => speedForViscosity(twice, 50)).toThrow(refused);
    const feedForward = { curve: twice, mlPerMin: 100 };
    expect(() => prepareFlowControl({ ...config, feedForward })).toThrow('each viscosity once');
  });

  test('a state of version 0.1 goes on', () => {
    const { version: _, swing: __, ...old } = startFlowControl(31);
    const { state, added } = resumeFlowControl(prepareFlowControl(config), {
      ...old,
      mode: 'automatic',
      byHand: false,
    });
    expect(added).toEqual(['swing']);
    expect(resumeFlowControl(prepareFlowControl(config), state)).toEqual({
      ...{ state, events: [], kept: ['output'], dropped: [], added: [] },
    });
    expect(at(state, {}).state).toMatchObject({ mode: 'automatic', version: 2 });
  });
});

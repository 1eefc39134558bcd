/**
 * Flow control where a meter, a drive or a gateway is at fault: each case once let the pump run away in silence
 * or told what was not so. The plants are those of bench/statistics/flowPlants.ts, which has the rates.
 */
import { describe, expect, test } from 'vitest';
import { type Case, caseOf, course } from '../../../bench/statistics/flowPlants.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlInput,
  type FlowControlState,
  flowControlFor,
  flowControlText,
  prepareFlowControl,
  pumpSpeed,
  resumeFlowControl,
  startFlowControl,
} from '../../../src/sampling/index.ts';
import { some } from '../../volume.ts';

const range = { mlPerMin: 45, leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
const settings = flowControlFor({ gain: 2.4, lagSeconds: 12, deadSeconds: 5 });
const whole: FlowControlConfig = { ...settings, ...range };

/** The events, each with its step, and the last speed, of steps that are handed the speed before. */
function steps(config: FlowControlConfig, count: number, input: (i: number) => FlowControlInput, percent = 18.75) {
  const prepared = prepareFlowControl(config);
  let state = startFlowControl(prepared, percent === 0 ? {} : { percent });
  const events: [string, number][] = [];
  let highest = 0;
  for (let i = 0; i < count; i += 1) {
    const answer = advanceFlowControl(prepared, state, input(i));
    state = answer.state;
    highest = Math.max(highest, state.percent);
    for (const { event } of answer.events) if (!event.startsWith('to_')) events.push([event, i]);
  }
  return { events, words: events.map(([word]) => word), state, highest };
}
const shown = (mlPerMin: number | null, elapsedSeconds = 1) => ({ elapsedSeconds, mlPerMin });
const cases = (count: number, options: Parameters<typeof caseOf>[1]) =>
  Array.from({ length: count }, (_, k) => caseOf(700_000 + k, options)).filter((one): one is Case => one !== null);

describe('a meter that stands still', () => {
  test.each([43.3, 44.9, 46.7, 0])('at %s of 45 mL/min is told, and the pump goes back to its speed', (mlPerMin) => {
    const { words, state, highest } = steps(whole, 20000, (i) => shown(i === 0 && mlPerMin > 45 ? 46.8 : mlPerMin));
    expect(words).toEqual(['signal_frozen']);
    expect(state.percent).toBeCloseTo(18.75, 0);
    if (mlPerMin > 40) expect(highest).toBeLessThan(18.75 * 1.5);
  });

  test('that moves again is regulated again, from there', () => {
    const { words, state } = steps(whole, 2000, (i) => shown(i < 1990 ? 43.3 : 43.4 + i / 1e4));
    expect(words).toEqual(['signal_frozen', 'signal_frozen_ended']);
    expect(Math.abs(state.percent - 18.75)).toBeLessThan(2);
  });

  test('since before a start is told too, also where the pump was stopped by hand meanwhile', () => {
    expect(steps(whole, 20000, () => shown(43.3), 0)).toMatchObject({
      words: ['started', 'signal_frozen'],
      state: { percent: 8 },
    });
    const stopped = (i: number) => ({ ...shown(43.3), manualPercent: i === 4001 ? 0 : null, start: i === 4600 });
    const { words, state } = steps(whole, 20000, stopped);
    const told = words.filter((word) => word.indexOf('frozen') >= 0);
    expect(told).toEqual(['signal_frozen', 'signal_frozen_ended', 'signal_frozen']);
    expect(state.percent).toBe(8);
  });

  /** The flow at the end of so many steps of a sound pump, from a speed by hand; what its meter shows of it. */
  const atEnd = (config: FlowControlConfig, shows: (flow: number) => number, percent: number, slip = 0) => {
    let flow = Math.max(2.4 * percent - slip, 0);
    const prepared = prepareFlowControl(config);
    let state = startFlowControl(prepared, { percent });
    for (let i = 0; i < 3000; i += 1) {
      flow += (1 - Math.exp(-1 / 12)) * (Math.max(2.4 * state.percent - slip, 0) - flow);
      state = advanceFlowControl(prepared, state, shown(shows(flow))).state;
    }
    return flow;
  };

  test.each([48, 60, 100])('of a meter whose range ends at %s: a pump comes down from full speed', (most) => {
    expect(atEnd(whole, (flow) => Math.min(flow, most), 92)).toBeCloseTo(45, 3);
  });

  test('at nothing, until a pump delivers whose lowest speed is 0 and whose slew is slow', () => {
    expect(atEnd({ ...whole, leastPercent: 0, slewPerSecond: 0.2 }, (flow) => flow, 0, 30)).toBeCloseTo(45, 3);
  });

  test('on plants at random: never more than one and a half of the setpoint; sound ones are not called so', () => {
    let told = 0;
    for (const one of cases(some(60, 3), { stepSeconds: 1 })) {
      const found = course(one, 14400, 3600, (_, __, { held }) => held as number);
      const before = found.events.filter(({ seconds }) => seconds < 3600).map(({ event }) => event);
      expect(before, `${one.seed}`).not.toContain('signal_frozen');
      expect(found.peak, `${one.seed}`).toBeLessThan(1.5);
      told += found.events.some(({ event }) => event === 'signal_frozen') ? 1 : 0;
    }
    expect(told).toBeGreaterThan(0);
  });

  test('a speed at its limit is told after ten response times, long before the flow is told to be off', () => {
    const { events } = steps(whole, 1500, (i) => shown(10 + (i % 2)));
    expect(events.map(([word]) => word)).toEqual(['speed_at_limit', 'off_setpoint']);
    expect(events[0]?.[1]).toBeLessThan(240);
  });
});

describe('the feed-forward', () => {
  test('does not keep the loop from a flow that it asks too little for, at the lowest speed', () => {
    const curve = [24, 98].map((mm2PerS) => ({ mm2PerS, percent: 45 }));
    const fed = prepareFlowControl({ ...whole, mlPerMin: 10, feedForward: { curve, mlPerMin: 60 } });
    let [state, flow] = [startFlowControl(fed), 0];
    for (let i = 0; i < 3000; i += 1) {
      flow += (1 - Math.exp(-1 / 12)) * (Math.max(2 * state.percent - 30, 0) - flow);
      state = advanceFlowControl(fed, state, { elapsedSeconds: 1, mlPerMin: flow, mm2PerS: 50 }).state;
    }
    expect(flow).toBeCloseTo(10, 3);
  });

  test('makes a start no worse than one without, on plants at random whose curve is exact', () => {
    const upper = (feedForward: boolean) => {
      const all = cases(some(150, 20), { feedForward, noise: 0, stepSeconds: 1, percentStep: 0 });
      const found = all.map((one) => course(one, 900, Infinity, undefined, 0).overshoot).sort((a, b) => a - b);
      return found[Math.floor(found.length * 0.95)] as number;
    };
    expect(upper(true)).toBeLessThanOrEqual(upper(false));
    expect(upper(true)).toBeLessThan(0.1);
  });

  test('a start is from the lowest speed, however long the pump stood', () => {
    const curve = [24, 98].map((mm2PerS) => ({ mm2PerS, percent: 46 }));
    const fed = { ...whole, feedForward: { curve, mlPerMin: 45 } };
    const from = (elapsedSeconds: number) =>
      steps(fed, 1, () => ({ elapsedSeconds, mlPerMin: 0, mm2PerS: 50 }), 0).state.percent;
    expect([from(1), from(3600)]).toEqual([8, 8]);
  });
});

describe('a drive in steps', () => {
  const by = (slewPerSecond: number, percentStep: number, elapsedSeconds: number, count = 16) => {
    const own = { mlPerMin: 45, gain: 1, integralSeconds: 4, leastPercent: 10, mostPercent: 90 };
    const input = { elapsedSeconds, mlPerMin: 0, manualPercent: 90 };
    return steps({ ...own, slewPerSecond, percentStep }, count, () => input, 10).state.percent;
  };

  test('keeps to the slew at any step: one of its steps each percentStep / slewPerSecond seconds', () => {
    expect([by(0.5, 5, 0.1), by(0.5, 5, 0), by(1.5, 1, 1), by(0.5, 5, 0.1, 205)]).toEqual([10, 10, 34, 20]);
  });

  test('reaches a limit that is a step of it, though not in doubles', () => {
    const { state } = steps({ ...whole, mostPercent: 80.1, percentStep: 0.1 }, 200, (i) => shown(1 + (i % 9)));
    expect(state.percent).toBe(80.1);
  });
});

describe('what is told of a flow that is off', () => {
  const slow = { ...flowControlFor({ gain: 2.4, lagSeconds: 3, deadSeconds: 1, stepSeconds: 600 }), ...range };

  test('nothing at the first call, at one sample in a thousand, after a pause', () => {
    expect(steps(slow, 1, () => shown(0, 600), 0).words).toEqual(['started']);
    expect(steps(slow, 1001, (i) => shown(i < 1000 ? 45 : 48, 600)).words).toEqual([]);
    expect(steps(whole, 601, (i) => (i < 600 ? shown(45) : shown(42.5, 1800))).words).toEqual([]);
  });

  test('6 % too little at full speed is told within half an hour, whatever the noise', () => {
    for (const noise of [0.01, 0.03, 0.05]) {
      const wave = (i: number) => 60 * (0.94 + noise * Math.SQRT2 * Math.sin(i * 2.4));
      const { words } = steps({ ...whole, mlPerMin: 60 }, 1800, (i) => shown(wave(i)), 92);
      expect(words, `${noise}`).toContain('off_setpoint');
    }
  });

  test('a deadband of half the setpoint is refused, as steps of 20 % make it here', () => {
    const wide = flowControlFor({ gain: 2.4, lagSeconds: 12, deadSeconds: 5, percentStep: 20 });
    expect(() => prepareFlowControl({ ...wide, ...range })).toThrow('half the setpoint');
    expect(() => prepareFlowControl({ ...whole, deadbandMlPerMin: 22.4 })).not.toThrow();
  });

  test('a flow that turns at each step is an oscillation; settings made for 1 s hold at 10 and 60', () => {
    const { response: _, ...bare } = settings;
    expect(steps({ ...bare, ...range }, 30, (i) => shown(i % 2 === 0 ? 35 : 55)).words).toEqual(['oscillation']);
    for (const [step, dead] of [
      [10, 0],
      [60, 5],
    ] as const) {
      const prepared = prepareFlowControl({
        ...flowControlFor({ gain: 2.4, lagSeconds: 12, deadSeconds: dead }),
        ...range,
      });
      let state = startFlowControl(prepared);
      let flow = 0;
      for (let i = 0; i < 200; i += 1) {
        flow += (1 - Math.exp(-(step - dead) / 12)) * (2.4 * state.percent - flow);
        state = advanceFlowControl(prepared, state, shown(flow, step)).state;
      }
      expect(flow).toBeCloseTo(45, 3);
    }
  });
});

describe('what is passed', () => {
  test('a flow a little below 0 is 0; farther below it is a lost signal, told once, and the wiring named', () => {
    const first = (mlPerMin: number) => steps(whole, 1, () => shown(mlPerMin), 0).state.mode;
    expect([first(-2.25), first(-2.26)]).toEqual(['automatic', 'starting']);
    // a meter of 0 to 100 by 4 to 20 mA whose wire breaks shows -25, for a day
    const broken = steps(whole, 86400, (i) => shown(i < 60 ? 45 : -25), 19);
    const { percent, lostSeconds, mode } = broken.state;
    expect([broken.events, mode, lostSeconds]).toEqual([[['signal_lost', 65]], 'holding', 86340]);
    // the same as null
    expect(steps(whole, 86400, (i) => shown(i < 60 ? 45 : null), 19).state).toEqual(broken.state);
    const event = { event: 'signal_lost', mode, percent, mlPerMin: -25 } as const;
    expect(flowControlText(event)).toContain('The meter shows -25 mL/min: its wire is broken');
    expect(flowControlText(event, germanTexts.flowControl)).toContain('zeigt -25 mL/min');
    const given = (i: number) => shown(i < 60 ? 45 : -25);
    let state = startFlowControl(prepareFlowControl(whole), { percent: 19 });
    const figures: unknown[] = [];
    for (let i = 0; i < 70; i += 1) {
      const step = advanceFlowControl(prepareFlowControl(whole), state, given(i));
      state = step.state;
      figures.push(...step.events.filter((one) => one.event === 'signal_lost').map(({ mlPerMin }) => mlPerMin));
    }
    expect(figures).toEqual([-25]);
  });

  test('a viscosity that cannot be is not known', () => {
    const curve = [
      { mm2PerS: 24, percent: 33 },
      { mm2PerS: 98, percent: 27 },
    ];
    const fed = { ...whole, feedForward: { curve, mlPerMin: 60 } };
    const run = (mm2PerS: number | null) => steps(fed, 99, (i) => ({ ...shown(45), mm2PerS: i < 9 ? 46 : mm2PerS }));
    for (const none of [0, -25]) expect(run(none).state).toEqual(run(null).state);
  });
});

describe('a stop by hand', () => {
  const prepared = prepareFlowControl(whole);
  const stop = { ...shown(45), manualPercent: 0 };
  const from = (state: FlowControlState, ...inputs: FlowControlInput[]) => {
    const told: string[] = [];
    for (const one of inputs) {
      const step = advanceFlowControl(prepared, state, one);
      state = resumeFlowControl(prepared, JSON.parse(JSON.stringify(step.state))).state;
      told.push(...step.events.map(({ event }) => event));
    }
    return { state, percent: state.percent, told };
  };
  const running = startFlowControl(prepared, { percent: 30 });

  test('acts at once, however slow the slew, and stays until a start is given', () => {
    for (const slewPerSecond of [0.05, 1, 8]) {
      const slow = prepareFlowControl({ ...whole, slewPerSecond });
      expect(advanceFlowControl(slow, startFlowControl(slow, { percent: 50 }), stop).percent).toBe(0);
    }
    const stopped = from(running, shown(45), stop, shown(45), { ...shown(0), manualPercent: null }, shown(null));
    expect([stopped.percent, stopped.told]).toEqual([0, ['to_automatic', 'stopped', 'to_manual']]);
    // a start in the same step as a stop does not start
    expect(from(stopped.state, { ...stop, start: true }).percent).toBe(0);
    const again = from(stopped.state, { ...shown(0), start: true }, shown(0));
    expect([again.percent > 0, again.told]).toEqual([true, ['started', 'to_automatic']]);
    // by hand, and without a flow signal
    expect(from(stopped.state, { ...shown(0), manualPercent: 20 }).told).toEqual(['started']);
    const blind = from(stopped.state, { ...shown(null), start: true }, shown(null));
    expect([blind.percent, blind.state.mode, blind.told]).toEqual([0, 'manual', ['start_refused']]);
    // the meter comes back while someone has his hands at the line
    expect(from(blind.state, shown(0))).toMatchObject({ percent: 0, told: [] });
  });

  test('is kept after a power cut, and every start is told', () => {
    const { mode, percent } = from(running, stop).state;
    const kept = startFlowControl(prepared, { stopped: mode === 'manual' && percent === 0 });
    expect(from(kept, shown(0), shown(0))).toMatchObject({ percent: 0, told: [] });
    expect(from(kept, { ...shown(0), start: true }).told).toEqual(['started', 'to_automatic']);
    expect(from(startFlowControl(prepared), shown(0)).told).toEqual(['started']);
    expect(() => startFlowControl(prepared, { percent: 5, stopped: true })).toThrow('0 of a stopped pump');
    // a state of before that had been stopped by hand
    const { version: _, swing: __, ...old } = from(running, stop).state;
    expect(from(resumeFlowControl(prepared, old).state, shown(0)).percent).toBe(0);
  });
});

test('a pump that runs by hand without flow is told, once; one that runs slowly with little flow is not', () => {
  // 10 response times of 18 s
  const dry = (i: number) => ({ ...shown(i < 100 ? 45 : 45 * Math.exp((100 - i) / 12)), manualPercent: 30 });
  const told = steps(whole, 86400, dry, 30).events.filter(([word]) => word === 'no_flow' || word === 'no_flow_ended');
  expect(told).toEqual([['no_flow', 315]]);
  const back = (i: number) => ({ ...shown(i < 2000 ? 0 : 45), manualPercent: 30 });
  expect(steps(whole, 3000, back, 30).words).toContain('no_flow_ended');
  for (const quiet of [
    (i: number) => ({ ...shown(i % 100 === 0 ? 3 : 0), manualPercent: 30 }),
    () => ({ ...shown(3), manualPercent: 30 }),
    () => ({ ...shown(0), manualPercent: 0 }),
    () => ({ ...shown(null), manualPercent: 30 }),
  ])
    expect(steps(whole, 3000, quiet, 30).words).not.toContain('no_flow');
  const { words, state } = steps(whole, 5000, (i) => ({ ...shown(0), manualPercent: i < 4000 ? 30 : null }), 30);
  expect(words).toContain('no_flow_ended');
  expect(state.dry).toBe(undefined);
  expect(flowControlText({ event: 'no_flow', mode: 'manual', percent: 30 })).toContain('runs at 30 % by hand');
});

describe('what is lost or too large', () => {
  test('one sample in twenty lost is no flood: six in turn are a loss', () => {
    expect(steps(whole, 5000, (i) => shown(i % 20 < 5 ? null : 45)).words).toEqual([]);
    expect(steps(whole, 7, (i) => shown(i < 6 ? null : 45)).events).toEqual([
      ['signal_lost', 5],
      ['signal_back', 6],
    ]);
  });

  test('shares for percent, and a pump that would turn too fast, are refused', () => {
    expect(() => prepareFlowControl({ ...whole, leastPercent: 0.08, mostPercent: 0.92 })).toThrow('not a share');
    const pump = { mlPerRevolution: 1e-6, volumetricEfficiency: 0.01 };
    expect(() => pumpSpeed({ ...pump, mlPerMin: 1e9 })).toThrow('revolutions a minute');
    const both = { mlPerRevolution: 0.1, volumetricEfficiency: 0.8, mlPerMin: 60, revolutionsPerMin: 7 };
    expect(() => pumpSpeed(both)).toThrow('revolutionsPerMin');
  });
});

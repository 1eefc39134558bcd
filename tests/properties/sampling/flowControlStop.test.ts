/** What stops a pump and keeps it stopped: a hand, a drive that is not ready, thick oil, and starts that are none. */
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceFlowControl,
  type FlowControlEvent,
  type FlowControlInput,
  type FlowControlState,
  flowControlText,
  prepareFlowControl,
  startFlowControl,
} from '../../../src/sampling/index.ts';

const curve = [
  { mm2PerS: 24, percent: 46 },
  { mm2PerS: 98, percent: 43 },
];
const config = {
  ...{ mlPerMin: 60, gain: 0.45, integralSeconds: 12, leastPercent: 10, mostPercent: 50, slewPerSecond: 8 },
  ...{ feedForward: { curve, mlPerMin: 60 }, mostMm2PerS: 190 },
};
const prepared = prepareFlowControl(config);
const running = startFlowControl(prepared, { percent: 41 });
const shown = { elapsedSeconds: 1, mlPerMin: 60, mm2PerS: 46 };

/** Steps from a state on, as it is saved between them, with the words told. */
function from(state: FlowControlState, ...inputs: object[]) {
  const told: string[] = [];
  const events: FlowControlEvent[] = [];
  for (const input of inputs) {
    const step = advanceFlowControl(prepared, state, { ...shown, ...input } as FlowControlInput);
    state = JSON.parse(JSON.stringify(step.state));
    events.push(...step.events);
    told.push(...step.events.map(({ event }) => event));
  }
  return { state, percent: state.percent, mode: state.mode, told, events };
}
const stopped = from(running, { manualPercent: 0 }).state;

describe('a stop by hand comes before all else of its step', () => {
  test.each<[object, string[]]>([
    [{ mlPerMin: Number.NaN }, ['input.mlPerMin']],
    [{ mlPerMin: undefined }, ['input.mlPerMin']],
    [{ mlPerMin: '60' }, ['input.mlPerMin']],
    [{ mlPerMin: 1e13 }, ['input.mlPerMin']],
    [{ mm2PerS: Number.NaN }, ['input.mm2PerS']],
    [{ mm2PerS: Number.POSITIVE_INFINITY }, ['input.mm2PerS']],
    [{ mm2PerS: 1e300 }, ['input.mm2PerS']],
    [{ mm2PerS: 1e-300 }, []],
    [{ elapsedSeconds: -1 }, ['input.elapsedSeconds']],
    [{ elapsedSeconds: undefined, mlPerMin: Number.NaN }, ['input.elapsedSeconds', 'input.mlPerMin']],
    [{ foo: 1 }, ['input.foo']],
    [{ start: 'yes' }, ['input.start']],
    [{ manualPercent: -5 }, ['input.manualPercent']],
    [{ ready: false, manualPercent: 'fast' }, ['input.manualPercent']],
  ])('%j', (wrong, parameters) => {
    const done = from(running, { manualPercent: 0, ...wrong });
    const unread = done.events.filter(({ event }) => event === 'input_unread');
    expect([done.percent, done.mode, unread.map(({ parameter }) => parameter)]).toEqual([0, 'manual', parameters]);
    expect(done.told[0]).toBe('stopped');
    for (const one of unread) expect(flowControlText(one)).toContain(`; ${one.parameter} of the same step`);
    // and is kept
    expect(from(done.state, {}, { mlPerMin: 0 }).percent).toBe(0);
  });

  test('of a damaged state too, which else is refused', () => {
    const damaged = { ...running, swing: undefined } as never;
    expect(() => from(damaged, {})).toThrow('state.swing');
    const done = from(damaged, { manualPercent: 0 }, {});
    expect([done.percent, done.told]).toEqual([0, ['stopped', 'input_unread']]);
    expect(done.events[1]?.parameter).toBe('state');
  });

  test('what can be read beside it is read, and without a stop all is refused as before', () => {
    expect(from(running, { manualPercent: 0, mm2PerS: Number.NaN }).state).toMatchObject({
      lost: false,
      mm2PerS: null,
    });
    for (const wrong of [
      { mlPerMin: Number.NaN },
      { elapsedSeconds: -1 },
      { manualPercent: '0' },
      { manualPercent: 120 },
    ])
      expect(() => from(running, wrong)).toThrow(/input\.(mlPerMin|elapsedSeconds|manualPercent)/);
    expect(() => advanceFlowControl(prepared, running, null as never)).toThrow('input');
  });

  test('a slider that does not find 0 stops, and its noise starts nothing', () => {
    expect([4.99, 0.4, 1e-9, -0].map((manualPercent) => from(running, { manualPercent }).percent)).toEqual([
      0, 0, 0, 0,
    ]);
    expect([5, 8, 10].map((manualPercent) => from(stopped, { manualPercent }).percent)).toEqual([10, 10, 10]);
    const noise = Array.from({ length: 50 }, (_, i) => ({ manualPercent: (i * 7) % 5 }));
    expect(from(stopped, ...noise)).toMatchObject({ percent: 0, told: [] });
  });
});

describe('a start that cannot be carried out', () => {
  test('does not wait', () => {
    const refused = from(stopped, { mlPerMin: null, start: true });
    expect(refused.events).toEqual([{ event: 'start_refused', mode: 'manual', percent: 0, why: 'no_signal' }]);
    const dead = Array(600).fill({ mlPerMin: null });
    expect(from(refused.state, ...dead, ...Array(10).fill({ mlPerMin: 0 })).told).toEqual([
      'signal_lost',
      'signal_back',
    ]);
    expect(from(refused.state, { mlPerMin: 0, start: true }).told).toEqual(['started', 'to_automatic']);
  });

  test.each(['no_signal', 'too_thick', 'not_ready'] as const)('in words: %s', (why) => {
    const event = { event: 'start_refused', mode: 'manual', percent: 0, why } as const;
    expect(flowControlText(event)).toContain('the pump is not started.');
    expect(flowControlText(event, germanTexts.flowControl)).toContain('Die Pumpe wird nicht gestartet.');
  });
});

describe('a drive that is not ready', () => {
  const cut = { mlPerMin: 0, ready: false };

  test('winds nothing up, and the pump does not start by itself when it is reset', () => {
    const hour = from(running, ...Array(3600).fill(cut));
    expect([hour.percent, hour.told]).toEqual([0, ['stopped']]);
    const reset = from(hour.state, ...Array(60).fill({ mlPerMin: 0, ready: true }));
    expect([reset.percent, reset.told]).toEqual([0, []]);
    // nor where a slider is still up
    expect(from(reset.state, ...Array(9).fill({ mlPerMin: 0, manualPercent: 30 })).percent).toBe(0);
    expect(from(reset.state, { mlPerMin: 0, start: true })).toMatchObject({
      percent: 10,
      told: ['started', 'to_automatic'],
    });
    expect(from(reset.state, { mlPerMin: null, start: true, manualPercent: 30 }, { manualPercent: 30 }).percent).toBe(
      18,
    );
  });

  test('is told as a stop before the first start too, and is no hand', () => {
    const booting = from(startFlowControl(prepared), cut);
    expect([booting.percent, booting.told]).toEqual([0, ['stopped']]);
    expect(from(booting.state, ...Array(9).fill({ mlPerMin: 0, ready: true })).told).toEqual([]);
  });

  test('tells once what cannot be read beside it', () => {
    const broken = { ...cut, mlPerMin: Number.NaN };
    expect(from(running, ...Array(60).fill(broken)).told).toEqual(['stopped', 'input_unread', 'signal_lost']);
  });

  test('is not started', () => {
    const tried = from(stopped, { ...cut, start: true }, { mlPerMin: 0 });
    expect([tried.percent, tried.told, tried.events[0]?.why]).toEqual([0, ['start_refused'], 'not_ready']);
    // one that says nothing, or true, is as it was
    expect(from(running, {}, { ready: true }).state).toEqual(from(running, {}, {}).state);
  });

  test('that is not told so is asked for the highest speed in the end', () => {
    expect(from(running, ...Array(60).fill({ mlPerMin: 0 })).percent).toBe(50);
  });
});

describe('oil thicker than the inlet takes', () => {
  const thick = { mlPerMin: 0, mm2PerS: 900 };

  test('starts no pump, which is told once, until it is thinner', () => {
    const morning = from(startFlowControl(prepared), ...Array(1800).fill(thick));
    expect([morning.percent, morning.mode, morning.told]).toEqual([
      0,
      'starting',
      ['start_refused', 'viscosity_outside'],
    ]);
    // without a viscosity it waits on; an operator may start it
    const blind = { mlPerMin: 0, mm2PerS: null };
    expect(from(morning.state, blind, blind)).toMatchObject({ percent: 0, told: [] });
    expect(from(morning.state, blind, { ...blind, start: true }).told).toEqual(['started']);
    expect(from(morning.state, { ...thick, mm2PerS: 190 }).told).toEqual(['started']);
    expect(from(morning.state, { ...thick, mm2PerS: 190.1 }).told).toEqual([]);
  });

  test('refuses a start, but not a speed by hand, and stops no pump that runs', () => {
    const tried = from(stopped, { ...thick, start: true }, { mlPerMin: 0 });
    expect([tried.percent, tried.told, tried.events[0]?.why]).toEqual([0, ['start_refused'], 'too_thick']);
    expect(from(stopped, { ...thick, manualPercent: 20 }).percent).toBe(10);
    expect(from(running, { mm2PerS: 900 }).percent).toBeGreaterThan(30);
  });

  test('is nothing to a configuration without the limit', () => {
    const { mostMm2PerS: _, ...open } = config;
    const any = prepareFlowControl(open);
    expect(any.mostMm2PerS).toBe(null);
    const step = advanceFlowControl(any, startFlowControl(any), { elapsedSeconds: 1, ...thick });
    expect(step.percent).toBe(10);
  });
});

test('a viscometer that spikes once a minute tells nothing; one that stays outside does, once', () => {
  const hour = (of: (second: number) => number | null) =>
    from(running, ...Array.from({ length: 3600 }, (_, i) => ({ mm2PerS: of(i) }))).told;
  expect(hour((i) => (i % 60 === 59 ? 400 : 46))).toEqual(['to_automatic']);
  expect(hour((i) => (i % 60 === 59 ? 46 : 140))).toEqual(['to_automatic', 'viscosity_outside']);
  // a viscometer that is silent now and then
  expect(hour((i) => (i % 5 === 4 ? null : 140))).toEqual(['to_automatic', 'viscosity_outside']);
  expect(hour((i) => (i < 1800 ? 140 : 46))).toEqual(['to_automatic', 'viscosity_outside', 'viscosity_inside']);
});

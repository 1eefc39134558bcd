/** Ends of what flow control takes, to the last value that is in, and what an error says of them. */
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../../src/index.ts';
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlState,
  flowControlFor,
  flowControlText,
  prepareFlowControl,
  resumeFlowControl,
  startFlowControl,
} from '../../../src/sampling/index.ts';

const config: FlowControlConfig = {
  ...{ mlPerMin: 45, gain: 0.2, integralSeconds: 4 },
  ...{ leastPercent: 8, mostPercent: 92, slewPerSecond: 4 },
};
const prepared = prepareFlowControl(config);
const started = startFlowControl(prepared, { percent: 31 });
const input = { elapsedSeconds: 1, mlPerMin: 45 };

/** Its words; no error where it is taken. */
function words(act: () => unknown): string {
  try {
    act();
  } catch (error) {
    const { code, parameter, expected } = error as { code: string; parameter: string; expected: string };
    const problems = problemsOf(error).map((one) => `${one.code} ${one.path.join('.')}: ${one.expected}`);
    return `${code} ${parameter}: ${problems.length > 0 ? problems.join('; ') : expected}`;
  }
  return 'no error';
}

describe('a configuration', () => {
  const found = (change: object) => words(() => prepareFlowControl({ ...config, ...change }));
  test.each([
    [{ mostPercent: 8 }, ''],
    [{ mostPercent: 7.9 }, 'mostPercent: a number from 8 to 100'],
    [{ leastPercent: 0, mostPercent: 1.1 }, ''],
    [{ leastPercent: 0, mostPercent: 1 }, 'mostPercent: percent of full speed, 92 for 92 %, not a share'],
    [{ percentStep: 46 }, ''],
    [{ leastPercent: 47, percentStep: 46.9 }, 'percentStep: a step small enough that one speed lies within the limits'],
    [{ deadbandMlPerMin: 22.4 }, ''],
    [{ deadbandMlPerMin: 22.5 }, 'deadbandMlPerMin: less than 22.5, half the setpoint: a flow within it is left alone'],
    // what is printed is let in
    [{ mlPerMin: 45.12346, deadbandMlPerMin: 22.56 }, ''],
    [
      { mlPerMin: 45.12346, deadbandMlPerMin: 22.57 },
      'deadbandMlPerMin: less than 22.56, half the setpoint: a flow within it is left alone',
    ],
  ])('%j', (change, expected) => {
    expect(found(change)).toBe(expected === '' ? 'no error' : `bad_configuration config: out_of_range ${expected}`);
  });
});

test('a step test in a configuration, word by word', () => {
  const response = { gain: 2.4, lagSeconds: 12, deadSeconds: 5, stepSeconds: 2 };
  const found = (one: unknown) => words(() => prepareFlowControl({ ...config, response: one as never }));
  const of = 'bad_configuration config: wrong_type response';
  expect(found(5)).toBe(`${of}: a step response { gain, lagSeconds, deadSeconds, stepSeconds }`);
  for (const [name, expected] of [
    ['gain', 'mL/min for each percent of speed'],
    ['lagSeconds', 'a lag in s'],
    ['deadSeconds', 'a dead time in s'],
    ['stepSeconds', 'the time between two steps in s'],
  ] as const)
    expect(found({ ...response, [name]: 'x' })).toContain(`${of}.${name}: ${expected}`);
});

test('an input that is none', () => {
  const refused = 'wrong_type input: a step { elapsedSeconds, mlPerMin }';
  for (const one of [null, 5]) expect(words(() => advanceFlowControl(prepared, started, one as never))).toBe(refused);
});

describe('a state', () => {
  const given = (change: Partial<FlowControlState>) => {
    const found = words(() => advanceFlowControl(prepared, { ...started, ...change }, input));
    expect(words(() => resumeFlowControl(prepared, { ...started, ...change }))).toBe(found);
    return found;
  };

  test('whose integral part is beyond ten times full speed, with what came from the viscosity', () => {
    const refused = (most: number) => `bad_state state.integral: a number from -${most} to ${most}`;
    expect([1000, -1000, 1000.1, -1000.1].map((integral) => given({ integral }))).toEqual([
      ...['no error', 'no error', refused(1000), refused(1000)],
    ]);
    const fed = (integral: number, feedForward: number) => given({ integral, feedForward, mlPerMin: 45 });
    expect([fed(1030, 30), fed(-1030, -30), fed(1030.1, 30), fed(1030.1, -30)]).toEqual([
      ...['no error', 'no error', refused(1030), refused(1030)],
    ]);
  });

  test('that has a part for a setpoint it does not know', () => {
    expect(given({ feedForward: 30 })).toBe('bad_state state.mlPerMin: the setpoint that `feedForward` is for');
  });

  test('of a pump that stands, and of one that runs', () => {
    const begun = { integral: 0, feedForward: null, mlPerMin: null, mm2PerS: null, lost: false, lostSeconds: 0 };
    const rest = { outside: false, swing: { side: 0, mean: 0, seconds: 0, count: 0 }, version: 2 };
    expect(startFlowControl(prepared)).toEqual({ ...begun, ...rest, percent: 0, mode: 'starting', byHand: false });
    expect(started).toEqual({ ...begun, ...rest, percent: 31, mode: 'manual', byHand: true });
  });

  test('of version 0.1.0, whose integral part had no limit, goes on within it', () => {
    const { version: _, swing: __, ...old } = { ...started, byHand: false, mode: 'automatic', mlPerMin: 45 } as const;
    const resumed = (integral: number, feedForward: number | null) =>
      resumeFlowControl(prepared, { ...old, integral, feedForward }).state;
    for (const [integral, feedForward, limited] of [
      [5000, null, 1000],
      [-5000, null, -1000],
      [5000, 30, 970],
      [-5000, 30, -1030],
      [700, 30, 700],
    ] as const) {
      const state = resumed(integral, feedForward);
      expect(state.integral).toBe(limited);
      expect(words(() => advanceFlowControl(prepared, state, input))).toBe('no error');
    }
  });
});

test('a configuration that was not prepared, and options that are none', () => {
  const acts = [
    () => startFlowControl(config as never),
    () => resumeFlowControl(config as never, started),
    () => advanceFlowControl(config as never, started, input),
  ];
  const refused = /^not_prepared prepared: what prepareFlowControl of version .* returns/;
  for (const act of acts) expect(words(act)).toMatch(refused);
  expect(words(() => startFlowControl(prepared, 5 as never))).toBe('wrong_type options: an object');
});

test('an event that is none', () => {
  const event = { event: 'signal_lost', mode: 'holding', percent: 31 };
  const found = (one: unknown) => words(() => flowControlText(one as never));
  expect(found(null)).toBe('wrong_type event: an event of advanceFlowControl');
  expect(found({ ...event, event: 'x' })).toMatch(/^\w+ event\.event: .*signal_lost/);
  expect(found({ ...event, mode: 'x' })).toMatch(/^\w+ event\.mode: .*holding/);
  expect(found({ ...event, percent: NaN })).toMatch(/^not_a_number event\.percent: /);
  expect(found({ ...event, kind: 'x' })).toMatch(/^unknown_option event\.kind: .*percent/);
});

test('a step response that is none, and what settings say they were made from', () => {
  const response = { gain: 2.4, lagSeconds: 12, deadSeconds: 5, stepSeconds: 2 };
  const found = (change: object) => words(() => flowControlFor({ ...response, ...change }));
  expect(words(() => flowControlFor(null as never))).toBe(
    'wrong_type response: a step response { gain, lagSeconds, deadSeconds }',
  );
  for (const name of ['gain', 'lagSeconds', 'deadSeconds', 'stepSeconds', 'percentStep'])
    expect(found({ [name]: -1 })).toMatch(new RegExp(`^(negative|out_of_range) response\\.${name}: `));
  expect(found({ lag: 3 })).toMatch(/^unknown_option response\.lag: /);
  expect(flowControlFor(response).response).toEqual(response);
});

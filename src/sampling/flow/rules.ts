/** What a flow controller may be told: bounds and members, for its checks, its schema and its docs. */
import { requireWithin } from '../../checks.ts';
import { mostPercent } from '../../rules/bounds.ts';
import type { ListRule, NumberRule, ObjectRule } from '../../rules/rule.ts';

const above0 = (expected: string): NumberRule => ({ kind: 'number', above: 0, expected });

/** A speed of 0 to 100 %. */
export function requirePercent(value: unknown, parameter: string): number {
  return requireWithin(value, parameter, 0, mostPercent);
}

const speed: NumberRule = { kind: 'number', least: 0, most: mostPercent, expected: 'a speed in %' };
const viscosity: NumberRule = { kind: 'number', above: 0, expected: 'a viscosity in mm²/s' };

export function flowControlRule(): ObjectRule {
  const curve: ListRule = {
    kind: 'list',
    shortest: 2,
    longest: 64,
    expected: 'an array of points { mm2PerS, percent }',
    of: { kind: 'object', expected: 'a point { mm2PerS, percent }', members: { mm2PerS: viscosity, percent: speed } },
  };
  return {
    kind: 'object',
    expected: 'a configuration { mlPerMin, gain, integralSeconds, leastPercent, mostPercent, slewPerSecond }',
    members: {
      mlPerMin: above0('the wanted flow in mL/min'),
      gain: above0('a gain in %/(mL/min)'),
      integralSeconds: above0('the integral time in s'),
      leastPercent: { ...speed, expected: 'the lowest output in %' },
      mostPercent: { ...speed, expected: 'the highest output in %' },
      slewPerSecond: above0('the fastest change in %/s'),
      feedForward: {
        kind: 'object',
        optional: true,
        expected: 'a curve and its flow { curve, mlPerMin }',
        members: { curve, mlPerMin: above0('the flow of the curve in mL/min') },
      },
      longestStepSeconds: { ...above0('the longest step in s'), optional: true },
      percentStep: { kind: 'number', optional: true, least: 0, most: 50, expected: 'a step of speed in %' },
      // what a step test shows, of `flowControlFor`
      response: {
        kind: 'object',
        optional: true,
        expected: 'a step response { gain, lagSeconds, deadSeconds, stepSeconds }',
        members: {
          gain: above0('mL/min for each percent of speed'),
          lagSeconds: above0('a lag in s'),
          deadSeconds: { kind: 'number', least: 0, expected: 'a dead time in s' },
          stepSeconds: above0('the time between two steps in s'),
        },
      },
      mostMm2PerS: { ...viscosity, optional: true },
      deadbandMlPerMin: { kind: 'number', optional: true, least: 0, expected: 'a deadband in mL/min' },
    },
  };
}

/** No flow in mL/min is beyond it, no time in s, and no viscosity in mm²/s (our choice). */
const mostFlow = 1e9;

/** A viscosity so near 0, or below, is none (our choice). */
export const noViscosity = 1e-9;

export const flowInputRule: ObjectRule = {
  kind: 'object',
  expected: 'a step { elapsedSeconds, mlPerMin }',
  members: {
    elapsedSeconds: { kind: 'number', least: 0, most: mostFlow, expected: 'the time since the last step in s' },
    mlPerMin: { kind: 'number', least: -mostFlow, most: mostFlow, nullable: true, expected: 'a flow in mL/min' },
    // one that is not above 0 is a signal that cannot be
    mm2PerS: { ...viscosity, above: -mostFlow, most: mostFlow, nullable: true, optional: true },
    manualPercent: { ...speed, nullable: true, optional: true },
    start: { kind: 'flag', optional: true },
    ready: { kind: 'flag', optional: true },
  },
};

/** The version of the state, here and nowhere else. */
export const flowStateVersion = 2;

/** The integral part stays within ten times full speed, percent (our choice). */
export const mostIntegral = 1000;

/** One absurd sample at the moment the hand lets go must not hold the output at a limit for hours. */
export function limitedIntegral(integral: number, base: number): number {
  return Math.min(Math.max(integral, -mostIntegral - base), mostIntegral - base);
}

/** So many swings are an oscillation. */
export const swingsThatTell = 6;
/** So are so many turns from one step to the next. */
export const turnsThatTell = 8;

/** So many steps in turn without a flow signal, or on the other side of the commissioning points, tell (our choice). */
export const stepsThatTell = 6;

/** What the controller does. */
export const flowModes = ['starting', 'manual', 'automatic', 'holding'] as const;

const figure: NumberRule = { kind: 'number', expected: 'a number' };
const passed: NumberRule = { kind: 'number', least: 0, expected: 'a number' };
const flag = { kind: 'flag' } as const;
const lasting: ObjectRule = { kind: 'object', members: { seconds: passed, told: flag }, optional: true };
const expectedState = 'a state of startFlowControl, advanceFlowControl or resumeFlowControl';

/** A state of version 0.1.0, which had no version and knew no swings. */
export const flowState1Rule: ObjectRule = {
  kind: 'object',
  expected: expectedState,
  members: {
    percent: speed,
    integral: figure,
    feedForward: { ...figure, nullable: true },
    mlPerMin: { kind: 'number', above: 0, nullable: true },
    mm2PerS: { ...viscosity, nullable: true },
    mode: { kind: 'word', words: flowModes },
    byHand: flag,
    lost: flag,
    lostSeconds: passed,
    outside: flag,
  },
};

/** A state of now. */
export const flowStateRule: ObjectRule = {
  kind: 'object',
  expected: expectedState,
  members: {
    ...flowState1Rule.members,
    version: { kind: 'number', among: [flowStateVersion], expected: 'the version, which resumeFlowControl brings' },
    swing: {
      kind: 'object',
      members: {
        side: { kind: 'number', among: [-1, 0, 1] },
        mean: figure,
        seconds: passed,
        count: { kind: 'number', least: 0, most: swingsThatTell, whole: true },
        turns: { kind: 'number', least: -turnsThatTell, most: turnsThatTell, whole: true, optional: true },
      },
    },
    off: { ...lasting, members: { ...lasting.members, mean: { ...figure, optional: true } } },
    // what states of before had not, and what is left out where there is nothing to remember
    lostSteps: { kind: 'number', least: 1, most: stepsThatTell, whole: true, optional: true },
    turning: { kind: 'number', least: 1, most: stepsThatTell, whole: true, optional: true },
    cut: { ...flag, optional: true },
    refused: { ...flag, optional: true },
    slewLeft: { ...speed, optional: true },
    left: { kind: 'object', members: { mlPerMin: figure, seconds: passed }, optional: true },
    still: {
      kind: 'object',
      members: {
        mlPerMin: figure,
        percent: { ...figure, nullable: true },
        seconds: passed,
        farSeconds: passed,
        told: flag,
      },
      optional: true,
    },
    atLimit: lasting,
    dry: lasting,
  },
};

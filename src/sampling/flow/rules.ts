/**
 * What a flow controller may be told: bounds and members, for its checks, its schema and its docs.
 */
import type { NumberRule, ObjectRule } from '../../rules/rule.ts';

const above0 = (expected: string, optional = false): NumberRule => {
  const rule: NumberRule = { kind: 'number', above: 0, expected };
  return optional ? { ...rule, optional: true } : rule;
};

const percent = (expected: string): NumberRule => ({ kind: 'number', least: 0, most: 100, expected });

/** The points of a speed curve. */
export function curveRule(): ObjectRule['members'][string] {
  return {
    kind: 'list',
    shortest: 2,
    longest: 64,
    expected: 'commissioning points { mm2PerS, percent }',
    of: {
      kind: 'object',
      expected: 'a point { mm2PerS, percent }',
      members: { mm2PerS: above0('a viscosity in mm²/s'), percent: percent('a speed in percent') },
    },
  };
}

/** The configuration. */
export function flowControlRule(): ObjectRule {
  return {
    kind: 'object',
    expected: 'a configuration { mlPerMin, gain, integralSeconds, leastPercent, mostPercent, slewPerSecond }',
    members: {
      mlPerMin: above0('the wanted flow in mL/min'),
      gain: above0('percent of speed for each mL/min'),
      integralSeconds: above0('the integral time in s'),
      leastPercent: percent('the lowest output in percent'),
      mostPercent: percent('the highest output in percent'),
      slewPerSecond: above0('the fastest change in percent per second'),
      feedForward: {
        kind: 'object',
        optional: true,
        expected: 'a curve and its flow { curve, mlPerMin }',
        members: { curve: curveRule(), mlPerMin: above0('the flow of the curve in mL/min') },
      },
      longestStepSeconds: above0('the longest step in s', true),
      percentStep: { kind: 'number', optional: true, least: 0, most: 50, expected: 'a step of speed in percent' },
      deadbandMlPerMin: { kind: 'number', optional: true, least: 0, expected: 'a deadband in mL/min' },
    },
  };
}

/** What a step is told. */
export const flowInputRule: ObjectRule = {
  kind: 'object',
  expected: 'a step { elapsedSeconds, mlPerMin }',
  members: {
    elapsedSeconds: { kind: 'number', least: 0, expected: 'the time since the last step in s' },
    mlPerMin: { kind: 'number', least: 0, nullable: true, expected: 'a flow in mL/min' },
    mm2PerS: {
      kind: 'number',
      above: 0,
      nullable: true,
      optional: true,
      expected: 'a viscosity in mm²/s',
    },
    manualPercent: {
      kind: 'number',
      least: 0,
      most: 100,
      nullable: true,
      optional: true,
      expected: 'a speed in percent',
    },
  },
};

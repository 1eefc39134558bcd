/**
 * What a monitor's configuration may be: bounds, words and members, for the checks, the schemas and the docs. What the
 * members ask of each other, `prepareMonitor` says.
 */
import { alarmTypes, commonAlarmMembers } from '../alarm/rules.ts';
import { hasOwn, isObject } from '../checks.ts';
import { errorsRule } from '../codes/uncertainty/errorsRule.ts';
import { tableOrIdRule } from '../judging/codePlans.ts';
import { findingCodes } from '../reading/findingKinds.ts';
import type { EitherRule, ListRule, Members, NumberRule, ObjectRule, Rule } from '../rules/rule.ts';
import { countRule, nameRule, figureRule as numberRule, spanAbove0Rule } from '../state/rules.ts';
import { day } from '../state/timeSteps.ts';
import { coldest, hottest } from '../water/ranges.ts';

/** The figures of a reading that an alarm can stand on. */
const quantities = ['mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;

/** What holds where nothing is said. */
export const followDefaults: { readonly blockMs: number; readonly blocks: number } = { blockMs: day, blocks: 40 };

/** The most bytes a monitor's state takes as JSON, unless the configuration says otherwise. */
export const mostStateBytes = 8192;
/** The most blocks that a trend looks back over, and the shortest block. */
export const mostBlocks = 60;
export const shortestBlockMs = 60000;
/** More of these no state has room for. */
export const mostAlarms = 64;
export const mostFollowed = 32;
export const mostTables = 32;
const largestStateBytes = 1000000;
/** After so many readings, at most, a figure is told as restored. */
export const mostRestoredAfter = 1000;

export function figureRule(): EitherRule {
  const size: Rule = { kind: 'number', least: 1e-3, most: 1e5, expected: 'a size in µm' };
  const form = (name: string, of: Rule): ObjectRule => ({
    kind: 'object',
    expected: `a figure { ${name} }`,
    members: { [name]: of },
  });
  const forms = [
    form('quantity', { kind: 'word', words: quantities }),
    form('other', nameRule),
    form('waterSaturationAt', { kind: 'number', least: coldest, most: hottest, expected: 'a temperature in °C' }),
    form('perMlAt', size),
    form('scaleNumberAt', size),
    form('continuousScaleNumberAt', size),
  ];
  return {
    kind: 'either',
    expected:
      'a figure with one of the members quantity, other, waterSaturationAt, perMlAt, scaleNumberAt, ' +
      'continuousScaleNumberAt',
    forms,
    choose: (value) => {
      if (!isObject(value)) return null;
      return forms.filter(({ members }) => Object.keys(members).some((name) => hasOwn(value, name)))[0] ?? null;
    },
  };
}

function monitorAlarmRule(): EitherRule {
  const expected = 'an alarm { id, figure, type, setpoint }';
  const form = (members: Members): ObjectRule => {
    return { kind: 'object', expected, members: { ...commonAlarmMembers(), ...members } };
  };
  const onFigure = form({
    type: { kind: 'word', words: alarmTypes },
    figure: figureRule(),
    setpoint: numberRule,
    withinMs: { ...spanAbove0Rule, optional: true },
  });
  const onCode = form({
    type: { kind: 'word', words: ['high'], expected: 'for a code' },
    figure: { kind: 'object', members: { code: { ...nameRule, expected: 'the id of a table in config.codes' } } },
    setpoint: { kind: 'text', longest: 200, expected: 'a code of the table' },
  });
  return {
    kind: 'either',
    expected,
    forms: [onFigure, onCode],
    choose: (value) => {
      if (!isObject(value)) return null;
      const { figure } = value;
      return typeof figure === 'object' && figure !== null && 'code' in figure ? onCode : onFigure;
    },
  };
}

/**
 * The whole configuration. `table`: what a class table may be; `limits`: what limits may be; `follow`: what a figure to
 * follow may be.
 */
export function monitorRule(table: Rule, limits: Rule, follow: Rule): ObjectRule {
  const optional = { optional: true } as const;
  const list = (of: Rule, longest: number, expected: string): ListRule => {
    return { kind: 'list', of, shortest: 0, longest, expected };
  };
  const countOf = (expected: string, most: number): NumberRule => {
    return { ...countRule, least: 1, most, expected, ...optional };
  };
  const label: Rule = { ...nameRule, expected: 'the label of a column' };
  const code: ObjectRule = {
    kind: 'object',
    expected: '{ table, target, columns, errors }',
    members: {
      table: tableOrIdRule(table, 'a class table, or its id'),
      target: { kind: 'text', longest: 200, expected: 'a code of the table', ...optional },
      columns: { kind: 'list', of: label, longest: 100, expected: 'labels of columns', ...optional },
      errors: { ...errorsRule(), ...optional },
    },
  };
  return {
    kind: 'object',
    expected: 'a configuration { codes, alarms, ... }',
    members: {
      tables: { ...list(table, mostTables, 'class tables'), ...optional },
      codes: list(code, mostTables, 'an array of { table, target, columns, errors }'),
      limits: { ...limits, ...optional },
      alarms: { ...list(monitorAlarmRule(), mostAlarms, 'alarms'), ...optional },
      follow: { ...list(follow, mostFollowed, 'figures to follow'), ...optional },
      staleAfterMs: { ...spanAbove0Rule, ...optional, nullable: true },
      clockJumpMs: { ...spanAbove0Rule, ...optional },
      restoredAfter: countOf('a whole number of readings', mostRestoredAfter),
      tell: { ...list({ kind: 'word', words: findingCodes }, findingCodes.length, 'codes of findings'), ...optional },
      maxStateBytes: countOf('a whole number of bytes', largestStateBytes),
    },
  };
}

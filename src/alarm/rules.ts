/**
 * What an alarm's configuration, a command and a state may be: bounds, words and members, for the checks, the schemas
 * and the docs.
 */
import { largestDifference, largestFigure, longestName, qualityWords } from '../rules/bounds.ts';
import type { EitherRule, Members, ObjectRule, Rule } from '../rules/rule.ts';
import { figureChars, timeChars } from '../state/packed.ts';
import { countRule, figureRule, inputTimeRule, nameRule, spanAbove0Rule, spanRule, timeRule } from '../state/rules.ts';

/** How an alarm looks at its figure. */
export const alarmTypes = ['high', 'low', 'rise', 'fall'] as const;
/** How soon someone should act, from the least to the most. */
export const alarmPriorities = ['low', 'medium', 'high', 'urgent'] as const;
/** What an operator can do. */
export const alarmCommands = [
  'acknowledge',
  'reset',
  'shelve',
  'unshelve',
  'remove_from_service',
  'return_to_service',
] as const;

/** The most raises that chattering can be told by, and a state remembers. */
export const mostRaises = 20;
/** The parts that the time looked back over is kept in. */
export const parts = 24;
/** An extreme as text: how many parts ago, and the figure. */
export const extremeChars: number = 1 + figureChars;

const longestNote = 400;
const longestWhy = 200;

/** The settings that may be left out, and what then holds. The off-delay is the on-delay. */
export const alarmDefaults: {
  readonly priority: (typeof alarmPriorities)[number];
  readonly longestShelfMs: number;
  readonly chattering: { readonly raises: number; readonly withinMs: number };
} = { priority: 'medium', longestShelfMs: 8 * 3600000, chattering: { raises: 3, withinMs: 3600000 } };

/** All but what the alarm looks at: the members that an alarm of a monitor has as well. */
export function commonAlarmMembers(): Members {
  return {
    id: nameRule,
    priority: { kind: 'word', words: alarmPriorities, optional: true },
    deadband: {
      kind: 'number',
      least: 0,
      most: largestFigure,
      expected: 'a deadband in the unit of the figure',
      optional: true,
    },
    onDelayMs: { ...spanRule, optional: true },
    offDelayMs: { ...spanRule, optional: true },
    latching: { kind: 'flag', optional: true },
    longestShelfMs: { ...spanAbove0Rule, optional: true },
    staleAfterMs: { ...spanAbove0Rule, optional: true, nullable: true },
    reAlarmAfterMs: { ...spanAbove0Rule, optional: true },
    chattering: {
      kind: 'object',
      expected: '{ raises, withinMs }',
      optional: true,
      members: {
        raises: { kind: 'number', whole: true, least: 2, most: mostRaises, expected: 'a whole number of raises' },
        withinMs: spanAbove0Rule,
      },
    },
    suppressedInModes: { kind: 'list', of: nameRule, longest: 16, expected: 'modes of the machine', optional: true },
    note: { kind: 'text', longest: longestNote, expected: 'what to do or to know', optional: true },
  };
}

/** A configuration of one alarm. That `withinMs` belongs to a rise or a fall alone is checked beside. */
export function alarmRule(): ObjectRule {
  return {
    kind: 'object',
    expected: 'an alarm { id, type, setpoint }',
    members: {
      ...commonAlarmMembers(),
      type: { kind: 'word', words: alarmTypes },
      setpoint: figureRule,
      withinMs: { ...spanAbove0Rule, optional: true },
    },
  };
}

const modeRule: Rule = { kind: 'text', longest: longestName, expected: 'a mode of the machine', optional: true };

export function alarmReadingRule(): ObjectRule {
  return {
    kind: 'object',
    expected: 'a reading { time, value }',
    members: {
      kind: { kind: 'word', words: ['reading'], optional: true },
      time: inputTimeRule,
      value: { ...figureRule, nullable: true, expected: 'a figure' },
      quality: { kind: 'word', words: qualityWords, optional: true },
      mode: modeRule,
    },
  };
}

/** A command by its word: only shelving has a time it lasts. A monitor's command names the alarm besides. */
export function alarmCommandRule(command: unknown, more: Members = {}): ObjectRule {
  const shelving: Members = { forMs: spanAbove0Rule, oneShot: { kind: 'flag', optional: true } };
  return {
    kind: 'object',
    expected: "a command { kind: 'command', time, command }",
    members: {
      kind: { kind: 'word', words: ['command'] },
      time: inputTimeRule,
      command: { kind: 'word', words: alarmCommands },
      by: { ...nameRule, expected: 'who', optional: true },
      why: { kind: 'text', longest: longestWhy, expected: 'why', optional: true },
      ...more,
      ...(command === 'shelve' ? shelving : {}),
    },
  };
}

export const tickRule: ObjectRule = {
  kind: 'object',
  expected: "a tick { kind: 'tick', time }",
  members: { kind: { kind: 'word', words: ['tick'] }, time: inputTimeRule, mode: modeRule },
};

const flagRule: Rule = { kind: 'flag' };
/** Set, or left out. */
export const setRule: EitherRule = {
  kind: 'either',
  forms: [flagRule],
  choose: (value) => (value === true ? flagRule : null),
  expected: 'true, or left out',
  optional: true,
};

/** What an alarm remembers, whatever it belongs to. */
export function memoryMembers(): Members {
  return {
    active: setRule,
    latched: setRule,
    unacknowledged: setRule,
    since: { ...timeRule, optional: true },
    realarmed: { ...timeRule, optional: true },
    pending: { ...timeRule, optional: true },
    shelf: {
      kind: 'object',
      optional: true,
      // the end may lie a longest shelf beyond the last of times
      members: { until: { kind: 'number', whole: true, least: -2e16, most: 2e16 }, oneShot: setRule },
    },
    outOfService: setRule,
    suppressed: modeRule,
    modeAt: { ...timeRule, optional: true },
    told: { kind: 'text', longest: 4 + timeChars, optional: true },
    silentRaises: { ...countRule, optional: true },
    // a change is the difference of two figures
    value: { kind: 'number', least: -largestDifference, most: largestDifference, optional: true },
    heard: { ...timeRule, optional: true },
    usualMs: { ...countRule, optional: true },
    stale: setRule,
    bad: setRule,
    raises: { kind: 'text', longest: mostRaises * timeChars, optional: true },
    chattering: setRule,
    part: { kind: 'number', whole: true, least: -3e17, most: 3e17, optional: true },
    extremes: { kind: 'text', shortest: 0, longest: (parts + 1) * extremeChars, optional: true },
  };
}

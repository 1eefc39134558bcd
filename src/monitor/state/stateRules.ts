/**
 * What the state of a monitor may be, whole: asked of one that comes from outside.
 */
import { memoryMembers } from '../../alarm/rules.ts';
import { repeatsRule } from '../../reading/repeatsState.ts';
import { figureNames } from '../../reading/rules.ts';
import type { Members, ObjectRule, Rule } from '../../rules/rule.ts';
import { figureChars } from '../../state/packed.ts';
import { countRule, nameRule, timeRule } from '../../state/rules.ts';
import { rules } from '../../trend/change/rules.ts';
import { remembered } from '../arrivals.ts';
import { trendChars } from '../keptTrend.ts';
import { learnedChars, meanChars } from '../means.ts';
import { mostAlarms, mostFollowed } from '../rules.ts';
import { monitorStateVersion } from './state.ts';

export const words: Rule = { kind: 'text', longest: 400 };
export const figure: Rule = { kind: 'number', least: -2e60, most: 2e60 };
/** Blocks last a minute or more, within 8.64e15 ms either side of 1970. */
export const block: Rule = { kind: 'number', whole: true, least: -1.44e11, most: 1.44e11 };
/** The end of a block may lie beyond the last of times. */
const edge: Rule = { kind: 'number', whole: true, least: -2e16, most: 2e16 };

/** The readings remembered: time and fingerprint; oldest first is asked beside. */
export const recentRule: Rule = {
  kind: 'list',
  longest: remembered,
  shortest: 0,
  optional: true,
  of: {
    kind: 'list',
    shortest: 2,
    longest: 2,
    of: { kind: 'number', whole: true, least: -8.64e15, most: 8.64e15, nullable: true },
  },
};

/** A list of means, null where there was no reading. */
export const meansRule: Rule = {
  kind: 'list',
  shortest: 0,
  longest: rules.ringDays,
  of: { kind: 'number', least: -2e60, most: 2e60, nullable: true },
};

/** The block that is open. */
export const openRule: ObjectRule = {
  kind: 'object',
  members: { block, mean: figure, count: { kind: 'number', whole: true, least: 1, most: 9007199254740991 } },
};

/** A rolling trend; `direction`: the words of the version. */
export function trendRule(directions: readonly string[]): ObjectRule {
  const orNull: Rule = { kind: 'number', least: -2e60, most: 2e60, nullable: true };
  return {
    kind: 'object',
    members: {
      from: edge,
      to: edge,
      blocks: countRule,
      perDay: figure,
      low: orNull,
      high: orNull,
      p: { kind: 'number', least: 0, most: 1, nullable: true },
      direction: { kind: 'word', words: directions },
    },
  };
}

/** The whole state. */
export function monitorStateRule(): ObjectRule {
  const optional = { optional: true } as const;
  return {
    kind: 'object',
    expected: 'a state of startMonitor, advanceMonitor or resumeMonitor',
    members: {
      version: { kind: 'number', least: monitorStateVersion, most: monitorStateVersion },
      time: { ...timeRule, ...optional },
      recent: recentRule,
      // asked by itself
      repeats: { ...repeatsRule, ...optional },
      arrivals: {
        kind: 'object',
        members: {
          inOrder: countRule,
          bad: countRule,
          late: countRule,
          tooLate: countRule,
          repeated: countRule,
          setAside: countRule,
        },
      },
      heard: { ...timeRule, ...optional },
      receivedAt: { ...timeRule, ...optional },
      lagMs: { ...timeRule, expected: 'whole milliseconds', ...optional },
      usualMs: { ...countRule, ...optional },
      stale: { kind: 'either', forms: [], choose: trueOnly, expected: 'true, or no such member', ...optional },
      bad: { kind: 'list', of: { kind: 'text', longest: 80 }, longest: figureNames.length + 100, ...optional },
      clock: { kind: 'object', members: clockMembers(asideRule), ...optional },
      alarms: {
        kind: 'list',
        shortest: 0,
        longest: mostAlarms,
        of: { kind: 'object', members: { id: nameRule, of: words, ...memoryMembers() } },
      },
      followed: {
        kind: 'list',
        shortest: 0,
        longest: mostFollowed,
        of: {
          kind: 'object',
          members: {
            id: nameRule,
            of: words,
            open: { ...openRule, ...optional },
            change: {
              kind: 'text',
              shortest: learnedChars,
              longest: learnedChars + meanChars * rules.ringDays,
              ...optional,
            },
            trend: { kind: 'text', shortest: trendChars, longest: trendChars, ...optional },
          },
        },
      },
    },
  };
}

function asideRule(longest: number): Rule {
  return { kind: 'text', shortest: 0, longest: longest * figureChars };
}

const flag: Rule = { kind: 'flag' };
function trueOnly(value: unknown): Rule | null {
  return value === true ? flag : null;
}

/** What is doubted about the clock; `figures`: those of a reading set aside, of so many at most. */
export function clockMembers(figures: (longest: number) => Rule): Members {
  const times: Rule = { kind: 'list', shortest: 0, longest: 4, of: timeRule };
  const last: Rule = {
    kind: 'object',
    members: { print: countRule, alarms: figures(mostAlarms), followed: figures(mostFollowed) },
    optional: true,
  };
  return {
    ahead: { kind: 'object', members: { time: timeRule, count: countRule, readings: times, last }, optional: true },
    behind: {
      kind: 'object',
      members: { time: timeRule, count: countRule, receivedAt: { ...timeRule, optional: true } },
      optional: true,
    },
  };
}

/** What the state of a monitor may be, whole: asked of one that comes from outside. */
import { memoryMembers, setRule } from '../../alarm/rules.ts';
import { repeatsRule } from '../../reading/repeatsState.ts';
import { figureNames } from '../../reading/rules.ts';
import { farthest, largestDifference } from '../../rules/bounds.ts';
import type { Members, ObjectRule, Rule } from '../../rules/rule.ts';
import { figureChars } from '../../state/packed.ts';
import { countRule, nameRule, timeRule } from '../../state/rules.ts';
import { remembered } from '../arrivals.ts';
import { mostAlarms, mostFollowed, mostTables } from '../rules.ts';
import { monitorStateVersion } from './state.ts';

const words: Rule = { kind: 'text', longest: 400 };
/** Blocks last a minute or more. */
const mostBlock = farthest / 60000;
const block: Rule = { kind: 'number', whole: true, least: -mostBlock, most: mostBlock };

/** The readings remembered: time and fingerprint; oldest first is asked beside. */
const recentRule: Rule = {
  kind: 'list',
  longest: remembered,
  shortest: 0,
  optional: true,
  of: { kind: 'list', shortest: 2, longest: 2, of: { ...timeRule, nullable: true } },
};

const openRule: ObjectRule = {
  kind: 'object',
  members: {
    block,
    mean: { kind: 'number', least: -largestDifference, most: largestDifference },
    count: { ...countRule, least: 1 },
  },
};

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
      stale: setRule,
      unused: setRule,
      bad: { kind: 'list', of: { kind: 'text', longest: 80 }, longest: figureNames.length + 100, ...optional },
      clock: { kind: 'object', members: clockMembers(), ...optional },
      targets: {
        kind: 'list',
        longest: mostTables,
        of: {
          kind: 'object',
          members: {
            id: nameRule,
            heard: timeRule,
            came: setRule,
            usualMs: { ...countRule, ...optional },
            stale: setRule,
          },
        },
        ...optional,
      },
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
            // asked by themselves
            change: { kind: 'text', ...optional },
            trend: { kind: 'text', ...optional },
          },
        },
      },
    },
  };
}

/** What is doubted about the clock. */
function clockMembers(): Members {
  const times: Rule = { kind: 'list', shortest: 0, longest: 4, of: timeRule };
  const figures = (most: number): Rule => ({ kind: 'text', shortest: 0, longest: most * figureChars });
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

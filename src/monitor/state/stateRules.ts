/** What the state of a monitor may be, whole: asked of one that comes from outside. */
import { memoryMembers, setRule } from '../../alarm/rules.ts';
import { findingCodes } from '../../reading/findingKinds.ts';
import { repeatsRule } from '../../reading/remembered/repeatsState.ts';
import { figureNames } from '../../reading/rules.ts';
import { farthest, largestDifference } from '../../rules/bounds.ts';
import type { ListRule, Members, NumberRule, ObjectRule, Rule } from '../../rules/rule.ts';
import { figureChars } from '../../state/packed.ts';
import { countRule, inputTimeRule, nameRule, timeRule } from '../../state/rules.ts';
import { remembered } from '../clock/arrivals.ts';
import { mostAlarms, mostFollowed, mostRestoredAfter, mostTables } from '../rules.ts';
import { monitorStateVersion } from './state.ts';

const words: Rule = { kind: 'text', longest: 400 };
const badFigure: Rule = { kind: 'text', longest: 80 };
const few: NumberRule = { kind: 'number', least: 1, most: 2, whole: true };
const unusedRule: Rule = {
  ...setRule,
  forms: [...setRule.forms, few],
  choose: (value) => (typeof value === 'number' ? few : setRule.choose(value)),
  expected: 'true, 1 or 2, or left out',
};

function objectOf(members: Members): ObjectRule {
  return { kind: 'object', members };
}

/** Any number of entries up to so many. */
function listOf(longest: number, of: Rule): ListRule {
  return { kind: 'list', shortest: 0, longest, of };
}

const optional = { optional: true } as const;

/** One entry or more where there is a list at all. */
function someOf(longest: number, of: Rule): ListRule {
  return { kind: 'list', longest, of, ...optional };
}

export function monitorStateRule(): ObjectRule {
  const mostBad = figureNames.length + 100;
  // blocks last a minute or more
  const mostBlock = farthest / 60000;
  const block: Rule = { kind: 'number', whole: true, least: -mostBlock, most: mostBlock };
  const figure: NumberRule = { kind: 'number', least: -largestDifference, most: largestDifference };
  const time: NumberRule = { ...timeRule, ...optional };
  const usualMs: NumberRule = { ...countRule, ...optional };
  const readings: NumberRule = { ...countRule, least: 1, most: mostRestoredAfter - 1 };
  return {
    kind: 'object',
    expected: 'a state of startMonitor, advanceMonitor or resumeMonitor',
    members: {
      version: { kind: 'number', least: monitorStateVersion, most: monitorStateVersion },
      // the time of an input: from beyond them no run comes back
      time: { ...inputTimeRule, ...optional },
      // time and print; oldest first is asked beside
      recent: {
        ...listOf(remembered, { kind: 'list', shortest: 2, longest: 2, of: { ...timeRule, nullable: true } }),
        ...optional,
      },
      // asked by itself
      repeats: { ...repeatsRule(), ...optional },
      arrivals: objectOf({
        inOrder: countRule,
        bad: countRule,
        late: countRule,
        tooLate: countRule,
        repeated: countRule,
        setAside: countRule,
      }),
      heard: time,
      receivedAt: time,
      lagMs: { ...time, expected: 'whole milliseconds' },
      usualMs,
      stale: setRule,
      unused: unusedRule,
      bad: someOf(mostBad, badFigure),
      restoring: someOf(mostBad, objectOf({ figure: badFigure, readings })),
      told: someOf(
        findingCodes.length,
        objectOf({ finding: { kind: 'word', words: findingCodes }, without: { ...readings, ...optional } }),
      ),
      clock: { ...objectOf(clockMembers()), ...optional },
      targets: someOf(mostTables, objectOf({ id: nameRule, heard: timeRule, came: setRule, usualMs, stale: setRule })),
      alarms: listOf(mostAlarms, objectOf({ id: nameRule, of: words, ...memoryMembers() })),
      followed: listOf(
        mostFollowed,
        objectOf({
          id: nameRule,
          of: words,
          open: { ...objectOf({ block, mean: figure, count: { ...countRule, least: 1 } }), ...optional },
          // asked by themselves
          change: { kind: 'text', ...optional },
          trend: { kind: 'text', ...optional },
        }),
      ),
    },
  };
}

/** What is doubted about the clock. */
function clockMembers(): Members {
  const figures = (most: number): Rule => ({ kind: 'text', shortest: 0, longest: most * figureChars });
  const last = objectOf({ print: countRule, alarms: figures(mostAlarms), followed: figures(mostFollowed) });
  const doubted = { time: timeRule, count: countRule };
  return {
    ahead: {
      ...objectOf({ ...doubted, readings: listOf(4, timeRule), last: { ...last, ...optional } }),
      ...optional,
    },
    behind: { ...objectOf({ ...doubted, receivedAt: { ...timeRule, ...optional } }), ...optional },
  };
}

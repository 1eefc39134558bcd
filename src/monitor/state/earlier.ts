/**
 * What versions 1 and 2 of a monitor's state have in common. It stands still, as it was when they were written, and
 * reads no rule of today (as `alarm/earlier.ts`).
 */
import { oldCount, oldFigure, oldTime } from '../../alarm/earlier.ts';
import type { ObjectRule, Rule } from '../../rules/rule.ts';

export const oldBlock = { kind: 'number', whole: true, least: -1.44e11, most: 1.44e11 } as const;
export const oldFigureOrNull: Rule = { ...oldFigure, nullable: true };
export const oldOpen: ObjectRule = {
  kind: 'object',
  members: { block: oldBlock, mean: oldFigure, count: { ...oldCount, least: 1 } },
};

/** A list of alarms or of followed figures. */
export function oldList(longest: number, members: ObjectRule['members']): Rule {
  return { kind: 'list', shortest: 0, longest, of: { kind: 'object', members } };
}

/** The readings remembered: time and fingerprint. */
export const oldRecent: Rule = {
  kind: 'list',
  longest: 16,
  shortest: 0,
  optional: true,
  of: { kind: 'list', shortest: 2, longest: 2, of: { ...oldTime, nullable: true } },
};

/** A rolling trend; `direction`: the words of the version. */
export function oldTrend(directions: readonly string[]): ObjectRule {
  const edge: Rule = { kind: 'number', whole: true, least: -2e16, most: 2e16 };
  return {
    kind: 'object',
    members: {
      from: edge,
      to: edge,
      blocks: oldCount,
      perDay: oldFigure,
      low: oldFigureOrNull,
      high: oldFigureOrNull,
      p: { kind: 'number', least: 0, most: 1, nullable: true },
      direction: { kind: 'word', words: directions },
    },
  };
}

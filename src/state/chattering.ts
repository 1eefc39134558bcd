/**
 * What comes and goes too often to be told each time: so many raises within so long. It is steady again when no raise
 * has come for as long. Times are kept as text.
 */
import { farthest, inTime } from '../rules/bounds.ts';
import type { ObjectRule, Rule } from '../rules/rule.ts';
import { isPacked, packTime, timeAt, timeChars } from './packed.ts';
import { spanAbove0Rule } from './rules.ts';

/** How many raises within how long. */
export interface Chattering {
  readonly raises: number;
  readonly withinMs: number;
}

/** The most raises that chattering can be told by, and a state remembers. */
export const mostRaises = 20;

/** Where nothing is said: three within an hour (chosen here, for readings minutes apart). */
export const usualChattering: Chattering = { raises: 3, withinMs: 3600000 };

const raisesRule: Rule = {
  kind: 'number',
  whole: true,
  least: 2,
  most: mostRaises,
  expected: 'a whole number of raises',
};

/** What a configuration may say of it; with `optional`, no more than what differs from what is usual. */
export function chatteringRule(optional: { readonly optional?: true } = {}): ObjectRule {
  return {
    kind: 'object',
    expected: '{ raises, withinMs }',
    members: {
      raises: { ...raisesRule, ...optional },
      withinMs: { ...spanAbove0Rule, ...optional },
    },
  };
}

/** The times of the last raises after one more; no more of them than it takes. */
export function withRaise({ raises }: Chattering, times: string, time: number): string {
  return (times + packTime(time)).slice(-raises * timeChars);
}

/** Whether the last of these raises is one too many. */
export function isTooOften({ raises, withinMs }: Chattering, times: string): boolean {
  return times.length === raises * timeChars && lastOf(times) - timeAt(times, 0) <= withinMs;
}

/** After this time it is steady again, unless there is a raise until then. */
export function steadyFrom({ withinMs }: Chattering, times: string): number {
  return lastOf(times) + withinMs;
}

function lastOf(times: string): number {
  return timeAt(times, times.length - timeChars);
}

/** The same times on a clock that has been set by so much; none lies beyond those there are. */
export function movedTimes(times: string, by: number): string {
  let moved = '';
  for (let i = 0; i < times.length; i += timeChars) moved += packTime(inTime(timeAt(times, i) + by));
  return moved;
}

/** Whether a text is times of raises. */
export function areRaises(text: unknown): text is string {
  if (!isPacked(text, timeChars, mostRaises)) return false;
  for (let i = 0; i < text.length; i += timeChars) if (Math.abs(timeAt(text, i)) > farthest) return false;
  return true;
}

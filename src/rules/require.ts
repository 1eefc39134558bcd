/** One mistake of an input as an error of its own. */

import { isObject } from '../checks.ts';
import { type MotescaleError, motescaleError, type Problem, parameterAt } from '../errors.ts';
import { checkRule } from './check.ts';
import type { ObjectRule, Rule } from './rule.ts';

/** Throws the first mistake that a rule finds in a value; returns where there is none. */
export function requireRule(rule: Rule, value: unknown, root: string): void {
  const problems: Problem[] = [];
  checkRule(rule, value, [], problems);
  const first = firstOf(problems);
  if (first !== undefined) throw errorOf(first, root, value);
}

/**
 * The mistake to be told: a name that is none goes first, else the one whose parameter comes first by its letters. Not
 * every engine goes through members in the order they were written.
 */
export function firstOf(problems: readonly Problem[]): Problem | undefined {
  let first = problems[0];
  for (const problem of problems) if (first === undefined || rankOf(problem) < rankOf(first)) first = problem;
  return first;
}

function rankOf({ code, path }: Problem): string {
  return `${code === 'unknown_option' ? 0 : 1}${parameterAt('', path)}`;
}

/** The error of one mistake, which names the parameter it stands in. */
export function errorOf(problem: Problem, root: string, value: unknown): MotescaleError {
  const { path, code, expected } = problem;
  const last = path[path.length - 1];
  const unknown = code === 'unknown_option' && problem.received === `'${last}'`;
  return motescaleError(code, parameterAt(root, path), unknown ? last : valueAt(value, path), expected);
}

/** What stands at a path in a value; undefined where nothing does. */
export function valueAt(value: unknown, path: Problem['path']): unknown {
  let at = value;
  for (const step of path) at = (at as { readonly [step: string]: unknown } | null | undefined)?.[step];
  return at;
}

/** Whether a value claims to be a state of a version. */
export function isVersion1(state: unknown): boolean {
  return isObject(state) && state.version === 1;
}

/** Throws `bad_state` for the first member that does not keep its rule. */
export function requireStateRule(rule: ObjectRule, state: unknown): void {
  const problems: Problem[] = [];
  checkRule(rule, state, [], problems);
  const first = firstOf(problems);
  if (first === undefined) return;
  const { parameter, expected } = errorOf(first, 'state', state);
  throw motescaleError('bad_state', parameter, valueAt(state, first.path), expected);
}

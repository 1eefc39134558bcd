/** A state that was saved and comes back: what is asked of it. */
import { isObject } from '../checks.ts';
import { motescaleError, type Problem } from '../errors.ts';
import { checkRule } from '../rules/check.ts';
import { errorOf, firstOf, valueAt } from '../rules/require.ts';
import type { ObjectRule } from '../rules/rule.ts';

/** Whether a value claims to be a state of a version. */
export function hasVersion(state: unknown, version: number): boolean {
  return isObject(state) && state.version === version;
}

/** Throws `bad_state` for the first member that does not keep its rule. */
export function requireStateRule(rule: ObjectRule, state: unknown, root = 'state'): void {
  const problems: Problem[] = [];
  checkRule(rule, state, [], problems);
  const first = firstOf(problems);
  if (first === undefined) return;
  const { parameter, expected } = errorOf(first, root, state);
  throw motescaleError('bad_state', parameter, valueAt(state, first.path), expected);
}

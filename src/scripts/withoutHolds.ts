/**
 * Stands in the unit script for the quick look at what comes in: `checkRule` alone gives the same answer, and takes
 * longer.
 */
import { checkRule } from '../rules/check.ts';
import type { Rule } from '../rules/rule.ts';

/** True only where `checkRule` finds nothing. */
export function holds(rule: Rule, value: unknown): boolean {
  return checkRule(rule, value, [], []);
}

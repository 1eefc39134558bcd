/**
 * What a reading of a proof may be: one with its time, and the volume counter of the oil flushed or filled.
 */
import { timedReadingRule } from '../reading/rules.ts';
import type { ObjectRule } from '../rules/rule.ts';

/** A reading with `litres`, or without. */
export const acceptanceReadingRule: ObjectRule = {
  kind: 'object',
  expected: 'a reading { time, counts, litres, ... }',
  members: {
    ...timedReadingRule.members,
    litres: { kind: 'number', expected: 'the volume counter of the oil in L', least: 0, most: 1e12, optional: true },
  },
};

/** What a reading of a proof may be: one with its time, and the volume counter of the oil flushed or filled. */

import { timedReadingRule } from '../reading/rules.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { litresRule } from './rules.ts';

/** A reading with `litres`, or without. */
export const acceptanceReadingRule: ObjectRule = {
  kind: 'object',
  expected: 'a reading { time, counts, litres, ... }',
  members: {
    ...timedReadingRule.members,
    litres: { ...litresRule, expected: 'the volume counter of the oil in L', optional: true },
  },
};

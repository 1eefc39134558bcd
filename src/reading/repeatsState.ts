/**
 * The check of what is remembered of readings, where it comes from outside with a state.
 */

import { perMlRule, sizeRule } from '../counts/ranges.ts';
import { holds } from '../rules/holds.ts';
import { isCount, isListOf, isObject, isTimeOrNull } from '../state/members.ts';
import type { Repeats } from './repeats.ts';
import { maxSizes } from './rules.ts';

/** The most bytes it takes as JSON: of each of 32 sizes the size, its count and its run, and what stands once. */
export const repeatsBytes = 1750;

/** Whether a value is what `advanceRepeats` gives. */
export function isRepeats(value: unknown): value is Repeats {
  if (!isObject(value)) return false;
  const { known, time, before, sizes, perMl, runs } = value as Repeats;
  return (
    isCount(known) &&
    isTimeOrNull(time) &&
    isTimeOrNull(before) &&
    isListOf(sizes, maxSizes, (size) => holds(sizeRule, size)) &&
    isListOf(perMl, maxSizes, (count) => holds(perMlRule, count)) &&
    isListOf(runs, maxSizes, (run) => isCount(run) && run >= 1 && run <= known) &&
    perMl.length === sizes.length &&
    runs.length === sizes.length
  );
}

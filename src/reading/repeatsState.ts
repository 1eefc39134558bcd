/**
 * The check of what is remembered of readings, where it comes from outside with a state.
 */

import { perMlRule, sizeRule } from '../counts/ranges.ts';
import { holds } from '../rules/holds.ts';
import { isCount, isFigure, isListOf, isObject, isTimeOrNull } from '../state/members.ts';
import type { FlowCourse, Repeats, SteadyFigure } from './repeats.ts';
import { maxSizes } from './rules.ts';

/** The most bytes it takes as JSON: of each of 32 sizes the size, its count and its run, and what stands once. */
export const repeatsBytes = 2260;

/** Whether a value is what `advanceRepeats` gives. */
export function isRepeats(value: unknown): value is Repeats {
  if (!isObject(value)) return false;
  const { known, time, before, sizes, perMl, runs, steady, flow, equal } = value as Repeats;
  return (
    isCount(known) &&
    isTimeOrNull(time) &&
    isTimeOrNull(before) &&
    isListOf(sizes, maxSizes, (size) => holds(sizeRule, size)) &&
    isListOf(perMl, maxSizes, (count) => holds(perMlRule, count)) &&
    isListOf(runs, maxSizes, (run) => isCount(run) && run >= 1 && run <= known) &&
    (steady === undefined || (isObject(steady) && isSteady(steady.celsius) && isSteady(steady.waterSaturation))) &&
    (flow === undefined || isFlow(flow)) &&
    (equal === undefined || isCount(equal)) &&
    perMl.length === sizes.length &&
    runs.length === sizes.length
  );
}

function isSteady(one: SteadyFigure | undefined): boolean {
  if (one === undefined) return true;
  return (
    isObject(one) &&
    isFigure(one.value) &&
    [one.run, one.longest, one.repeats, one.readings].every((count) => isCount(count))
  );
}

function isFlow(flow: FlowCourse): boolean {
  if (!isObject(flow)) return false;
  const { last, swing, swings, from } = flow;
  return isFigure(last) && isFigure(swing) && isCount(swings) && (from === undefined || isTimeOrNull(from));
}

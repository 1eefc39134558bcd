/** The check of what is remembered of readings, where it comes from outside with a state. */
import { isObject } from '../../checks.ts';
import type { Members, ObjectRule, Rule } from '../../rules/rule.ts';
import { isCount, isFigure, isListOf, isTimeOrNull } from '../../state/members.ts';
import { isPacked } from '../../state/packed.ts';
import { maxSizes } from '../rules.ts';
import { mostLevel } from './level.ts';
import {
  type FlowCourse,
  type FlowRun,
  longestRun,
  mostAge,
  mostDays,
  mostMicrolitres,
  printChars,
  type Repeats,
} from './repeats.ts';
import { mostSteady, type SteadyFigure } from './steady.ts';
import type { Tail } from './tail.ts';

/** Three pairs of sizes in each. */
const equalChars = 11;
/** Its members; what they must be, `isRepeats` asks. A function, so that a bundle that resumes nothing has none. */
export function repeatsRule(): ObjectRule {
  const optional = { optional: true } as const;
  const number = { kind: 'number', nullable: true } as const;
  const optionalNumber: Rule = { ...number, ...optional };
  const list = (shortest: number, longest: number): Rule => ({ kind: 'list', shortest, longest, of: number });
  const object = (members: Members): Rule => ({ kind: 'object', members, ...optional });
  const steady = object({
    value: number,
    run: number,
    longest: number,
    repeats: number,
    readings: number,
    ago: optionalNumber,
  });
  return {
    kind: 'object',
    members: {
      known: number,
      time: number,
      before: number,
      sizes: number,
      perMl: { kind: 'text', shortest: 0, longest: maxSizes * printChars },
      runs: list(0, maxSizes),
      steady: object({ celsius: steady, waterSaturation: steady }),
      equal: { kind: 'text', longest: equalChars, ...optional },
      sinceDay: optionalNumber,
      age: optionalNumber,
      same: { ...list(2, 2), ...optional },
      level: { ...list(3, 3), ...optional },
      tail: { ...list(3, 3), ...optional },
      flow: object({
        last: number,
        swing: number,
        swings: number,
        seen: { ...list(2, 2), ...optional },
        ran: { ...list(2, 2), ...optional },
        // since when it ran, of builds before: that it was seen to begin is not taken over
        from: optionalNumber,
        gap: optionalNumber,
        age: optionalNumber,
      }),
    },
  };
}

/**
 * The most bytes it takes as JSON: of each of 32 sizes four characters for its count, and its run; and what stands
 * once. `gap` and `age` of the flow never stand together.
 */
export const repeatsBytes = 866;

/** Whether a value is what `advanceRepeats` gives. */
export function isRepeats(value: unknown): value is Repeats {
  if (!isObject(value)) return false;
  const { known, time, before, sizes, perMl, runs, steady, flow, equal, level, sinceDay, age, tail, same } =
    value as unknown as Repeats;
  return (
    isCount(known) &&
    isTimeOrNull(time) &&
    isTimeOrNull(before) &&
    isCount(sizes) &&
    isPacked(perMl, printChars, maxSizes) &&
    isListOf(runs, maxSizes, (run) => isCount(run) && run >= 1 && run <= known) &&
    (steady === undefined || (isObject(steady) && isSteady(steady.celsius) && isSteady(steady.waterSaturation))) &&
    (flow === undefined || isFlow(flow)) &&
    (equal === undefined || isPacked(equal, 1, equalChars)) &&
    (sinceDay === undefined || (isTimeOrNull(sinceDay) && Math.abs(sinceDay) <= mostDays)) &&
    isAge(age) &&
    // beside counts there would be no room for it
    (same === undefined ||
      (perMl === '' && isListOf(same, 2, isCount) && same.length === 2 && same[1] <= longestRun)) &&
    (level === undefined || (isListOf(level, 3, isLevelPart) && level.length === 3)) &&
    (tail === undefined || isTail(tail, runs.length)) &&
    runs.length * printChars === perMl.length
  );
}

function isLevelPart(one: number): boolean {
  return isFigure(one) && one >= 0 && one <= mostLevel;
}

function isTail(tail: Tail, sizes: number): boolean {
  if (!isListOf(tail, 3, isLevelPart) || tail.length !== 3) return false;
  return isCount(tail[0]) && tail[0] >= 1 && tail[0] < sizes;
}

function isSteady(one: SteadyFigure | undefined): boolean {
  if (one === undefined) return true;
  return (
    isObject(one) &&
    isFigure(one.value) &&
    [one.run, one.longest, one.repeats, one.readings].every((count) => isCount(count)) &&
    one.run >= 1 &&
    (one.ago === undefined || (isCount(one.ago) && one.ago <= mostSteady))
  );
}

function isFlow(flow: FlowCourse): boolean {
  if (!isObject(flow)) return false;
  const { last, swing, swings, seen, ran, gap, age, from } = flow as FlowCourse & { readonly from?: number };
  return (
    isFigure(last) &&
    isFigure(swing) &&
    isCount(swings) &&
    (from === undefined || isTimeOrNull(from)) &&
    isRun(seen) &&
    isRun(ran) &&
    (seen === undefined || ran === undefined) &&
    isAge(gap) &&
    (gap === undefined || age === undefined) &&
    isAge(age)
  );
}

function isRun(run: FlowRun | undefined): boolean {
  if (run === undefined) return true;
  return isListOf(run, 2, isCount) && run.length === 2 && run[0] <= mostAge && run[1] <= mostMicrolitres;
}

function isAge(age: number | undefined): boolean {
  return age === undefined || (isCount(age) && age <= mostAge);
}

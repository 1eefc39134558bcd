/**
 * A target that no sample can have, as a code typed backwards is: 13/16/18 allows more particles of 14 µm(c) and larger
 * than of 4, which has them in it. It asks for 13 at each size, which the user would learn after hours of flushing.
 */
import { limitAt } from '../codes/classIndex.ts';
import { usualSizing } from '../codes/columnSizes.ts';
import type { ClassColumn } from '../codes/index.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import { noteProblem, type Problem } from '../errors.ts';
import type { CodePlan } from '../judging/codePlan.ts';

/** Notes a class of the target whose fewest particles are as many as the class of a smaller size allows, or more. */
export function noteRising({ table, target, wanted }: CodePlan, problems: Problem[]): void {
  if (table.counting !== 'cumulative') return;
  const places = wanted as Wanted;
  const sizing = usualSizing(table);
  let most = Infinity;
  for (let i = 0; i < places.length; i += 1) {
    const place = places[i] as number | null;
    if (place === null || (table.columns[i] as ClassColumn).from[sizing] === undefined) continue;
    const fewest = place === 0 ? null : limitAt(table, place - 1, i);
    if (fewest !== null && fewest >= most) {
      noteProblem(problems, ['target'], 'bad_code', target, 'a code that some sample can have');
      return;
    }
    most = Math.min(most, limitAt(table, place, i) ?? most);
  }
}

/** What could be found at all on this machine's own scatter. */
import { shorten } from '../../numeric/shorten.ts';
import { slowLimit } from './judge.ts';
import { contrastErrors, slowContrast } from './slow.ts';
import { baseAhead, fewestBefore, fewness } from './step.ts';
import type { ChangeStep, PreparedChange } from './types.ts';
import type { View } from './view.ts';

/** A normal value lies below so many standard deviations in 19 of 20 cases. */
const nineteenOfTwenty = 1.6448536;
const month = 30.4375;

/** The smallest step that would be told in 19 of 20 cases; null where none could be. */
export function smallestStepOf({ ring, since, step }: View): number | null {
  // after a gap or a change there are few values before a step: it shows less
  const from = baseAhead(ring, since);
  if (step === null || from < fewestBefore) return null;
  return shorten(fewness(from) * (step.limit + nineteenOfTwenty * step.scatter));
}

/**
 * The smallest step and the smallest rise in a month that would be told in 19 of 20 cases; null where nothing could be.
 */
export function sightOf(
  prepared: PreparedChange,
  view: View,
): Pick<ChangeStep, 'smallestStep' | 'smallestMonthlyRise'> {
  const smallestStep = smallestStepOf(view);
  const contrast = slowContrast(view.ring, view.since, view.floor);
  if (contrast === null) return { smallestStep, smallestMonthlyRise: null };
  const errors = contrastErrors(view.ring, view.since, contrast, view.floor);
  const least = slowLimit(prepared, view, contrast, errors) + nineteenOfTwenty * errors.difference;
  return { smallestStep, smallestMonthlyRise: shorten((least * month) / contrast.apart) };
}

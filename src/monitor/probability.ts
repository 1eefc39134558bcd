/** With what probability a reading meets its targets, where the configuration asks for it. */
import type { Wanted } from '../codes/targetOutcome.ts';
import type { MeasurementErrors } from '../codes/uncertainty/errors.ts';
import { probabilityOf } from '../codes/uncertainty/targetProbability.ts';
import { riseWithSize } from '../counts/checkCounts.ts';
import { caught } from '../errors.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import type { CodeVerdict } from '../judging/types.ts';
import type { Reading } from '../reading/reading.ts';

/** The verdicts, those of codes with `errors` with their probability. */
export function withProbabilities(
  plans: readonly CodePlan[],
  { counts }: Reading,
  verdicts: readonly CodeVerdict[],
): readonly CodeVerdict[] {
  if (plans.every(({ errors }) => errors === undefined)) return verdicts;
  return verdicts.map((verdict, i) => {
    const plan = plans[i] as CodePlan;
    return plan.errors === undefined ? verdict : { ...verdict, probability: chanceOf(plan, counts) };
  });
}

function chanceOf({ table, wanted, errors }: CodePlan, counts: Reading['counts']): number | null {
  if (counts?.counted === undefined || counts.volumeMl === undefined || riseWithSize(counts)) return null;
  try {
    return probabilityOf(table, wanted as Wanted, counts, errors as MeasurementErrors).probability;
  } catch (error) {
    caught(error);
    return null;
  }
}

/**
 * Stands in the unit script for the probability that a target is met. A configuration with `errors` of a code is
 * refused where it is prepared.
 */
import type { EitherRule } from '../rules/rule.ts';

/** Refuses every value. */
export function errorsRule(): EitherRule {
  const expected = 'none: this script tells no probability of a target; motescale.global.js does';
  return { kind: 'either', expected, forms: [], choose: () => null };
}

/** No code has errors. */
export function withProbabilities<Verdict>(_plans: unknown, _reading: unknown, verdicts: Verdict): Verdict {
  return verdicts;
}

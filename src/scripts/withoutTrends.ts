/**
 * Stands in the unit script for followed figures, their trends and changes. A configuration that follows figures is
 * refused where it is prepared; so nothing else of them is ever called.
 */
import { motescaleError } from '../errors.ts';
import type { EitherRule } from '../rules/rule.ts';

const expected = 'no figures to follow: this script holds no trends; motescale.global.js does';

/** Refuses every value. */
export function followRule(): EitherRule {
  return { kind: 'either', expected, forms: [], choose: () => null };
}

/** What a state of another script remembers of a figure is not looked at: the figure is dropped. */
export function isChange(): true {
  return true;
}
export const isTrend: () => true = isChange;

function refuse(): never {
  throw motescaleError('unknown_option', 'config.follow', 'figures to follow', expected);
}

export const followPlan: () => never = refuse;
export const blockOf: () => never = refuse;
export const addToBlock: () => never = refuse;
export const closeBlock: () => never = refuse;
export const moveBlocks: () => never = refuse;
export const unlearn: () => never = refuse;
export const openTrend: () => never = refuse;

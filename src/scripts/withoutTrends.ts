/**
 * Stands in the unit script for followed figures, their trends and changes. A configuration that follows figures is
 * refused where it is prepared; so there are none.
 */
import type { EitherRule } from '../rules/rule.ts';

const expected = 'no figures to follow: this script holds no trends; motescale.global.js does';

/** Refuses every value. */
export function followRule(): EitherRule {
  return { kind: 'either', expected, forms: [], choose: () => null };
}

function none(): readonly never[] {
  return [];
}

export const followPlan: () => readonly never[] = none;
export const figuresFollowed: () => readonly never[] = none;
export const addToBlocks: () => readonly never[] = none;
export const closeBlocks: () => readonly never[] = none;
export const moveAllBlocks: () => readonly never[] = none;
export const relearn: () => readonly never[] = none;
export const trendsOf: () => readonly never[] = none;

export function addLate(): { readonly followed: readonly never[]; readonly entered: readonly never[] } {
  return { followed: [], entered: [] };
}

/** What a state of another script remembers of a figure is not looked at: the figure is dropped. */
export function requireKept(): void {}
export const requireBlocks: () => void = requireKept;

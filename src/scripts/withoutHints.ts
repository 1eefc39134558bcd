/** Stands in the unit script for the guesses of what a value that is refused was meant for. */

/** No guess. */
export function nameHint(): '' {
  return '';
}
export const numberHint: () => '' = nameHint;
export const otherNames: object = {};

/**
 * Stands in the unit script for the reading of a double's bytes: it is divided, with the same result and, in small
 * engines, as soon.
 */

export function readWords(): null {
  return null;
}
export const readChord: () => null = readWords;

/** What names of classes and columns may be, so that a code that is written with them can be read again. */

/** The names of classes: where sizes are letters, digits; else no signs that the notation has itself. */
export function readableClass(lettered: boolean): RegExp {
  return lettered ? /^\d+$/ : /^[^\s/>=≥*-]([^/]*[^\s/])?$/;
}

/** A size as a letter. */
export const sizeLetter: RegExp = /^[A-Z]$/;

/** More columns or classes than these no standard has, and no counter fills. */
export const mostListed = 10000;

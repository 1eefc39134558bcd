/**
 * The arcsine from + - * / and the square root alone, so that every engine returns the same bits. A few ulp off at
 * most.
 *
 * Source: NIST Digital Library of Mathematical Functions, 4.24.3 (series of the arctangent) and 4.24.15 (addition), by
 * which half an angle has the tangent t / (1 + sqrt(1 + t^2)).
 */

/** arcsin x for x from -1 to 1. */
export function arcsine(x: number): number {
  // the quarter of the angle, whose tangent is small enough for a short series
  const half = x / (1 + Math.sqrt((1 - x) * (1 + x)));
  const quarter = half / (1 + Math.sqrt(1 + half * half));
  const eighth = quarter / (1 + Math.sqrt(1 + quarter * quarter));
  const z = eighth * eighth;
  let series = 0;
  for (let n = 23; n >= 3; n -= 2) series = z * (1 / n - series);
  return 8 * eighth * (1 - series);
}

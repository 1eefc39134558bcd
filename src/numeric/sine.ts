/**
 * Sine and cosine from + - * / alone, so that every engine returns the same bits: for angles up to 1e6, to within 1e-9.
 *
 * Source: NIST Digital Library of Mathematical Functions, 4.19.1 and 4.19.2 (power series).
 */
export function sineAndCosine(angle: number): { sine: number; cosine: number } {
  const turns = Math.floor(angle / (2 * Math.PI) + 0.5);
  const rest = (angle - turns * 2 * Math.PI) / 8;
  const square = rest * rest;
  let sine = rest * (1 - (square / 6) * (1 - (square / 20) * (1 - (square / 42) * (1 - square / 72))));
  let cosine = 1 - (square / 2) * (1 - (square / 12) * (1 - (square / 30) * (1 - square / 56)));
  for (let doubled = 0; doubled < 3; doubled += 1) {
    const next = 2 * sine * cosine;
    cosine = 1 - 2 * sine * sine;
    sine = next;
  }
  return { sine, cosine };
}

/** The particle levels of IEST-STD-CC1246 by their formula, for levels between the published ones. */
import { requireNonNegative, requireWithin } from '../checks.ts';
import { exp, log10 } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';

const slope = 0.926;

/**
 * Particles of `size` and larger per 0.1 L that a level allows: log10 N = 0.926 (log10^2 L - log10^2 x).
 *
 * @param level the size, in µm, of which one particle is allowed; 1 to 1000
 * @param size in µm, 1 to 1000
 * Source: IEST-STD-CC1246D (2002); MIL-STD-1246C (1994) clause 1.4.
 *
 * @example
 * ```ts
 * import { cc1246Count } from 'motescale/codes';
 * cc1246Count(100, 5); // ~> 1784.82
 * ```
 */
export function cc1246Count(level: number, size: number): number {
  const l = log10(requireWithin(level, 'level', 1, 1000, 'IEST-STD-CC1246'));
  const x = log10(requireWithin(size, 'size', 1, 1000, 'µm, IEST-STD-CC1246'));
  return exp(slope * (l * l - x * x) * log(10));
}

/**
 * The level of a count: the level that allows just so many particles of `size` and larger per 0.1 L. Null where the
 * count is so low that even level 1 allows it (a zero says nothing of the level). The level of a sample is the highest
 * over the sizes counted.
 *
 * @example
 * ```ts
 * import { cc1246Level } from 'motescale/codes';
 * cc1246Level(265, 15); // ~> 100.0
 * ```
 */
export function cc1246Level(per100Ml: number, size: number): number | null {
  const count = requireNonNegative(per100Ml, 'per100Ml', 'particles per 100 mL, 0 or more');
  const x = log10(requireWithin(size, 'size', 1, 1000, 'µm, IEST-STD-CC1246'));
  if (count === 0) return null;
  const square = log10(count) / slope + x * x;
  return square < 0 ? null : exp(Math.sqrt(square) * log(10));
}

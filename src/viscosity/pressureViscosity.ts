/** Oil thickens under pressure: little in a sample line, almost double at the pressure of a hydraulic circuit. */
import { requireNonNegative, requireWithin } from '../checks.ts';
import { exp } from '../numeric/exponential.ts';

/**
 * The factor by which dynamic viscosity rises from atmospheric pressure to a gauge pressure.
 *
 * Good at moderate pressure; above 100 MPa real oils stay below it, and it refuses. At 1 MPa and alpha 2e-8 the factor
 * is 1.02: a low pressure line may ignore it. It is no figure to design a pressure part by.
 *
 * Source: Barus law (no standard).
 *
 * @param kPa gauge pressure, 0 to 100 000
 * @param alphaPerPa pressure coefficient of the oil, 1/Pa, up to 1e-7; mineral oils about 1.5e-8 to 2.5e-8 (from
 *   memory)
 * @throws `negative`, `out_of_range`.
 *
 * @example
 * ```ts
 * import { pressureViscosityFactor } from 'motescale/viscosity';
 * pressureViscosityFactor(1000, 2e-8); // ~> 1.0202
 * pressureViscosityFactor(30000, 2e-8); // ~> 1.8221
 * ```
 */
export function pressureViscosityFactor(kPa: number, alphaPerPa: number): number {
  requireWithin(requireNonNegative(kPa, 'kPa'), 'kPa', 0, 100000, 'kPa, Barus');
  requireWithin(requireNonNegative(alphaPerPa, 'alphaPerPa'), 'alphaPerPa', 0, 1e-7, '1/Pa, Barus');
  return exp(alphaPerPa * kPa * 1000);
}

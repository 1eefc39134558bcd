/**
 * API gravity: density on the scale that American data sheets print, where a lighter oil has more degrees.
 *
 * relative density = 141.5 / (131.5 + °API), both oil and water at 60 °F; water weighs 999.016 kg/m³ there.
 */
import { requireWithin } from '../checks.ts';
import { densityAt15Of60F, densityAt60FOf15 } from './density.ts';

const waterAt60F = 999.016;
const lightest = 100;
const heaviest = -10;
const span = 'API MPMS 11.1-2004, all oils: 610.6 to 1163.5 kg/m3 at 60 °F';

/**
 * Relative density (oil and water both at 60 °F) of an API gravity.
 *
 * Range: -10 to 100 °API. Exact by definition. Source: API MPMS Chapter 11.1, 2004.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { relativeDensityOfApi } from 'motescale/viscosity';
 * relativeDensityOfApi(10); // => 1
 * relativeDensityOfApi(30); // ~> 0.8762
 * ```
 */
export function relativeDensityOfApi(degreesApi: number): number {
  return 141.5 / (131.5 + requireWithin(degreesApi, 'degreesApi', heaviest, lightest, span));
}

/**
 * API gravity, in °API, of a relative density (oil and water both at 60 °F): the inverse of `relativeDensityOfApi`.
 *
 * Range: 141.5/231.5 to 141.5/121.5, that is 100 to -10 °API. Exact by definition. Source: API MPMS Chapter 11.1, 2004.
 *
 * @throws `out_of_range`, also for a density in kg/m³ given by mistake.
 *
 * @example
 * ```ts
 * import { apiOfRelativeDensity } from 'motescale/viscosity';
 * apiOfRelativeDensity(0.8762); // ~> 29.99
 * ```
 */
export function apiOfRelativeDensity(relativeDensity: number): number {
  requireWithin(relativeDensity, 'relativeDensity', 141.5 / 231.5, 141.5 / 121.5, span);
  return 141.5 / relativeDensity - 131.5;
}

/**
 * Density of a lubricating oil at 15 °C, in kg/m³, from its API gravity: what `densityAt` starts from.
 *
 * Range: lubricating oils, -10 to 45 °API (800.9 to 1163.5 kg/m³ at 60 °F). The step from 60 °F to 15 °C (1 °F, about
 * 0.35 kg/m³) is that of `densityAt`. Programs that take 999.012 for water, as the 1980 tables do, read 4 parts in a
 * million lower.
 *
 * Source: API MPMS Chapter 11.1, 2004.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { densityOfApi } from 'motescale/viscosity';
 * densityOfApi(30.5); // ~> 872.95
 * ```
 */
export function densityOfApi(degreesApi: number): number {
  requireWithin(degreesApi, 'degreesApi', heaviest, 45, 'lubricating oils of API MPMS 11.1-2004');
  return densityAt15Of60F(relativeDensityOfApi(degreesApi) * waterAt60F);
}

/**
 * API gravity, in °API, of a lubricating oil whose density at 15 °C is known: the inverse of `densityOfApi`.
 *
 * @param kgPerM3At15 density at 15 °C in kg/m³
 * @throws `out_of_range` outside the lubricating oils of `densityAt`.
 *
 * @example
 * ```ts
 * import { apiOfDensity } from 'motescale/viscosity';
 * apiOfDensity(870); // ~> 31.05
 * ```
 */
export function apiOfDensity(kgPerM3At15: number): number {
  return 141.5 / (densityAt60FOf15(kgPerM3At15) / waterAt60F) - 131.5;
}

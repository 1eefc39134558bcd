/**
 * Water content as laboratories write it: mass by mass, mass by volume and volume by volume are three figures, and all
 * three are called ppm.
 *
 * The density is that of the oil with its water, at the temperature at which its volume was measured, 500 to 2000
 * kg/m³. Contents from 0 to 1e6. Exact but for the density of water, 998.2 kg/m³ at 20 °C (from memory).
 */
import { requireDensity, requireWithin } from '../checks.ts';

const waterKgPerM3 = 998.2;

/**
 * Water in mg/kg from mg/L: times 1000 over the density.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { mgPerKgOfMgPerL } from 'motescale/water';
 * mgPerKgOfMgPerL(150, 870); // ~> 172.4
 * ```
 */
export function mgPerKgOfMgPerL(mgPerL: number, kgPerM3: number): number {
  return (requireContent(mgPerL, 'mgPerL') * 1000) / requireDensity(kgPerM3, 'kgPerM3');
}

/**
 * Water in mg/L from mg/kg.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { mgPerLOfMgPerKg } from 'motescale/water';
 * mgPerLOfMgPerKg(200, 870); // => 174
 * ```
 */
export function mgPerLOfMgPerKg(mgPerKg: number, kgPerM3: number): number {
  return (requireContent(mgPerKg, 'mgPerKg') * requireDensity(kgPerM3, 'kgPerM3')) / 1000;
}

/**
 * Water in mg/kg from ppm by volume (µL of water in a litre of oil).
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { mgPerKgOfVolumePpm } from 'motescale/water';
 * mgPerKgOfVolumePpm(150, 870); // ~> 172.1
 * ```
 */
export function mgPerKgOfVolumePpm(volumePpm: number, kgPerM3: number): number {
  return (requireContent(volumePpm, 'volumePpm') * waterKgPerM3) / requireDensity(kgPerM3, 'kgPerM3');
}

/**
 * Water in ppm by volume from mg/kg.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { volumePpmOfMgPerKg } from 'motescale/water';
 * volumePpmOfMgPerKg(200, 870); // ~> 174.3
 * ```
 */
export function volumePpmOfMgPerKg(mgPerKg: number, kgPerM3: number): number {
  return (requireContent(mgPerKg, 'mgPerKg') * requireDensity(kgPerM3, 'kgPerM3')) / waterKgPerM3;
}

function requireContent(value: unknown, parameter: string): number {
  return requireWithin(value, parameter, 0, 1e6, 'water in the oil');
}

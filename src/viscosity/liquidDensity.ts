/**
 * What may be the density of an oil, for every function that asks for one: g/cm3 and lb/ft3 lie below.
 */
import { requireWithin } from '../checks.ts';

/** A density in kg/m³, 500 to 2000: of a liquid. */
export function requireDensity(kgPerM3: unknown, parameter: string): number {
  return requireWithin(kgPerM3, parameter, 500, 2000, 'kg/m3 of a liquid; not in g/cm3 or lb/ft3');
}

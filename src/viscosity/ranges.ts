/** What may be the temperature and the density of an oil, for every function that asks for one. */
import { requireWithin } from '../checks.ts';
import { leastOilCelsius, mostOilCelsius } from '../rules/bounds.ts';

/** A temperature of an oil in °C: kelvin and most mistakes lie beyond. */
export function requireCelsius(celsius: unknown, parameter: string): number {
  return requireWithin(celsius, parameter, leastOilCelsius, mostOilCelsius, '°C of an oil; not in kelvin');
}

/** A density in kg/m³, 500 to 2000, of a liquid: g/cm3 and lb/ft3 lie below. */
export function requireDensity(kgPerM3: unknown, parameter: string): number {
  return requireWithin(kgPerM3, parameter, 500, 2000, 'kg/m3 of a liquid; not in g/cm3 or lb/ft3');
}

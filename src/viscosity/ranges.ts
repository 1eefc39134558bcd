/** What may be the temperature of an oil, for every function that asks for one. */
import { requireWithin } from '../checks.ts';
import { leastOilCelsius, mostOilCelsius } from '../rules/bounds.ts';

/** A temperature of an oil in °C: kelvin and most mistakes lie beyond. */
export function requireCelsius(celsius: unknown, parameter: string): number {
  return requireWithin(celsius, parameter, leastOilCelsius, mostOilCelsius, '°C of an oil; not in kelvin');
}

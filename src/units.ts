/**
 * Exact conversions between the library's units and those a technician may read on site. One unit per quantity inside
 * the library; these are for the edges. Range of every argument: -1e300 to 1e300; beyond, `out_of_range`.
 *
 * Source: NIST Special Publication 811, 2008 edition, appendix B.8 (factors in bold there are exact).
 */
import { requireWithin } from './checks.ts';

/** One pound-force per square inch in kPa: 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)2. */
const kPaPerPsi = (0.45359237 * 9.80665) / (0.0254 * 0.0254) / 1000;
const kPaPerBar = 100;
const metresPerFoot = 0.3048;
const litresPerUsGallon = 3.785411784;
/** Conventional inch of mercury. */
const kPaPerInchHg = 3.386389;

/** A figure small enough for every conversion of it to be finite. */
function requireReading(value: unknown, parameter: string): number {
  return requireWithin(value, parameter, -1e300, 1e300);
}

/** Degrees Fahrenheit to degrees Celsius. Exact definition. `fahrenheitToCelsius(104)` is 40. */
export function fahrenheitToCelsius(fahrenheit: number): number {
  return ((requireReading(fahrenheit, 'fahrenheit') - 32) * 5) / 9;
}

/** Degrees Celsius to degrees Fahrenheit. Exact definition. `celsiusToFahrenheit(40)` is 104. */
export function celsiusToFahrenheit(celsius: number): number {
  return (requireReading(celsius, 'celsius') * 9) / 5 + 32;
}

/** Pounds-force per square inch to kPa. Exact definition. `psiToKPa(20)` is 137.89... */
export function psiToKPa(psi: number): number {
  return requireReading(psi, 'psi') * kPaPerPsi;
}

/** kPa to pounds-force per square inch. Exact definition. */
export function kPaToPsi(kPa: number): number {
  return requireReading(kPa, 'kPa') / kPaPerPsi;
}

/** Bar to kPa. Exact definition. `barToKPa(7)` is 700. */
export function barToKPa(bar: number): number {
  return requireReading(bar, 'bar') * kPaPerBar;
}

/** kPa to bar. Exact definition. */
export function kPaToBar(kPa: number): number {
  return requireReading(kPa, 'kPa') / kPaPerBar;
}

/** Feet to metres. Exact definition. `feetToMetres(6)` is 1.8288. */
export function feetToMetres(feet: number): number {
  return requireReading(feet, 'feet') * metresPerFoot;
}

/** Metres to feet. Exact definition. */
export function metresToFeet(metres: number): number {
  return requireReading(metres, 'metres') / metresPerFoot;
}

/** US liquid gallons to litres. Exact definition. */
export function usGallonsToLitres(gallons: number): number {
  return requireReading(gallons, 'gallons') * litresPerUsGallon;
}

/** Litres to US liquid gallons. Exact definition. */
export function litresToUsGallons(litres: number): number {
  return requireReading(litres, 'litres') / litresPerUsGallon;
}

/** Conventional inches of mercury to kPa (3.386 389 kPa each, seven digits as printed). */
export function inchHgToKPa(inchHg: number): number {
  return requireReading(inchHg, 'inchHg') * kPaPerInchHg;
}

/** kPa to conventional inches of mercury. */
export function kPaToInchHg(kPa: number): number {
  return requireReading(kPa, 'kPa') / kPaPerInchHg;
}

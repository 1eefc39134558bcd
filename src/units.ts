/**
 * Exact conversions between the library's units and those a technician may read on site. One unit per quantity inside
 * the library; these are for the edges. Range of every argument: up to 1e300, and from -1e300, but for a temperature,
 * from absolute zero, and a pressure read on site, from a vacuum by the gauge; beyond, `out_of_range`.
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

/** A temperature: none lies below absolute zero. */
function requireTemperature(value: unknown, parameter: string, least: number): number {
  return requireWithin(value, parameter, least, 1e300, 'from absolute zero on');
}

/** A pressure, absolute or by the gauge: no vacuum lies further below the air than the air ever weighs, 110 kPa. */
function requirePressure(value: unknown, parameter: string, least: number): number {
  return requireWithin(value, parameter, least, 1e300, 'by the gauge no vacuum lies below');
}

/**
 * Degrees Fahrenheit to degrees Celsius, from -459.67 °F, absolute zero. Exact definition. `fahrenheitToCelsius(104)`
 * is 40.
 */
export function fahrenheitToCelsius(fahrenheit: number): number {
  return ((requireTemperature(fahrenheit, 'fahrenheit', -459.67) - 32) * 5) / 9;
}

/** Degrees Celsius to degrees Fahrenheit, from -273.15 °C. Exact definition. `celsiusToFahrenheit(40)` is 104. */
export function celsiusToFahrenheit(celsius: number): number {
  return (requireTemperature(celsius, 'celsius', -273.15) * 9) / 5 + 32;
}

/** Pounds-force per square inch to kPa, from -16 psi (our choice). Exact definition. `psiToKPa(20)` is 137.89... */
export function psiToKPa(psi: number): number {
  return requirePressure(psi, 'psi', -16) * kPaPerPsi;
}

/** kPa to pounds-force per square inch. Exact definition. */
export function kPaToPsi(kPa: number): number {
  return requireReading(kPa, 'kPa') / kPaPerPsi;
}

/** Bar to kPa, from -1.1 bar (our choice). Exact definition. `barToKPa(7)` is 700. */
export function barToKPa(bar: number): number {
  return requirePressure(bar, 'bar', -1.1) * kPaPerBar;
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

/** Conventional inches of mercury to kPa (3.386 389 kPa each, seven digits as printed), from -32.5 (our choice). */
export function inchHgToKPa(inchHg: number): number {
  return requirePressure(inchHg, 'inchHg', -32.5) * kPaPerInchHg;
}

/** kPa to conventional inches of mercury. */
export function kPaToInchHg(kPa: number): number {
  return requireReading(kPa, 'kPa') / kPaPerInchHg;
}

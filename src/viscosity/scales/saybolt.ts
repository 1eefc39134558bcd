/**
 * Saybolt seconds of a kinematic viscosity and back: seconds = factor (slope v + rest(v)), where the rest dies away as
 * v grows.
 *
 * Source: ASTM D2161-93(1999), equations 5 to 8. D2161 prints rounded factors (4.632, 4.664) for great viscosities; the
 * equations are used to the end instead, which differs by at most 0.02 % and leaves no step.
 */
import { requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { celsiusToFahrenheit } from '../../units.ts';
import { greatestMm2PerS } from '../line/doubleLogarithm.ts';
import type { Conversion } from './conversion.ts';

/** One equation at one temperature. */
interface Saybolt {
  readonly name: string;
  /** Where it begins, mm2/s. */
  readonly least: number;
  readonly factor: number;
  readonly slope: number;
  readonly rest: (v: number) => number;
}

/** Saybolt Universal at a temperature of 0 to 350 °F; 100 °F where left out. */
export function universal(celsius: number | undefined): Conversion {
  if (celsius !== undefined) requireWithin(celsius, 'options.celsius', -17.78, 176.67, '0 to 350 °F, ASTM D2161');
  const fahrenheit = celsius === undefined ? 100 : celsiusToFahrenheit(celsius);
  return inBoth({
    name: 'Saybolt Universal seconds (ASTM D2161)',
    // where Table 1 begins: 1.81 at 100 °F, 1.77 at 210 °F
    least: fahrenheit < 209.5 ? 1.81 : 1.77,
    factor: 1 + 0.000061 * (fahrenheit - 100),
    slope: 4.6324,
    rest: (v) => ((1 + 0.03264 * v) * 100000) / (3930.2 + v * (262.7 + v * (23.97 + v * 1.646))),
  });
}

/** Saybolt Furol, which exists at 122 °F (50 °C, where left out) and at 210 °F (98.9 °C) only. */
export function furol(celsius: number | undefined): Conversion {
  const name = 'Saybolt Furol seconds (ASTM D2161)';
  if (celsius === undefined || Math.abs(celsius - 50) < 0.05)
    return inBoth({ name, least: 48, factor: 1, slope: 0.4717, rest: (v) => 13924 / (v * (v - 72.59) + 6816) });
  if (Math.abs(celsius - 98.9) < 0.05)
    return inBoth({ name, least: 50, factor: 1, slope: 0.4792, rest: (v) => 5610 / (v * v + 2130) });
  const expected = '50 or 98.9 °C: Saybolt Furol is defined at 122 and 210 °F only (ASTM D2161)';
  throw motescaleError('out_of_range', 'options.celsius', celsius, expected);
}

/**
 * The equation and its inverse, which D2161 has not in closed form. The rest falls slower than slope v rises, so each
 * round comes nearer from above, by a factor of three or more, until the digits end.
 */
function inBoth({ name, least, factor, slope, rest }: Saybolt): Conversion {
  const into = (seconds: number) => {
    const sum = seconds / factor;
    let v = sum / slope;
    for (let round = 0; round < 60; round += 1) v = (sum - rest(v)) / slope;
    return v;
  };
  return { name, least, most: greatestMm2PerS, into, outOf: (v) => factor * (slope * v + rest(v)) };
}

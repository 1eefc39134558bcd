/**
 * Pressure of water vapour in equilibrium with liquid water, and the dew point: the saturation line of steam.
 *
 * Both directions are one quadratic in β = p^(1/4) and ϑ = T + n9/(T - n10), solved for the one or the other, so they agree exactly.
 */
import { requireFinite, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import type { Source } from '../source.ts';

/** Where the saturation line of water stands. */
export const saturationPressureSource: Source = {
  document: 'IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997 (IAPWS-IF97)',
  edition: '2012',
  place: 'region 4, equations 30 and 31, coefficients of table 34',
  standing: 'published',
};

/** Coefficients n1 to n10 for MPa and K. */
const n1 = 1167.0521452767;
const n2 = -724213.16703206;
const n3 = -17.073846940092;
const n4 = 12020.82470247;
const n5 = -3232555.0322333;
const n6 = 14.91510861353;
const n7 = -4823.2657361591;
const n8 = 405113.40542057;
const n9 = -0.23855557567849;
const n10 = 650.17534844798;

const freezing = 273.15;
/** The critical temperature, 647.096 K. */
const hottest = 373.946;
const named = 'IAPWS-IF97 region 4: liquid water, up to its critical point';

/**
 * Saturation pressure of water, in kPa (absolute), over liquid water.
 *
 * Range: 0 to 373.946 °C. Accuracy: within 0.025 % of the measured saturation pressure (IAPWS R7-97, from memory).
 *
 * Source: IAPWS R7-97(2012), IF97 region 4, equation 30.
 *
 * @throws `out_of_range` below 0 °C, where ice begins, and above the critical point.
 *
 * @example
 * ```ts
 * import { saturationPressure } from 'motescale/water';
 * saturationPressure(40); // ~> 7.3844
 * saturationPressure(100); // ~> 101.418
 * ```
 */
export function saturationPressure(celsius: number): number {
  const kelvin = requireWithin(celsius, 'celsius', 0, hottest, named) + freezing;
  const theta = kelvin + n9 / (kelvin - n10);
  const a = theta * (theta + n1) + n2;
  const b = theta * (n3 * theta + n4) + n5;
  const c = theta * (n6 * theta + n7) + n8;
  const beta = (2 * c) / (-b + Math.sqrt(b * b - 4 * a * c));
  return beta * beta * beta * beta * 1000;
}

/**
 * Dew point, in °C, of air (or of the air over an oil) at a temperature and a relative humidity: where its water begins to condense.
 *
 * Oil in equilibrium with air has as relative saturation the relative humidity of that air at the temperature of the oil, so a reading of
 * a sensor in the oil may stand in for the humidity.
 *
 * Range: 0 to 373.946 °C, humidity above 0 and up to 1, and a dew point of 0 °C or more; below that water condenses as frost, on another
 * line. Accuracy: within 0.04 °C of the WMO formula from 25 to 60 °C (WMO-No. 8, annex 4.B).
 *
 * Source: IAPWS R7-97(2012), IF97 region 4, equations 30 and 31.
 *
 * @param celsius temperature of the air
 * @param relativeHumidity as a share, 0.6 for 60 %
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { dewPoint } from 'motescale/water';
 * dewPoint(25, 0.6); // ~> 16.70
 * ```
 */
export function dewPoint(celsius: number, relativeHumidity: number): number {
  const full = saturationPressure(celsius);
  const expected = 'a share above 0 and up to 1, 0.6 for 60 %';
  requireFinite(relativeHumidity, 'relativeHumidity', expected);
  if (relativeHumidity <= 0 || relativeHumidity > 1) {
    throw motescaleError('out_of_range', 'relativeHumidity', relativeHumidity, expected);
  }
  if (relativeHumidity === 1) return celsius;
  const frost = saturationPressure(0);
  // the limit itself, which the quotient of two pressures names but for its last digit
  if (relativeHumidity * full < frost * (1 - 1e-12)) {
    const least = Math.ceil((frost / full) * 10000) / 10000;
    const here = `${least} or more at ${celsius} °C, so that the dew point is 0 °C or above (${named})`;
    throw motescaleError('out_of_range', 'relativeHumidity', relativeHumidity, here);
  }
  return Math.min(celsius, Math.max(0, temperatureOf(relativeHumidity * full)));
}

/** Equation 31: the saturation temperature, in °C, of a pressure in kPa. */
function temperatureOf(kPa: number): number {
  const beta = Math.sqrt(Math.sqrt(kPa / 1000));
  const e = beta * (beta + n3) + n6;
  const f = beta * (n1 * beta + n4) + n7;
  const g = beta * (n2 * beta + n5) + n8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = n10 + d;
  return (sum - Math.sqrt(sum * sum - 4 * (n9 + n10 * d))) / 2 - freezing;
}

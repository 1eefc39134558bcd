/**
 * Pressure of water vapour in equilibrium with liquid water, and the temperature of a pressure: the saturation line of
 * steam.
 *
 * Both directions are one quadratic in β = p^(1/4) and ϑ = T + n9/(T - n10), solved for the one or the other, so they
 * agree exactly.
 */
import { requireFinite, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { shownEnd } from '../numeric/shown.ts';

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
/** A limit itself is let in, which a quotient of two pressures names but for its last digit. */
const slack = 1e-12;

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
 * The temperature, in °C, at which water vapour of a pressure in kPa (absolute) begins to condense:
 * `saturationPressure` backwards. With `relativeHumidity * saturationPressure(celsius)` it is a dew point for hot air
 * too, where `dewPoint` ends.
 *
 * Range: 0.6112127 kPa (0 °C; below, water condenses as frost, on another line) to 22064 kPa (373.946 °C). Accuracy:
 * that of `saturationPressure`; the two agree to 1e-9 °C.
 *
 * Source: IAPWS R7-97(2012), IF97 region 4, equation 31.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { condensationTemperature, saturationPressure } from 'motescale/water';
 * condensationTemperature(101.325); // ~> 99.974
 * condensationTemperature(0.4 * saturationPressure(80)); // ~> 58.92
 * ```
 */
export function condensationTemperature(kPa: number): number {
  const [least, most] = [saturationPressure(0), saturationPressure(hottest)];
  const expected = `a pressure in kPa from ${shownEnd(least, true)} to ${shownEnd(most, false)} (${named})`;
  requireFinite(kPa, 'kPa', expected);
  if (kPa < least * (1 - slack) || kPa > most * (1 + slack)) throw motescaleError('out_of_range', 'kPa', kPa, expected);
  return Math.min(hottest, Math.max(0, temperatureOf(kPa)));
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

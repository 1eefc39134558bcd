/** The dew point of air, or of the air over an oil, by the formula meteorologists agreed on; it goes below 0 °C. */
import { requireFinite, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { log } from '../numeric/logarithm.ts';

/** °C */
const coldest = -45;
const hottest = 60;
const steepness = 17.62;
const offset = 243.12;

/**
 * Dew point, in °C, of air (or of the air over an oil) at a temperature and a relative humidity: where its water begins
 * to condense. Below 0 °C it is the dew point over water that has not frozen; frost forms at a slightly higher
 * temperature.
 *
 * Oil in equilibrium with air has as relative saturation the relative humidity of that air at the temperature of the
 * oil, so a reading of a sensor in the oil may stand in for the humidity.
 *
 * Range: -45 to 60 °C, for the temperature and for the dew point; humidity above 0 and up to 1. For hotter air:
 * `condensationTemperature(relativeHumidity * saturationPressure(celsius))`. Accuracy: from 0 to 60 °C the pressures
 * are within 0.31 % of IAPWS-IF97, the dew points within 0.1 °C.
 *
 * Source: WMO-No. 8, annex 4.B.
 *
 * @param celsius temperature of the air
 * @param relativeHumidity as a share, 0.6 for 60 %
 * @throws `out_of_range`; `wrong_type`, `not_a_number`, `infinite`.
 *
 * @example
 * ```ts
 * import { dewPoint } from 'motescale/water';
 * dewPoint(25, 0.6); // ~> 16.693
 * dewPoint(5, 0.5); // ~> -4.577
 * ```
 */
export function dewPoint(celsius: number, relativeHumidity: number): number {
  const beyond = 'WMO-No. 8, annex 4.B; for hotter air condensationTemperature(humidity * saturationPressure(celsius))';
  const t = requireWithin(celsius, 'celsius', coldest, hottest, beyond);
  const expected = 'a share, 0.6 for 60 %, above 0, up to 1';
  requireFinite(relativeHumidity, 'relativeHumidity', expected);
  if (relativeHumidity <= 0 || relativeHumidity > 1)
    throw motescaleError('out_of_range', 'relativeHumidity', relativeHumidity, expected);
  if (relativeHumidity === 1) return t;
  const exponent = log(relativeHumidity) + (steepness * t) / (offset + t);
  const dew = (offset * exponent) / (steepness - exponent);
  if (dew < coldest) {
    const wetter = `a share that gives a dew point of ${coldest} °C or above (WMO-No. 8, annex 4.B)`;
    throw motescaleError('out_of_range', 'relativeHumidity', relativeHumidity, wetter);
  }
  return Math.min(t, dew);
}

/** Reading a viscosity-temperature line: the viscosity at a temperature, the temperature for a viscosity. */
import { motescaleError } from '../../errors.ts';
import { power } from '../../numeric/exponential.ts';
import { leastOilCelsius, mostOilCelsius } from '../../rules/bounds.ts';
import { requireCelsius } from '../ranges.ts';
import { doubleLog, requireViscosity } from './doubleLogarithm.ts';
import { requireLine, type ViscosityLine, valueAt } from './viscosityLine.ts';

/** By how much rounding may carry a temperature past the ends, °C: the ends come back as they are. */
const slack = 1e-9;

/**
 * The kinematic viscosity of an oil at a temperature, in mm2/s (cSt).
 *
 * Between the points of the line as good as they are. A line does not know its points: beyond the coldest and the
 * warmest of them the answer is an extrapolation, nothing marks it as one, and its error grows with the distance
 * (common practice: measure there). Near the cloud point and below it the oil is thicker than any line says. Where a
 * pump or a gear must start on cold oil, measure.
 *
 * Source: ASTM D341-20.
 *
 * @param celsius -80 to 250 °C (our choice: kelvin of an oil from -23 °C up lies above), and such that the line lies
 *   within 0.21 to 20 000 000 mm2/s
 * @throws `out_of_range` elsewhere.
 *
 * @example
 * ```ts
 * import { viscosityAt, viscosityLineOfGrade } from 'motescale/viscosity';
 * viscosityAt(viscosityLineOfGrade(46, 102), 40); // ~> 46.000
 * ```
 */
export function viscosityAt(line: ViscosityLine, celsius: number): number {
  requireLine(line);
  return valueAt(line, requireCelsius(celsius, 'celsius'), 'celsius');
}

/**
 * The temperature at which an oil has a viscosity, in °C: the inverse of `viscosityAt`, and like it an extrapolation
 * beyond the points of the line.
 *
 * Heating oil to it is hot work: the surface of a heater is hotter than the oil, and this figure knows neither flash
 * point nor burns.
 *
 * Source: ASTM D341-20.
 *
 * @param mm2PerS from 0.21 to 20 000 000
 * @throws `out_of_range`, and `no_answer` where the line reaches that viscosity at no temperature from -80 to 250 °C.
 *
 * @example
 * ```ts
 * import { temperatureAt, viscosityLineOfGrade } from 'motescale/viscosity';
 * temperatureAt(viscosityLineOfGrade(46, 102), 46); // ~> 40.000
 * ```
 */
export function temperatureAt(line: ViscosityLine, mm2PerS: number): number {
  requireLine(line);
  requireViscosity(mm2PerS, 'mm2PerS');
  const celsius = power(10, (line.a - doubleLog(mm2PerS, line.form)) / line.b) - 273.15;
  if (!(celsius >= leastOilCelsius - slack && celsius <= mostOilCelsius + slack)) {
    const expected = `a viscosity the line reaches between ${leastOilCelsius} and ${mostOilCelsius} °C`;
    throw motescaleError('no_answer', 'mm2PerS', mm2PerS, expected);
  }
  return Math.min(Math.max(celsius, leastOilCelsius), mostOilCelsius);
}

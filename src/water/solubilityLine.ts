/**
 * How much water an oil can dissolve: log10 S = a - b/T, S in mg/kg and T in kelvin, a straight line through points
 * measured on that oil.
 *
 * There is no line for hydraulic or turbine oil in print, and additives change it several times over: measure two
 * points.
 */
import { requireApart, requireFilledArray, requireFinite, requireObject, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { log10, power } from '../numeric/exponential.ts';
import { meanOf } from '../numeric/lists.ts';
import { shown } from '../numeric/shown.ts';
import { coldest, flattest, hottest, steepest } from './ranges.ts';

/** log10 of the mg/kg that dissolve is `a - b/T`, T in kelvin. */
export interface SolubilityLine {
  readonly a: number;
  readonly b: number;
}

/** Water content at saturation, measured on the oil at one temperature. */
export interface SolubilityPoint {
  readonly celsius: number;
  readonly mgPerKg: number;
}

/**
 * By how much rounding may carry a temperature past these, °C: what `solubilityAt` gives at the ends comes back as the
 * ends.
 */
const slack = 1e-9;
/** The same of a slope, K: points of a line at either end give that line again. */
const slackOfSlope = 1e-6;
/** The least and the most mg/kg that a line may give. */
const least = 0.001;
const most = 1e6;
/**
 * How far apart, °C, the coldest and the warmest point lie at least (our choice): at 10 °C, of two points each 5 % off
 * opposite ways the slope is off by some 380 K; nearer ones say nothing of it.
 */
const leastApart = 10;

/**
 * The solubility line of an oil from measured points: exact through two, least squares in log10 S over 1/T through
 * more.
 *
 * Range: -50 to 150 °C, 0.001 to 1e6 mg/kg, the coldest and the warmest point at least 10 °C apart (our choice; 30 °C
 * make a good line), solubility rising with temperature by a slope `b` of 500 to 3000 K (our choice). Oils have about
 * 1050 to 1850 (from the heat of solution, 20 to 35 kJ/mol; from memory): less comes of a warm sample that had dried or
 * a cold one with droplets, and makes wet oil look dry when it cools. Temperatures in °F do not show: the points of
 * the example in °F give 1133.
 * Accuracy: that of the points; points at 20 and 60 °C that are 5 % off leave up to 18 % at -15 °C, 12 % at 0 °C and
 * 10 % at 80 °C. Oil changes as it ages: measure the oil in service, not the new one.
 *
 * Source of the form: IEEE C57.106; CIGRE TB 741 (2018). How to measure: docs/water.md.
 *
 * @throws `too_few` below two temperatures at least 10 °C apart; `out_of_range`, also where the solubility does not
 *   rise.
 *
 * @example
 * ```ts
 * import { solubilityAt, solubilityLine } from 'motescale/water';
 * const line = solubilityLine([{ celsius: 20, mgPerKg: 190 }, { celsius: 60, mgPerKg: 720 }]);
 * line.b; // ~> 1412.6
 * solubilityAt(line, 40); // ~> 386
 * ```
 */
export function solubilityLine(points: readonly SolubilityPoint[]): SolubilityLine {
  const measured = measuredOf(points);
  requireApart(points, leastApart);
  const inverse = meanOf(measured.map((point) => point.inverse));
  const order = meanOf(measured.map((point) => point.order));
  let across = 0;
  let along = 0;
  for (const point of measured) {
    across += (point.inverse - inverse) * (point.order - order);
    along += (point.inverse - inverse) * (point.inverse - inverse);
  }
  const found = -across / along;
  const b = Math.min(Math.max(found, flattest), steepest);
  if (Math.abs(found - b) > slackOfSlope) {
    const slope = `a slope b of ${flattest} to ${steepest} K; these give ${shown(found)}`;
    const expected = `points whose mgPerKg rises with temperature, with ${slope}`;
    throw motescaleError('out_of_range', 'points', points, expected);
  }
  return { a: order + b * inverse, b };
}

/**
 * Water content at saturation, in mg/kg (mass by mass, "ppm"), of an oil at a temperature.
 *
 * Range: -50 to 150 °C, answers of 0.001 to 1e6 mg/kg. A line does not know its points: beyond the coldest and the
 * warmest of them the answer is an extrapolation, nothing marks it as one, and its error grows with the distance
 * (`solubilityLine` has figures). Measure at the temperatures that matter (common practice).
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { mineralInsulatingOil, solubilityAt } from 'motescale/water';
 * solubilityAt(mineralInsulatingOil, 20); // ~> 55.5
 * ```
 */
export function solubilityAt(line: SolubilityLine, celsius: number): number {
  const { a, b } = requireLine(line);
  const order = a - b / requireKelvin(celsius, 'celsius');
  if (!(order >= log10(least) && order <= log10(most)))
    throw motescaleError('out_of_range', 'line', line, `a line that gives ${least} to ${most} mg/kg at ${celsius} °C`);
  return Math.min(Math.max(power(10, order), least), most);
}

/**
 * The temperature, in °C, at which a water content just saturates an oil: cooled below it, the water comes out as
 * droplets.
 *
 * Range: temperatures of -50 to 150 °C; a content that saturates the oil at none of them is refused, and the error says
 * whether it is too dry or too wet. Beyond the points
 * of the line an extrapolation, as with `solubilityAt`.
 *
 * Free water takes away the oil film and, below 0 °C, freezes in valves and pipes: plan for the coldest oil, not for
 * the tank.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { saturationTemperature, solubilityLine } from 'motescale/water';
 * const line = solubilityLine([{ celsius: 20, mgPerKg: 190 }, { celsius: 60, mgPerKg: 720 }]);
 * saturationTemperature(line, 150); // ~> 13.9
 * ```
 */
export function saturationTemperature(line: SolubilityLine, mgPerKg: number): number {
  const { a, b } = requireLine(line);
  const order = log10(requireWithin(mgPerKg, 'mgPerKg', least, most, 'mass of water in the oil'));
  const celsius = a > order ? b / (a - order) - 273.15 : Infinity;
  if (celsius < coldest - slack || celsius > hottest + slack) {
    const none = celsius < coldest ? `down to ${coldest}` : `up to ${hottest}`;
    const where = `a content that saturates the oil from ${coldest} to ${hottest} °C; this one does at none ${none} °C`;
    throw motescaleError('out_of_range', 'mgPerKg', mgPerKg, where);
  }
  return Math.min(Math.max(celsius, coldest), hottest);
}

/** The points as 1/T and log10 S. */
function measuredOf(points: readonly SolubilityPoint[]): { inverse: number; order: number }[] {
  requireFilledArray(points, 'points', 'an array of points { celsius, mgPerKg }');
  return points.map((point, i) => {
    requireObject(point, `points[${i}]`, 'a point { celsius, mgPerKg }', ['celsius', 'mgPerKg']);
    const inverse = 1 / requireKelvin(point.celsius, `points[${i}].celsius`);
    return { inverse, order: log10(requireWithin(point.mgPerKg, `points[${i}].mgPerKg`, least, most)) };
  });
}

export function requireLine(line: SolubilityLine): SolubilityLine {
  requireObject(line, 'line', 'a solubility line { a, b }', ['a', 'b', 'fluid', 'source']);
  requireFinite(line.a, 'line.a');
  requireWithin(line.b, 'line.b', flattest, steepest, 'slope of an oil in K');
  return line;
}

/** The kelvin of a temperature at which a line may be asked. */
export function requireKelvin(celsius: unknown, parameter: string): number {
  return requireWithin(celsius, parameter, coldest, hottest, '°C of an oil; not in kelvin') + 273.15;
}

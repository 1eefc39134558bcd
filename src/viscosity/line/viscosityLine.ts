/**
 * How the viscosity of one oil changes with temperature: log10 log10 Z = a - b log10 T, a straight line through
 * measured points.
 */
import { requireFinite, requireObject, requireOneOf } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { log10 } from '../../numeric/exponential.ts';
import { doubleLog, fromDoubleLog, greatestMm2PerS, type LineForm, leastMm2PerS } from './doubleLogarithm.ts';
import { fallingLine, requirePoints, type ViscosityPoint } from './fitLine.ts';

/**
 * A line on the viscosity-temperature chart; plain data to keep beside the oil's name. `a` and `b` are the A and B of
 * ASTM D341.
 */
export interface ViscosityLine {
  readonly a: number;
  readonly b: number;
  readonly form: LineForm;
}

/** How far a measured point lies from a line. */
export interface LineResidual extends ViscosityPoint {
  /** What the line gives at this temperature, mm2/s. */
  readonly onLine: number;
  /** Measured less line, in percent of the line. */
  readonly percent: number;
}

/**
 * The line through two measured points, or the least-squares line through more; `lineResiduals` says how well they fit.
 *
 * Two points lie on it to within 1e-13 (1 + b) of their viscosity (rounding; oils have a `b` of about 3 to 4), in both
 * forms. With more, the sum of squares of log10 log10 Z over log10 T is least, each point weighing the same. Points far
 * apart make a good line: from 40 and 100 °C, an error of 1 % in either shows as 3 to 4 % at -10 °C with an index near
 * 100, and as 2 to 3.5 % with one of 150 to 220.
 *
 * Range: 0.21 to 20 000 000 mm2/s (limits from memory), -80 to 250 °C (our choice: kelvin of an oil from -23 °C up lies
 * above), the coldest and the warmest point at least 10 °C apart (our choice; 40 and 100 °C are common
 * practice): points at 40 and 50 °C that are 0.5 % off opposite ways leave 9 % at 0 °C, 40 and 100 °C leave 3 %.
 *
 * Temperatures in °F, or a mistyped figure, show in `b` alone: grades with an index of 0 to 200 have 2.2 to 4.4, and 40
 * and 100 °C taken as 40 and 212 give 1.5. Silicones and oils of an index above 300 have so little by right, so it is
 * not refused. The oil must be a homogeneous Newtonian liquid over the whole span: above its cloud point, below its
 * boiling range. The library cannot see that; a line says nothing about an oil below its cloud point.
 *
 * Source: ASTM D341-20; T in K is °C + 273.15.
 *
 * @param options.form `full` where left out; `short` for the abbreviated Z
 * @throws `too_few` with fewer than two temperatures at least 10 °C apart, `no_answer` where viscosity does not fall
 *   with temperature, `out_of_range`, also of temperatures in kelvin.
 *
 * @example
 * ```ts
 * import { viscosityAt, viscosityLine } from 'motescale/viscosity';
 * const line = viscosityLine([{ celsius: 40, mm2PerS: 404 }, { celsius: 100, mm2PerS: 28 }]);
 * viscosityAt(line, 60); // ~> 132.126
 * ```
 */
export function viscosityLine(
  points: readonly ViscosityPoint[],
  options: { readonly form?: LineForm | undefined } = {},
): ViscosityLine {
  requireObject(options, 'options', 'options { form }', ['form']);
  const { form = 'full' } = options;
  requireOneOf(form, 'options.form', ['full', 'short']);
  return { ...fallingLine(points, (mm2PerS) => doubleLog(mm2PerS, form)), form };
}

/**
 * How far each point lies from a line, whether the line was made from them or not: a fit checked, or a new sample held
 * against the line of the fresh oil. In the order given; the residuals of the two points of a line are 0 but for
 * rounding.
 *
 * @throws `out_of_range` also where the line leaves 0.21 to 20 000 000 mm2/s at the temperature of a point.
 *
 * @example
 * ```ts
 * import { lineResiduals, viscosityLine } from 'motescale/viscosity';
 * const line = viscosityLine([{ celsius: 40, mm2PerS: 46 }, { celsius: 100, mm2PerS: 6.8 }]);
 * const inService = lineResiduals(line, [{ celsius: 40, mm2PerS: 48.3 }]);
 * inService[0]?.percent; // ~> 5.00
 * ```
 */
export function lineResiduals(line: ViscosityLine, points: readonly ViscosityPoint[]): LineResidual[] {
  requireLine(line);
  requirePoints(points);
  return points.map(({ celsius, mm2PerS }, i) => {
    const onLine = valueAt(line, celsius, `points[${i}].celsius`);
    return { celsius, mm2PerS, onLine, percent: (mm2PerS / onLine - 1) * 100 };
  });
}

/** The viscosity on a checked line. */
export function valueAt(line: ViscosityLine, celsius: number, parameter: string): number {
  const mm2PerS = fromDoubleLog(line.a - line.b * log10(celsius + 273.15), line.form);
  if (mm2PerS === null) {
    const within = `${leastMm2PerS} to ${greatestMm2PerS} mm2/s`;
    const expected = `a temperature at which this line lies within ${within} (ASTM D341)`;
    throw motescaleError('out_of_range', parameter, celsius, expected);
  }
  return mm2PerS;
}

export function requireLine(line: ViscosityLine): void {
  requireObject(line, 'line', 'a line { a, b, form }, as viscosityLine makes it', ['a', 'b', 'form']);
  requireFinite(line.a, 'line.a');
  if (requireFinite(line.b, 'line.b') < 1e-60)
    throw motescaleError('out_of_range', 'line.b', line.b, 'a slope, above 0');
  requireOneOf(line.form, 'line.form', ['full', 'short']);
}

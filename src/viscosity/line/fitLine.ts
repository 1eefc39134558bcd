/** The straight line of least squares through measured points, on scales chosen by the caller. */
import { requireApart, requireFilledArray, requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { log10 } from '../../numeric/exponential.ts';
import { meanOf } from '../../numeric/lists.ts';
import { requireCelsius } from '../ranges.ts';
import { requireViscosity } from './doubleLogarithm.ts';

/** One measurement: temperature in °C, kinematic viscosity in mm2/s (cSt). */
export interface ViscosityPoint {
  readonly celsius: number;
  readonly mm2PerS: number;
}

/**
 * How far apart, °C, the coldest and the warmest point lie at least (our choice). Of two points from 40 °C up that are
 * 0.5 % off opposite ways (two laboratories differ by about 1 %, ASTM D445, from memory), the line of an oil of VG 46
 * is off at 0 °C by up to 112 % where they are 1 °C apart, 17 % at 5 °C, 9 % at 10 °C and 3 % at 60 °C.
 */
const leastApart = 10;

/** The least-squares line W = a - b log10 T through points far enough apart for a slope. */
export function fallingLine(
  points: readonly ViscosityPoint[],
  w: (mm2PerS: number) => number,
): { a: number; b: number } {
  requirePoints(points);
  requireApart(points, leastApart);
  const xs = points.map(({ celsius }) => log10(celsius + 273.15));
  const ws = points.map(({ mm2PerS }) => w(mm2PerS));
  const meanX = meanOf(xs);
  const meanW = meanOf(ws);
  const products = xs.map((x, i) => (x - meanX) * ((ws[i] as number) - meanW));
  const squares = xs.map((x) => (x - meanX) * (x - meanX));
  const b = -meanOf(products) / meanOf(squares);
  if (!(b > 0)) throw motescaleError('no_answer', 'points', xs.length, 'a viscosity that falls as temperature rises');
  return { a: meanW + b * meanX, b };
}

export function requirePoints(list: readonly ViscosityPoint[]): void {
  requireFilledArray(list, 'points', 'an array of { celsius, mm2PerS }');
  list.forEach((point, i) => {
    requireObject(point, `points[${i}]`, 'a point { celsius, mm2PerS }', ['celsius', 'mm2PerS']);
    requireCelsius(point.celsius, `points[${i}].celsius`);
    requireViscosity(point.mm2PerS, `points[${i}].mm2PerS`);
  });
}

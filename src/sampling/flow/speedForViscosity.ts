/**
 * The pump speed for an oil's viscosity, from what was found when commissioning: thick oil fills the pump badly, thin
 * oil slips back through its gaps, and both need a faster one.
 */
import { requireFilledArray, requireObject, requirePositive } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { monotoneSpline, splineAt } from '../../numeric/monotoneSpline.ts';
import { requirePercent } from './rules.ts';

/** One commissioning point: the speed that gave the wanted flow at a viscosity. */
export interface SpeedPoint {
  /** Kinematic viscosity, mm²/s, above 0. */
  readonly mm2PerS: number;
  /** Pump speed, percent of full speed, 0 to 100. */
  readonly percent: number;
}

/**
 * The pump speed, in percent, for a viscosity: a smooth curve through the commissioning points that never leaves the
 * span of two neighbours. Beyond the points it stays at the outer one and `outside` is true: commission there before
 * relying on it.
 *
 * The points belong to one pump, line and flow: find them at commissioning, cold and warm. Those below are an example
 * of one pump, no rule.
 *
 * @param curve two points or more, in any order, each viscosity once
 * @throws `too_few` for fewer than two points; `out_of_range` for a viscosity twice or a speed outside 0 to 100.
 *
 * @example
 * ```ts
 * import { speedForViscosity } from 'motescale/sampling';
 * const curve = [{ mm2PerS: 24, percent: 46 }, { mm2PerS: 55, percent: 39 }, { mm2PerS: 98, percent: 43 }];
 * speedForViscosity(curve, 75).percent; // ~> 39.9
 * speedForViscosity(curve, 240); // => { percent: 43, outside: true }
 * ```
 */
export function speedForViscosity(
  curve: readonly SpeedPoint[],
  mm2PerS: number,
): { percent: number; outside: boolean } {
  const points = checkCurve(curve);
  requirePositive(mm2PerS, 'mm2PerS', 'a viscosity in mm²/s, above 0');
  const first = points[0] as SpeedPoint;
  const last = points[points.length - 1] as SpeedPoint;
  if (mm2PerS <= first.mm2PerS) return { percent: first.percent, outside: mm2PerS < first.mm2PerS };
  if (mm2PerS >= last.mm2PerS) return { percent: last.percent, outside: mm2PerS > last.mm2PerS };
  const spline = monotoneSpline(
    points.map((point) => point.mm2PerS),
    points.map((point) => point.percent),
  );
  return { percent: splineAt(spline, mm2PerS), outside: false };
}

/** The points by rising viscosity, or an error. */
function checkCurve(curve: readonly SpeedPoint[]): readonly SpeedPoint[] {
  requireFilledArray(curve, 'curve', 'an array of points { mm2PerS, percent }');
  if (curve.length < 2) throw motescaleError('too_few', 'curve', curve, 'two commissioning points or more');
  curve.forEach((point, i) => {
    requireObject(point, `curve[${i}]`, 'a point { mm2PerS, percent }', ['mm2PerS', 'percent']);
    requirePositive(point.mm2PerS, `curve[${i}].mm2PerS`, 'a viscosity in mm²/s, above 0');
    requirePercent(point.percent, `curve[${i}].percent`);
  });
  const points = curve.slice().sort((a, b) => a.mm2PerS - b.mm2PerS);
  points.forEach(({ mm2PerS }, i) => {
    if (mm2PerS === points[i - 1]?.mm2PerS)
      throw motescaleError('out_of_range', 'curve', mm2PerS, 'each viscosity once');
  });
  return points;
}

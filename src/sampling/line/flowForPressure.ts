/** The inverse of `lineFlow`: the flow that a pressure difference drives. */
import { requireObject, requireWithin } from '../../checks.ts';
import { type MotescaleError, motescaleError } from '../../errors.ts';
import { findRoot } from '../../numeric/root.ts';
import { shown } from '../../numeric/shown.ts';
import { largestFigure } from '../../rules/bounds.ts';
import { type FlowRegime, mostReynolds } from './frictionFactor.ts';
import type { HighPoint } from './highPoint.ts';
import {
  type Fluid,
  type Liquid,
  leastFlow,
  mostFlow,
  requireLiquid,
  requireStart,
  requireTubes,
  type Segment,
  type Tube,
  usualAtmosphereKPa,
} from './line.ts';
import { lineFlow } from './lineFlow.ts';
import { reynoldsOf, riseOf } from './pressureDrop.ts';
import { reached, takenBy } from './reached.ts';

/** A deficit below this share of the pressures that add up is one of rounding. */
const rounding = 1e-13;

/** The flow a pressure drives. */
export interface DrivenFlow {
  /** The flow of oil of the one viscosity given, mL/min; in the critical zone the least it can be. */
  readonly mlPerMin: number;
  /** The most it can be: more than `mlPerMin` only in the critical zone. */
  readonly mlPerMinHigh: number;
  readonly regime: FlowRegime;
  /** The highest Reynolds number of the segments, at `mlPerMin`. */
  readonly reynolds: number;
  /**
   * Where the line has less pressure than its end; null where none of its segments ends so. Below the pressure of the
   * tank oil gives off air there, and that holds the flow back or ends it. At 0 kPa the oil tears off there.
   */
  readonly highPoint: HighPoint | null;
  /** As in `lineFlow`: fittings hold back more than is computed, and both flows are too high. */
  readonly fittingsTooLow: boolean;
}

/**
 * The flow, in mL/min, through a line whose ends differ by `kPa` in pressure (beginning less end): `lineFlow`
 * backwards, to about 1e-12.
 *
 * Where the answer lies in the critical zone `regime` says so, and two flows enclose it. A line that falls flows by
 * itself: `kPa` may be 0 or negative as long as the fall outweighs it. Range, assumptions and sources: those of
 * `lineFlow`; `kPa` from -1e6 to 1e6.
 *
 * One viscosity holds for the whole line. Pressure thickens oil, and a long restrictor under high pressure passes less
 * than is told: 8.5 % less at 9 MPa, 26 % less at 31.5 MPa, where it stays at one temperature (Barus, 2e-8 per Pa,
 * integrated along the tube). Give the viscosity at the mean of the pressures at both ends, `mm2PerS` times
 * `pressureViscosityFactor` of it (of `kPa / 2` where the line ends in the tank), and the flow is that one within 2 %
 * up to a difference of 34 MPa, always on the low side: 2.6 % low at 40 MPa, 5.8 % at 60, 15 % at 100. Throttling warms
 * the oil and works the other way; a thin coil in a cold room loses that warmth. Above 100 000 kPa that factor is not
 * known, and no flow here is to be relied on.
 *
 * `highPoint` tells what pressure is left on the way. Where a full line would have less than none at a place, the oil
 * tears off there: what falls after it runs partly empty and draws nothing. The flow is then the greatest that gets to
 * the place, and `highPoint` names it with 0 kPa. Oil gives off air long before, so that less may flow. Where the
 * absolute pressure at the beginning does not even lift standing oil to the place, a siphon too high, there is no
 * answer. A line that does not tear must be full of oil first: to fill it takes the pressure of the whole rise.
 *
 * Safety: opening a sampling valve to full system pressure gives this flow at once, hot and hard: throttle it, stand
 * clear, catch it.
 *
 * @throws `no_answer` where oil would run backwards, or nothing holds the flow back (no length, no `k1`, no `k` and no
 *   strainer), or where no pressure is left at a place even without flow; `out_of_range`.
 *
 * @example
 * ```ts
 * import { flowForPressure } from 'motescale/sampling';
 * const flow = flowForPressure({
 *   segments: [{ metres: 2, boreMm: 4 }],
 *   kPa: 21.227,
 *   fluid: { mm2PerS: 46, kgPerM3: 870 },
 * });
 * flow.mlPerMin; // ~> 100.0
 * ```
 */
export function flowForPressure(line: {
  readonly segments: readonly Segment[];
  /** Pressure at the beginning less pressure at the end, kPa: a difference, whatever both are measured from. */
  readonly kPa: number;
  /**
   * Absolute pressure at the beginning, kPa, 10 to 1e7, by which high points are judged. Where left out, the end with
   * less pressure has that of the atmosphere, 101.325: a line into the tank, or out of it.
   */
  readonly startKPa?: number;
  readonly fluid: Fluid;
}): DrivenFlow {
  requireObject(line, 'line', 'a line { segments, kPa, fluid }', ['segments', 'kPa', 'startKPa', 'fluid']);
  const tubes = requireTubes(line.segments);
  const liquid = requireLiquid(line.fluid);
  const kPa = requireWithin(line.kPa, 'line.kPa', -1e6, 1e6);
  const startKPa = line.startKPa ?? usualAtmosphereKPa + Math.max(0, kPa);
  const endKPa = requireStart(startKPa) - kPa;
  if (endKPa <= 0) {
    const expected = 'more than line.kPa, so that pressure is left at the end';
    throw motescaleError('out_of_range', 'line.startKPa', startKPa, expected);
  }
  const pascal = drivingPascal(tubes, liquid, kPa);
  const most = largestFlow(tubes, pascal, liquid);
  // hardly any length, and nothing else that holds the flow back: a search up to there would not end
  if (most > largestFigure) throw tooMuch(line.kPa);
  const at = (flow: number, low: boolean) => lossOf(tubes, flow, liquid, low) - pascal;
  const found = findRoot((flow) => at(flow, false), 0, most);
  const foundHigh = at(found, true) >= 0 ? found : findRoot((flow) => at(flow, true), found, most);
  const least = reached(tubes, found, liquid, false, startKPa, endKPa);
  const greatest = reached(tubes, foundHigh, liquid, true, startKPa, endKPa);
  const sure = least.flow * 6e7 < leastFlow ? 0 : least.flow;
  const high = sure === 0 ? 0 : greatest.flow;
  const mlPerMin = sure * 6e7;
  // `lineFlow` takes no more
  if (mlPerMin > mostFlow || tubes.some((tube) => reynoldsOf(tube, sure, liquid) > mostReynolds))
    throw tooMuch(line.kPa);
  const { reynolds, regime, fittingsTooLow } = lineFlow({ segments: line.segments, mlPerMin, fluid: line.fluid });
  const open = high > sure * (1 + 1e-9);
  const mlPerMinHigh = open ? high * 6e7 : mlPerMin;
  const other = open ? greatest.highPoint : null;
  const lower = other !== null && (least.highPoint === null || other.kPa < least.highPoint.kPa);
  const highPoint = lower ? other : least.highPoint;
  return { mlPerMin, mlPerMinHigh, regime: open ? 'critical' : regime, reynolds, highPoint, fittingsTooLow };
}

function tooMuch(kPa: number): MotescaleError {
  const expected = 'a pressure that drives no more than 1e9 mL/min, at a Reynolds number up to 1e8';
  return motescaleError('out_of_range', 'line.kPa', kPa, expected);
}

/** Pressure left after the rise, Pa: added up as `lineFlow` does, so that what it gives without flow leaves nothing. */
function drivingPascal(tubes: readonly Tube[], liquid: Liquid, kPa: number): number {
  let riseKPa = 0;
  let size = Math.abs(kPa);
  for (const tube of tubes) {
    const part = riseOf(tube, liquid) / 1000;
    riseKPa += part;
    size += Math.abs(part);
  }
  if (kPa - riseKPa < -rounding * size) {
    const expected = `at least ${shown(riseKPa, kPa)} kPa, below which the oil runs backwards`;
    throw motescaleError('no_answer', 'line.kPa', kPa, expected);
  }
  return Math.max(0, kPa - riseKPa) * 1000;
}

/** Pressure lost to friction and fittings, Pa. */
function lossOf(tubes: readonly Tube[], flow: number, liquid: Liquid, low: boolean): number {
  let loss = 0;
  for (const { friction, fittings } of takenBy(tubes, flow, liquid, low)) loss += friction + fittings;
  return loss;
}

/** A flow that no regime can exceed: laminar friction alone, or fittings alone, would use up the pressure. */
function largestFlow(tubes: readonly Tube[], pascal: number, liquid: Liquid): number {
  let laminar = 0;
  let fittings = 0;
  for (const tube of tubes) {
    laminar += (32 * liquid.kinematic * liquid.density * tube.metres) / (tube.bore * tube.bore * tube.area);
    laminar += tube.strainer * liquid.kinematic;
    laminar += (tube.k1 * liquid.kinematic * liquid.density) / (2 * tube.bore * tube.area);
    fittings += (tube.k * liquid.density) / (2 * tube.area * tube.area);
  }
  if (laminar === 0 && fittings === 0)
    throw motescaleError('no_answer', 'line.segments', tubes, 'a line that holds the flow back');
  // a little more than either, so that rounding leaves the answer inside
  const byFriction = laminar === 0 ? Infinity : pascal / laminar;
  return 1.001 * Math.min(byFriction, fittings === 0 ? Infinity : Math.sqrt(pascal / fittings));
}

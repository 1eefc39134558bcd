/** How high, and in how thick an oil, a pump may still be asked to lift, given the least pressure its inlet stands. */
import { findRoot } from '../../numeric/root.ts';
import { type HighPoint, lowestBefore, totalOf } from './highPoint.ts';
import {
  gravity,
  requireFlow,
  requireInletLimit,
  requireLiquid,
  requireTubes,
  thickestMm2PerS,
  usualAtmosphereKPa,
} from './line.ts';
import { dropOf, takesMore } from './pressureDrop.ts';
import { balance, type SuctionLine } from './suctionLift.ts';

/** What the limit leaves room for. */
export interface SuctionLimits {
  /**
   * Pressure above the limit, kPa, a difference, at the inlet or at the high point that has least; negative where the
   * limit is broken.
   */
  readonly marginKPa: number;
  /** The high point that decides `marginKPa` and `liftMetres`; null where the inlet does. */
  readonly highPoint: HighPoint | null;
  /**
   * The greatest lift, m, with this line, flow and oil. Negative: the pump must stand so far below the oil's surface.
   * Over a high point: the line is lifted as a whole, the high point as far as the pump.
   */
  readonly liftMetres: number;
  /**
   * The greatest viscosity, mm²/s, with this line, flow and lift: the limit is kept at it and at every lower one. 1e7,
   * the end of the range, where viscosity sets no bound (no flow, no length); null where even the thinnest oil breaks
   * the limit.
   */
  readonly mm2PerS: number | null;
  /**
   * As in `lineFlow`, at the oil given or at `mm2PerS`: fittings take more than is computed, and the pump can lift
   * less, and less thick an oil, than is told.
   */
  readonly fittingsTooLow: boolean;
}

/**
 * The greatest lift and the greatest viscosity at which a pump's inlet keeps an absolute pressure that you set.
 *
 * The limit has no default: take it from the pump's maker. It is asked of the inlet and, from the first segment that
 * rises on, of each end of a segment: at a high point air gathers, and less pressure than the pump stands draws it out
 * of the oil there. No place of the line may be without pressure. The greatest lift assumes the line as long as it is
 * now: enter the tube for the lift you aim at. In the critical zone the greater loss decides, so that both answers err
 * to the safe side. The viscosity may be turned into the lowest oil temperature by `temperatureAt` of the oil's
 * viscosity line. Range, assumptions and sources: those of `suctionLift`.
 *
 * Safety: an inlet at its limit has no reserve for a fouled strainer, a soft hose or thin mountain air. A starved pump
 * draws air, cavitates and can be destroyed within minutes; the bubbles are counted as particles. Where
 * `fittingsTooLow` is true the room told is not there: give the fittings their `k1`.
 *
 * @throws `out_of_range`, `wrong_type`, `empty`.
 *
 * @example
 * ```ts
 * import { suctionLimits } from 'motescale/sampling';
 * const limits = suctionLimits({
 *   segments: [{ metres: 5, boreMm: 6, riseMetres: -0.6 }],
 *   mlPerMin: 60,
 *   fluid: { mm2PerS: 130, kgPerM3: 872 },
 *   inletLimitKPa: 80,
 * });
 * limits.liftMetres; // ~> 0.41
 * limits.mm2PerS; // ~> 193
 * ```
 */
export function suctionLimits(
  line: SuctionLine & {
    /**
     * The least absolute pressure at the inlet, kPa, 30 to 1000 (our choice: the deepest vacuum in print for an oil
     * pump leaves 37). A data sheet's -0.2 bar by the gauge is 81, its vacuum of 20 kPa too.
     */
    readonly inletLimitKPa: number;
  },
): SuctionLimits {
  const { liftKPa, fittingsTooLow, nearest } = balance(line);
  const { highPoint, leastKPa } = nearest(requireInletLimit(line.inletLimitKPa));
  const marginKPa = leastKPa - line.inletLimitKPa;
  const liquid = requireLiquid(line.fluid);
  const mm2PerS = greatestViscosity(line, liquid.density, line.inletLimitKPa);
  return {
    marginKPa,
    highPoint,
    liftMetres: ((liftKPa + marginKPa) * 1000) / (liquid.density * gravity),
    mm2PerS,
    fittingsTooLow: fittingsTooLow || (mm2PerS !== null && takeMoreAt(line, mm2PerS)),
  };
}

/** Whether fittings of the line take more than is computed, at this viscosity. */
export function takeMoreAt(line: Pick<SuctionLine, 'segments' | 'mlPerMin'>, mm2PerS: number): boolean {
  const flow = requireFlow(line.mlPerMin);
  const liquid = { kinematic: mm2PerS / 1e6, density: 1 };
  return requireTubes(line.segments).some((tube) => takesMore(tube, flow, liquid));
}

const thinnest = 0.01 / 1e6;
const thickest = thickestMm2PerS / 1e6;

/**
 * The greatest viscosity, mm²/s, up to which the limit is kept from a lesser one on; null where that breaks it.
 *
 * Loss rises with viscosity as long as no segment changes its regime, and falls where one turns from turbulent to
 * laminar. So the spans between those points are walked from thin to thick, and the first span that breaks the limit
 * holds the answer.
 */
export function greatestViscosity(
  line: Omit<SuctionLine, 'fluid'>,
  density: number,
  inletLimitKPa: number,
  least: number = thinnest * 1e6,
): number | null {
  const tubes = requireTubes(line.segments);
  const flow = requireFlow(line.mlPerMin);
  const kPa = (line.atmosphereKPa ?? usualAtmosphereKPa) - inletLimitKPa;
  const excess = (kinematic: number) => {
    const drops = tubes.map((tube) => dropOf(tube, flow, { kinematic, density }));
    return totalOf(drops) - kPa * 1000 + (lowestBefore(drops, inletLimitKPa * 1000)?.short ?? 0);
  };
  let from = least / 1e6;
  if (excess(from) > 0) return null;
  const ends = tubes.map((tube) => ((flow / tube.area) * tube.bore) / 2000).sort((a, b) => a - b);
  for (const end of ends.concat(thickest)) {
    // just short of the point where laminar flow begins, to see the greater loss on its turbulent side
    const to = Math.min(end * (1 - 1e-12), thickest);
    if (to <= from) continue;
    if (excess(to) > 0) return findRoot(excess, from, to, 'line.inletLimitKPa') * 1e6;
    from = to;
  }
  return thickest * 1e6;
}

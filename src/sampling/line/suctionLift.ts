/** A pump that lifts its oil: what pressure is left at its inlet. */
import { requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { shown } from '../../numeric/shown.ts';
import type { FlowRegime } from './frictionFactor.ts';
import { broken, type HighPoint, lowestBefore } from './highPoint.ts';
import { type Line, lineMembers, requireAtmosphere, usualAtmosphereKPa } from './line.ts';
import { lineFlow } from './lineFlow.ts';

/**
 * A suction line from the surface of the oil to the pump, in the order of flow: the `riseMetres` of its segments add up
 * to the lift. A high point on the way (the wall of a pit, the lid of a tank) is the end of a segment.
 */
export interface SuctionLine extends Line {
  /**
   * Absolute pressure on the oil's surface in kPa, 30 to 300 (our choice: no mountain has less, no tank that is opened
   * more); 101.325 where left out. It falls by about 1.2 kPa per 100 m of altitude. A barometer shows hPa: 950 are 95.
   */
  readonly atmosphereKPa?: number;
}

/** What is left at the pump's inlet. */
export interface SuctionLift {
  /** Absolute pressure at the inlet, kPa: atmosphere - lift - loss. In the critical zone the least it can be. */
  readonly inletKPa: number;
  /** Pressure difference spent on the lift, kPa; negative where the pump stands below the oil. */
  readonly liftKPa: number;
  /** Pressure difference lost on the way (the most it can be), kPa. */
  readonly lossKPa: number;
  /** Where the line has less pressure than its inlet; null where none of its segments ends so. */
  readonly highPoint: HighPoint | null;
  readonly regime: FlowRegime;
  /** As in `lineFlow`: fittings take more than is computed, and the inlet has less than `inletKPa`. */
  readonly fittingsTooLow: boolean;
}

/**
 * The absolute pressure at a pump's inlet: the atmosphere's, less the lift, less what the line takes at this flow and
 * viscosity.
 *
 * Where the line goes over a point that lies higher than the inlet, `highPoint` tells the pressure there: oil gives off
 * air below the pressure of the tank, it gathers there, and the flow breaks. Pressure is looked at where segments end,
 * so a crest is the end of one.
 *
 * How high and how thick an oil a pump lifts is for its maker to say. A check valve or an elbow belongs into the line
 * as `k1` and `k`, a strainer as `strainer`, by what its data sheet says it takes. The velocity head is not taken off
 * (for a suction line at 100 mL/min and 4 mm it is below 0.02 kPa); a `k` of 2 with a `k1` of 0 on the last segment
 * includes it. Range and assumptions: those of `lineFlow`.
 *
 * Safety: oil gives off dissolved air, then vapour, long before the inlet pressure reaches zero. Bubbles wear the pump
 * out (cavitation) and are counted as particles. A line without its fittings, or with a `k` alone (`fittingsTooLow`),
 * promises an inlet pressure that the pump never sees, and starves it. The maker of the pump names the least inlet
 * pressure; `suctionLimits` works with it.
 *
 * Source: Hydraulic Institute Engineering Data Book, 2nd edition 1990; Crane TP-410.
 *
 * @throws `no_answer` where the atmosphere cannot push this flow up the line, or over a high point of it;
 *   `out_of_range`.
 *
 * @example
 * ```ts
 * import { suctionLift } from 'motescale/sampling';
 * const inlet = suctionLift({
 *   segments: [{ metres: 5, boreMm: 6, riseMetres: -0.6 }],
 *   mlPerMin: 60,
 *   fluid: { mm2PerS: 130, kgPerM3: 872 },
 * });
 * inlet.liftKPa; // ~> -5.13
 * inlet.lossKPa; // ~> 17.82
 * inlet.inletKPa; // ~> 88.64
 * ```
 */
export function suctionLift(line: SuctionLine): SuctionLift {
  const { inletKPa, liftKPa, lossKPa, regime, fittingsTooLow, nearest } = balance(line);
  if (inletKPa <= 0) {
    const atmosphere = line.atmosphereKPa ?? usualAtmosphereKPa;
    const needed = liftKPa + lossKPa;
    const parts = `the lift takes ${shown(liftKPa)} kPa, the loss ${shown(lossKPa)} kPa`;
    const expected = `less than the ${shown(atmosphere, needed)} kPa of the atmosphere: ${parts}`;
    throw motescaleError('no_answer', 'line', Number(shown(needed, atmosphere)), expected);
  }
  const { highPoint } = nearest(0);
  if (highPoint !== null && highPoint.kPa <= 0) throw broken(highPoint);
  return { inletKPa, liftKPa, lossKPa, highPoint, regime, fittingsTooLow };
}

/** Atmosphere, lift and loss, without asking whether oil can follow. */
export interface Balance extends Omit<SuctionLift, 'highPoint'> {
  /** The place that comes nearest to a limit: a high point, or the inlet, and the pressure above 0 that it leaves. */
  readonly nearest: (limit: number) => { readonly highPoint: HighPoint | null; readonly leastKPa: number };
}

export function balance(line: SuctionLine): Balance {
  requireObject(line, 'line', 'a suction line { segments, mlPerMin, fluid }', lineMembers);
  const atmosphere = requireAtmosphere(line.atmosphereKPa);
  const { segments, riseKPa, frictionKPa, fittingsKPa, regime, fittingsTooLow } = lineFlow(line);
  const lossKPa = frictionKPa + fittingsKPa;
  const inletKPa = atmosphere - riseKPa - lossKPa;
  const taken = segments.map((one) => ({ friction: one.frictionKPa, fittings: one.fittingsKPa, rise: one.riseKPa }));
  const nearest = (limit: number) => {
    const lowest = lowestBefore(taken, limit);
    if (lowest === null) return { highPoint: null, leastKPa: inletKPa };
    const { segment, below, short } = lowest;
    return { highPoint: { segment, kPa: inletKPa - below }, leastKPa: inletKPa - short };
  };
  return { inletKPa, liftKPa: riseKPa, lossKPa, regime, fittingsTooLow, nearest };
}

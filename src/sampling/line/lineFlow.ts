/** Oil through a sampling line: how fast, in which regime, at what pressure, and how long it is on its way. */
import { requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { type FlowRegime, factorBounds, mostReynolds, regimeAt } from './frictionFactor.ts';
import { type Line, type Liquid, lineMembers, requireFlow, requireLiquid, requireTubes, type Tube } from './line.ts';
import { dropOf, reynoldsOf, takesMore } from './pressureDrop.ts';

/** What one segment, or the whole line, asks for. */
export interface PressureDrop {
  /**
   * Pressure at the beginning less pressure at the end, kPa, a difference: friction, fittings and rise. In the critical
   * zone: the most it can be.
   */
  readonly kPa: number;
  /** The least it can be: equal to `kPa` except in the critical zone. */
  readonly kPaLow: number;
  /** The part lost to the walls (the most it can be), kPa. */
  readonly frictionKPa: number;
  /** The part lost in fittings and strainers, kPa. */
  readonly fittingsKPa: number;
  /** The part spent on rising, kPa; negative where the line falls. */
  readonly riseKPa: number;
  /**
   * Fittings stand in flow that is not turbulent with a `k` alone: `kPa`, `kPaLow` and `fittingsKPa` are too low. Give
   * their `k1` too.
   */
  readonly fittingsTooLow: boolean;
}

/** One segment of the line. */
export interface SegmentFlow extends PressureDrop {
  readonly metresPerS: number;
  readonly reynolds: number;
  readonly regime: FlowRegime;
  /** Darcy friction factor; null in the critical zone, where none is known, and without flow. */
  readonly frictionFactor: number | null;
  /** Shear stress at the wall (the most it can be), Pa. */
  readonly wallShearPa: number;
  readonly volumeMl: number;
  /** Mean time in the segment; null without flow. */
  readonly transitSeconds: number | null;
}

/** The line as a whole. */
export interface LineFlow extends PressureDrop {
  /** The highest Reynolds number of its segments. */
  readonly reynolds: number;
  /**
   * `critical` where any segment is in the critical zone and the pressure so uncertain; else that of the highest
   * Reynolds number.
   */
  readonly regime: FlowRegime;
  /** What the line holds. */
  readonly volumeMl: number;
  /**
   * Volume over flow; null without flow. The first oil arrives in half of it, sooner where it is thinner than what
   * stood in the line: see `flush`.
   */
  readonly transitSeconds: number | null;
  readonly segments: readonly SegmentFlow[];
}

/**
 * Velocity, Reynolds number, pressure and time of oil on its way through a line.
 *
 * Laminar segments (Reynolds number below 2000) by Hagen and Poiseuille, turbulent ones (above 4000) by Darcy and
 * Colebrook. From 2000 to 4000 no one can tell: `regime` says `critical`, `kPa` is the most and `kPaLow` the least the
 * drop can be, and there is no friction factor. The drop rises with flow everywhere. It rises with viscosity within
 * laminar and within turbulent flow; oil that thickens out of turbulence can meet less friction than before.
 *
 * Assumes steady, fully developed flow of an incompressible, Newtonian oil at one temperature in round tubes. The
 * longer entry of laminar flow, bends not entered as `k1` and `k`, and changes of velocity head between bores are left
 * out.
 *
 * What a falling part gives back, `kPa` counts on: true of a line full of oil. To fill it, and over a high point that
 * lets the column break, oil has to be pushed up all of the rise before it; `suctionLift` and `flowForPressure` look at
 * high points, this function does not.
 *
 * Fittings by the two-K method, K = k1 / Re + k (Hooper, from memory): K1 is one for a type of fitting, whatever its
 * size. A sampling line is laminar, and there `k1` is nearly all of it: a check valve at a Reynolds number of 2 takes
 * hundreds of times what its `k` tells. Where a `k` stands alone in such flow, `fittingsTooLow` says so.
 *
 * Range: as `Line`, `Segment` and `Fluid` say, Reynolds number to 1e8. Accuracy: laminar, that of bore to the fourth
 * power, so 1 % of bore is 4 % of pressure; turbulent about 10 % (common practice).
 *
 * Safety: the figure is a drop by flow, no pressure rating. A line off a working system holds full system pressure when
 * flow stops or its end is shut: choose tube and fittings for that, release all pressure before opening it, never feel
 * for a leak by hand. A drop that is too low starves a pump: heed `fittingsTooLow`.
 *
 * Source: Crane TP-410; Hydraulic Institute Engineering Data Book, 2nd edition 1990, section 3.A; fittings: W. B.
 * Hooper, Chemical Engineering, 24 August 1981, p. 96 (from memory).
 *
 * @throws `out_of_range`, `empty`, `wrong_type`, `not_a_number`, `infinite`.
 *
 * @example
 * ```ts
 * import { lineFlow } from 'motescale/sampling';
 * const line = lineFlow({
 *   segments: [{ metres: 2, boreMm: 4, riseMetres: 0.5 }],
 *   mlPerMin: 100,
 *   fluid: { mm2PerS: 46, kgPerM3: 870 },
 * });
 * line.regime; // => 'laminar'
 * line.reynolds; // ~> 11.5
 * line.kPa; // ~> 25.5
 * line.volumeMl; // ~> 25.13
 * ```
 */
export function lineFlow(line: Line): LineFlow {
  requireObject(line, 'line', 'a line { segments, mlPerMin, fluid }', lineMembers);
  const tubes = requireTubes(line.segments);
  const flow = requireFlow(line.mlPerMin);
  const liquid = requireLiquid(line.fluid);
  const segments = tubes.map((tube) => segmentFlow(tube, flow, liquid));
  const total = { kPa: 0, kPaLow: 0, frictionKPa: 0, fittingsKPa: 0, riseKPa: 0, reynolds: 0, volumeMl: 0 };
  let critical = false;
  let fittingsTooLow = false;
  for (const segment of segments) {
    total.kPa += segment.kPa;
    total.kPaLow += segment.kPaLow;
    total.frictionKPa += segment.frictionKPa;
    total.fittingsKPa += segment.fittingsKPa;
    total.riseKPa += segment.riseKPa;
    total.volumeMl += segment.volumeMl;
    total.reynolds = Math.max(total.reynolds, segment.reynolds);
    critical = critical || segment.regime === 'critical';
    fittingsTooLow = fittingsTooLow || segment.fittingsTooLow;
  }
  if (total.reynolds > mostReynolds) {
    const expected = 'a Reynolds number up to 1e8: a wider bore or less flow';
    throw motescaleError('out_of_range', 'line', total.reynolds, expected);
  }
  const transitSeconds = flow === 0 ? null : total.volumeMl / 1e6 / flow;
  const regime = critical ? 'critical' : regimeAt(total.reynolds);
  return { ...total, fittingsTooLow, regime, transitSeconds, segments };
}

function segmentFlow(tube: Tube, flow: number, liquid: Liquid): SegmentFlow {
  const metresPerS = flow / tube.area;
  const reynolds = reynoldsOf(tube, flow, liquid);
  const regime = regimeAt(reynolds);
  const { friction, frictionLow, fittings, rise } = dropOf(tube, flow, liquid);
  const factor = flow === 0 ? 0 : factorBounds(reynolds, tube.relativeRoughness).high;
  return {
    metresPerS,
    reynolds,
    regime,
    frictionFactor: flow === 0 || regime === 'critical' ? null : factor,
    kPa: (friction + fittings + rise) / 1000,
    kPaLow: (frictionLow + fittings + rise) / 1000,
    frictionKPa: friction / 1000,
    fittingsKPa: fittings / 1000,
    riseKPa: rise / 1000,
    fittingsTooLow: takesMore(tube, flow, liquid),
    wallShearPa: (factor * liquid.density * metresPerS * metresPerS) / 8,
    volumeMl: tube.area * tube.metres * 1e6,
    transitSeconds: flow === 0 ? null : (tube.area * tube.metres) / flow,
  };
}

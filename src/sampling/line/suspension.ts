/** Whether particles get through a horizontal line with the oil, or come to lie in it. */
import { requireObject, requireShare } from '../../checks.ts';
import { arcsine } from '../../numeric/arcsine.ts';
import { power } from '../../numeric/exponential.ts';
import type { FlowRegime } from './frictionFactor.ts';
import { drawnTubingMm, type Fluid, requireTube } from './line.ts';
import { lineFlow, type SegmentFlow } from './lineFlow.ts';
import { settlingAt } from './settlingVelocity.ts';

/** What becomes of a size in the line. */
export interface Suspension {
  /**
   * Whether the line passes the size on. Laminar: the loss is at most `lossLimit`, nothing is lifted. Turbulent: by the
   * friction velocity.
   */
  readonly suspended: boolean;
  /** `critical`: judged as laminar, because eddies cannot be counted on there. */
  readonly regime: FlowRegime;
  /** How fast the size settles, m/s; negative where it rises. */
  readonly settlingMetresPerS: number;
  /**
   * Laminar and critical: the share of the size that reaches the wall before the end of the line, 0 to 1. Turbulent:
   * null.
   */
  readonly lostShare: number | null;
  /** Turbulent: the friction velocity, sqrt(wall shear / density), m/s. Laminar and critical: null. */
  readonly frictionMetresPerS: number | null;
}

const members = ['size', 'particleKgPerM3', 'fluid', 'metres', 'boreMm', 'mlPerMin', 'roughnessMm', 'lossLimit'];

/**
 * Whether a horizontal line at this flow keeps a size in suspension, or loses it to the bottom (to the top, where it
 * rises).
 *
 * Laminar flow carries nothing up: every heavy particle sinks, and those that reach the wall before the end are lost to
 * the count. `lostShare` is theirs, exact for spheres carried by the parabolic profile of velocity, and `suspended`
 * says that it does not exceed `lossLimit`. Turbulent flow keeps up what settles more slowly than its friction
 * velocity. Both from memory; the laminar one is checked against computed paths. What has come to lie is set free
 * later, by a knock or a higher flow, and then counted at the wrong time.
 *
 * The density of the particle is in kg/m³. Steel as 7.85, in g/cm³, is a bubble of air at 663 kPa absolute, and its
 * loss that of a bubble: then `settlingMetresPerS` is negative.
 *
 * @param line a horizontal tube; `lossLimit` above 0 and below 1, 0.05 where left out (a choice of this library)
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { suspension } from 'motescale/sampling';
 * const steel = { metres: 5, boreMm: 4, particleKgPerM3: 7850, fluid: { mm2PerS: 46, kgPerM3: 870 } };
 * suspension({ ...steel, mlPerMin: 100, size: 4 }).lostShare; // ~> 0.02
 * suspension({ ...steel, mlPerMin: 100, size: 14 }).lostShare; // ~> 0.21
 * // little lost is not lifted: this flow is laminar too
 * suspension({ ...steel, mlPerMin: 1000, size: 14 }).regime; // => 'laminar'
 * suspension({ ...steel, mlPerMin: 1000, size: 14 }).lostShare; // ~> 0.02
 * // steel that rises: a density in g/cm³
 * suspension({ ...steel, particleKgPerM3: 7.85, mlPerMin: 100, size: 14 }).settlingMetresPerS * 1e6; // ~> -2.3
 * ```
 */
export function suspension(line: {
  readonly size: number;
  readonly particleKgPerM3: number;
  readonly fluid: Fluid;
  readonly metres: number;
  readonly boreMm: number;
  readonly mlPerMin: number;
  readonly roughnessMm?: number;
  readonly lossLimit?: number;
}): Suspension {
  requireObject(line, 'line', 'a line { size, particleKgPerM3, fluid, metres, boreMm, mlPerMin }', members);
  requireTube(line, 'line');
  const settlingMetresPerS = settlingAt(line, 'line');
  const limit = requireShare(line.lossLimit ?? 0.05, 'line.lossLimit');
  const { metres, boreMm, roughnessMm = drawnTubingMm } = line;
  const tube = { metres, boreMm, roughnessMm };
  const { segments, regime } = lineFlow({ segments: [tube], mlPerMin: line.mlPerMin, fluid: line.fluid });
  const speed = Math.abs(settlingMetresPerS);
  const { metresPerS, wallShearPa } = segments[0] as SegmentFlow;
  if (regime === 'turbulent') {
    const frictionMetresPerS = Math.sqrt(wallShearPa / line.fluid.kgPerM3);
    return { suspended: speed < frictionMetresPerS, regime, settlingMetresPerS, lostShare: null, frictionMetresPerS };
  }
  const lostShare = lossOf((3 * line.metres * speed) / 4, (line.boreMm / 1000) * metresPerS);
  return { suspended: lostShare <= limit, regime, settlingMetresPerS, lostShare, frictionMetresPerS: null };
}

/** The share lost, from the fall over the run; all of it from a ratio of 1, where the highest path reaches the wall. */
function lossOf(fall: number, run: number): number {
  if (fall === 0) return 0;
  if (fall >= run) return 1;
  const s = power(fall / run, 1 / 3);
  const t = s * s;
  // the formula cancels its leading terms where s is small: there its series
  if (s < 0.1) {
    const rest = t * (4 / 5 + t * (1 / 7 + t * (1 / 18 + t * (5 / 176 + (t * 7) / 416))));
    return (2 / Math.PI) * s * t * (8 / 3 - rest);
  }
  const root = Math.sqrt((1 - s) * (1 + s));
  return (2 / Math.PI) * (2 * s * t * root - s * root + arcsine(s));
}

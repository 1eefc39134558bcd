/**
 * How hard a tube's wall holds the oil back: the friction factor of Darcy, certain in laminar and in turbulent flow,
 * uncertain between.
 */
import { requireWithin } from '../../checks.ts';
import { log } from '../../numeric/logarithm.ts';

/** The largest Reynolds number that friction is asked for. */
export const mostReynolds = 1e8;

/** How the oil moves: in layers, in eddies, or in the span between where it may do either. */
export type FlowRegime = 'laminar' | 'critical' | 'turbulent';

/** A friction factor with what is known of it. */
export interface FrictionFactor {
  readonly regime: FlowRegime;
  /** Darcy friction factor; null in the critical zone, where nobody can tell it. */
  readonly factor: number | null;
  /** Equal to the factor; in the critical zone that of laminar flow. */
  readonly low: number;
  /** Equal to the factor; in the critical zone that of turbulent flow, by which a line is safely sized. */
  readonly high: number;
}

/**
 * The Darcy friction factor f of a round tube: a pressure of f (L / D) ρ V² / 2 is lost to the wall. (Fanning's factor
 * is a quarter of it.)
 *
 * - Reynolds number below 2000: laminar, 64 / Re, whatever the roughness.
 * - 2000 to 4000: the critical zone. Flow may be laminar or turbulent and may change from one moment to the next: no
 *   factor, two bounds.
 * - Above 4000: the equation of Colebrook, solved to the last digits of a double; itself true to about 10 % on real
 *   tubes (common practice).
 *
 * Source: Hydraulic Institute Engineering Data Book, 2nd edition 1990, section 3.A; also Crane TP-410.
 *
 * @param reynolds above 0, to 1e8
 * @param relativeRoughness height of the roughness over the bore, 0 (smooth) to 0.05
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { frictionFactor } from 'motescale/sampling';
 * frictionFactor(640).factor; // => 0.1
 * frictionFactor(3000).factor; // => null
 * frictionFactor(100600).factor; // ~> 0.0180
 * ```
 */
export function frictionFactor(reynolds: number, relativeRoughness = 0): FrictionFactor {
  requireWithin(reynolds, 'reynolds', 1e-12, mostReynolds);
  requireWithin(relativeRoughness, 'relativeRoughness', 0, 0.05);
  const { low, high } = factorBounds(reynolds, relativeRoughness);
  return { regime: regimeAt(reynolds), factor: low === high ? low : null, low, high };
}

export function regimeAt(reynolds: number): FlowRegime {
  return reynolds < 2000 ? 'laminar' : reynolds > 4000 ? 'turbulent' : 'critical';
}

/** The lowest and the highest factor that flow at this Reynolds number, above 0, can have. */
export function factorBounds(reynolds: number, relativeRoughness: number): { low: number; high: number } {
  const low = reynolds > 4000 ? colebrook(reynolds, relativeRoughness) : 64 / reynolds;
  return { low, high: regimeAt(reynolds) === 'critical' ? colebrook(reynolds, relativeRoughness) : low };
}

/** Newton's method on x = 1 / sqrt f from below: the left side is concave, so steps come closer and none overshoots. */
function colebrook(reynolds: number, relativeRoughness: number): number {
  const rough = relativeRoughness / 3.7;
  const smooth = 2.51 / reynolds;
  const scale = 2 / log(10);
  let x = 1;
  for (let round = 0; round < 12; round += 1) {
    const inside = rough + smooth * x;
    x -= (x + scale * log(inside)) / (1 + (scale * smooth) / inside);
  }
  return 1 / (x * x);
}

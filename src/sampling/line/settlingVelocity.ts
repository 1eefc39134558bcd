/** How fast a particle sinks through oil at rest: Stokes for the small, Schiller and Naumann for the large. */
import { requireObject, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { power } from '../../numeric/exponential.ts';
import { findRoot } from '../../numeric/root.ts';
import { type Fluid, gravity, requireLiquid } from './line.ts';

/** A particle in a fluid. */
export interface Particle {
  /** Diameter in µm, 0.01 to 1e5. */
  readonly size: number;
  /**
   * Density of the particle in kg/m³, 0 to 25000: about 2650 for mineral dust, 7850 for steel, 1.2 for air, 12 times as
   * much at 12 times the pressure. So g/cm³ cannot be refused here: 7.85 kg/m³ is air at 663 kPa absolute. Steel or
   * dust that comes out rising, with a velocity below 0, was given in g/cm³.
   */
  readonly particleKgPerM3: number;
  /** Any fluid: here its density may be 1 to 20000 kg/m³. */
  readonly fluid: Fluid;
}

/**
 * The velocity in m/s at which a sphere settles through oil at rest; negative for one that rises, such as a bubble or a
 * fibre lighter than oil.
 *
 * Stokes's law up to a particle Reynolds number of 0.2, the drag of Schiller and Naumann from 0.3 to 800 (from memory),
 * and between the two a straight line of their ratio, so that a larger particle never settles more slowly. Accuracy for
 * spheres: about 5 %. Flakes and fibres settle more slowly than spheres of their size; a clean bubble rises up to half
 * as fast again.
 *
 * Sources: Perry's Chemical Engineers' Handbook, 8th edition (Stokes); Schiller and Naumann, 1933 (from memory).
 *
 * @throws `out_of_range`, also where the particle's Reynolds number would exceed 800.
 *
 * @example
 * ```ts
 * import { settlingVelocity } from 'motescale/sampling';
 * // a steel particle of 14 µm in ISO VG 46 at 40 °C: 19 µm/s, a metre in 15 hours
 * settlingVelocity({ size: 14, particleKgPerM3: 7850, fluid: { mm2PerS: 46, kgPerM3: 870 } }) * 1e6; // ~> 18.6
 * ```
 */
export function settlingVelocity(particle: Particle): number {
  const members = ['size', 'particleKgPerM3', 'fluid'];
  requireObject(particle, 'particle', 'a particle { size, particleKgPerM3, fluid }', members);
  return settlingAt(particle, 'particle');
}

/** The same of anything that holds a particle; errors name its members under `path`. */
export function settlingAt(particle: Particle, path: string): number {
  const diameter = requireWithin(particle.size, `${path}.size`, 0.01, 1e5) / 1e6;
  const density = requireWithin(particle.particleKgPerM3, `${path}.particleKgPerM3`, 0, 25000);
  const liquid = requireLiquid(particle.fluid, `${path}.fluid`, anyDensity);
  const excess = density / liquid.density - 1;
  // the Reynolds number that Stokes's law alone would give, a 18th of the Archimedes number
  const stokes =
    (gravity * Math.abs(excess) * diameter * diameter * diameter) / (18 * liquid.kinematic * liquid.kinematic);
  const speed = (reynoldsFrom(stokes, particle.size, `${path}.size`) * liquid.kinematic) / diameter;
  return excess < 0 ? -speed : speed;
}

/** Settling asks for no oil: published figures are of water, air and gas under pressure. */
const anyDensity = (kgPerM3: unknown, parameter: string) => requireWithin(kgPerM3, parameter, 1, 20000);

const stokesEnds = 0.2;
const dragBegins = 0.3;
const dragEnds = 800;

/** The Reynolds number at which drag, Re x correction, balances weight. */
function reynoldsFrom(stokes: number, size: number, parameter: string): number {
  if (stokes <= stokesEnds) return stokes;
  if (stokes > dragEnds * correction(dragEnds))
    throw motescaleError('out_of_range', parameter, size, `a particle whose Reynolds number stays below ${dragEnds}`);
  return findRoot((reynolds) => reynolds * correction(reynolds) - stokes, stokesEnds, dragEnds, parameter);
}

/** Drag over the drag of Stokes. */
function correction(reynolds: number): number {
  const share = Math.min(Math.max((reynolds - stokesEnds) / (dragBegins - stokesEnds), 0), 1);
  return 1 + share * 0.15 * power(reynolds, 0.687);
}

/** The pressure one tube takes: friction on its wall, its fittings, its rise. */
import { factorBounds, regimeAt } from './frictionFactor.ts';
import { gravity, type Liquid, type Tube } from './line.ts';

/** What a tube asks for in Pa: the most and the least it can lose to friction, its fittings, its rise. */
export function dropOf(
  tube: Tube,
  flow: number,
  liquid: Liquid,
): { friction: number; frictionLow: number; fittings: number; rise: number } {
  const velocity = flow / tube.area;
  const head = (liquid.density * velocity * velocity) / 2;
  const reynolds = reynoldsOf(tube, flow, liquid);
  // k1 / Re times the head, written out: exactly zero without flow
  const bends = tube.k * head + (tube.k1 * liquid.kinematic * liquid.density * velocity) / (2 * tube.bore);
  const fittings = bends + tube.strainer * flow * liquid.kinematic;
  const rise = riseOf(tube, liquid);
  // 64 / Re times the head, written out: exactly zero without flow
  const laminar = (32 * liquid.kinematic * liquid.density * velocity * tube.metres) / (tube.bore * tube.bore);
  if (reynolds < 2000) return { friction: laminar, frictionLow: laminar, fittings, rise };
  const friction = (factorBounds(reynolds, tube.relativeRoughness).high * tube.metres * head) / tube.bore;
  return { friction, frictionLow: reynolds > 4000 ? friction : laminar, fittings, rise };
}

/** Whether fittings take more than is computed: only their turbulent part was given, and the flow is not turbulent. */
export function takesMore(tube: Tube, flow: number, liquid: Liquid): boolean {
  return tube.turbulentOnly && flow > 0 && regimeAt(reynoldsOf(tube, flow, liquid)) !== 'turbulent';
}

/** What the rise of a tube takes, Pa, with flow or without. */
export function riseOf(tube: Tube, liquid: Liquid): number {
  return liquid.density * gravity * tube.rise;
}

/** The Reynolds number in a tube at a flow in m³/s. */
export function reynoldsOf(tube: Tube, flow: number, liquid: Liquid): number {
  return ((flow / tube.area) * tube.bore) / liquid.kinematic;
}

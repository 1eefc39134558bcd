/** How much oil gets to each place of a line: it is pushed there, and where no pressure is left its column tears. */
import { findRoot } from '../../numeric/root.ts';
import { broken, type HighPoint, lowestBefore, type Taken, totalOf } from './highPoint.ts';
import type { Liquid, Tube } from './line.ts';
import { dropOf } from './pressureDrop.ts';

/**
 * What a flow that the pressure drives through a full line, m³/s, is held to where the line tears: the greatest that
 * leaves no place before the end with less than no pressure. What falls from there on runs partly empty.
 */
export function reached(
  tubes: readonly Tube[],
  flow: number,
  liquid: Liquid,
  low: boolean,
  startKPa: number,
  endKPa: number,
): { readonly flow: number; readonly highPoint: HighPoint | null } {
  const full = highPointIn(takenBy(tubes, flow, liquid, low), endKPa);
  if (full === null || full.kPa > 0) return { flow, highPoint: full };
  const lowest = (at: number) => {
    const taken = takenBy(tubes, at, liquid, low);
    const end = startKPa - totalOf(taken) / 1000;
    return highPointIn(taken, end) ?? { segment: full.segment, kPa: end };
  };
  const still = lowest(0);
  if (still.kPa <= 0) throw broken(still);
  const held = lowest(flow).kPa >= 0 ? flow : findRoot((at) => lowest(at).kPa, 0, flow);
  return { flow: held, highPoint: { segment: lowest(held).segment, kPa: 0 } };
}

/** Where less pressure is than at the end. */
function highPointIn(taken: readonly Taken[], endKPa: number): HighPoint | null {
  const lowest = lowestBefore(taken, 0);
  return lowest === null ? null : { segment: lowest.segment, kPa: endKPa - lowest.below / 1000 };
}

/** What each tube takes; with the least friction there can be, or the most. */
export function takenBy(tubes: readonly Tube[], flow: number, liquid: Liquid, low: boolean): Taken[] {
  return tubes.map((tube) => {
    const { friction, frictionLow, fittings, rise } = dropOf(tube, flow, liquid);
    return { friction: low ? frictionLow : friction, fittings, rise };
  });
}

/** Turnovers: how many times the volume of the tank has gone through the filter, and what that leaves. */
import { requireNonNegative, requireObject } from '../checks.ts';
import { exp } from '../numeric/exponential.ts';
import { passEfficiency, requireBetaOrPerfect } from './beta.ts';
import { checkLoop, tankMembers } from './tank.ts';

/** A volume and the flow through its filter. */
export interface Loop {
  /** Oil in the tank and the loop, L. */
  readonly litres: number;
  /** Flow through the filter, L/min. */
  readonly litresPerMin: number;
}

/**
 * How many times the volume goes through the filter in some minutes: flow x time / volume.
 *
 * @throws `out_of_range` for a volume or flow of 0; `negative`.
 *
 * @example
 * ```ts
 * import { turnovers } from 'motescale/filtration';
 * turnovers({ litres: 400, litresPerMin: 40 }, 60); // => 6
 * ```
 */
export function turnovers(loop: Loop, minutes: number): number {
  const time = requireNonNegative(minutes, 'minutes', 'minutes of filtering, 0 or more');
  const { litres, litresPerMin } = requireLoop(loop);
  return (time * litresPerMin) / litres;
}

/**
 * Minutes until the volume has gone through the filter so many times: turnovers x volume / flow.
 *
 * Seven turnovers are a rule of the trade for "once filtered" (common practice): by then a perfect filter has left 0.09
 * %.
 *
 * @throws `out_of_range` for a volume or flow of 0; `negative`.
 *
 * @example
 * ```ts
 * import { timeForTurnovers } from 'motescale/filtration';
 * timeForTurnovers({ litres: 30, litresPerMin: 5 }, 7); // => 42
 * ```
 */
export function timeForTurnovers(loop: Loop, count: number): number {
  const times = requireNonNegative(count, 'count', 'a number of turnovers, 0 or more');
  const { litres, litresPerMin } = requireLoop(loop);
  return (times * litres) / litresPerMin;
}

/**
 * The share of the particles of a size that is still in the tank after so many turnovers, where none come in:
 * exp(-turnovers (1 - 1/beta)).
 *
 * Assumes one well-mixed volume. Even a perfect filter leaves 37 % after one turnover, since it meets oil it has
 * cleaned before. Source: CDC (1994), MMWR 43 (RR-13), table S3-1.
 *
 * @throws `negative`; `out_of_range` for a ratio below 1.
 *
 * @example
 * ```ts
 * import { shareRemaining } from 'motescale/filtration';
 * shareRemaining(7, 200) * 100; // ~> 0.09
 * ```
 */
export function shareRemaining(count: number, beta: number): number {
  const times = requireNonNegative(count, 'count', 'a number of turnovers, 0 or more');
  return exp(-times * passEfficiency(requireBetaOrPerfect(beta, 'beta')));
}

function requireLoop(loop: Loop): Loop {
  requireObject(loop, 'loop', 'a loop { litres, litresPerMin }', tankMembers);
  return checkLoop(loop, 'loop');
}

/**
 * How a tank gets clean: the count after a time, where it ends, and when it gets there, at one size.
 *
 * All of it assumes one well-mixed volume, a constant flow, filtration ratio and ingression, and a filter that draws
 * from the tank and returns to it. A real tank has dead corners and takes longer: CDC (1994) allows rooms up to ten
 * times the time of perfect mixing. Take a sample before you rely on the figure; whether a machine may run is decided
 * by the sample, not by this.
 */
import { requireNonNegative, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp } from '../numeric/exponential.ts';
import { log1p } from '../numeric/logarithm.ts';
import { tellable } from './beta.ts';
import { limitOf, settlesBelow } from './settling.ts';
import { checkTank, cleaningRate, risingRate, shareLeft, type Tank } from './tank.ts';

/**
 * The count in the tank after some minutes of filtering, per mL: C(t) = Cs + (C0 - Cs) exp(-kt), with k = flow x
 * efficiency / volume and Cs the steady state; with beta 1, C0 + g t with g = ingression / volume.
 *
 * Assumes one well-mixed volume, and flow, filtration ratio and ingression that stay as they are. The ratio at a size
 * holds for the whole run only while the mix of larger sizes stays alike. Accuracy of the arithmetic: 1e-15 (2 + kt)
 * relative; after a long time it is `steadyState` to the last digit.
 *
 * Sources: without ingression, CDC (1994), MMWR 43 (RR-13), table S3-1; with it, mass balance.
 *
 * @throws `negative`, `out_of_range` (a volume or flow of 0, a ratio below 1).
 *
 * @example
 * ```ts
 * import { cleanUp } from 'motescale/filtration';
 * const tank = { litres: 400, litresPerMin: 40, beta: 200, perMl: 5000, ingressionPerMin: 2000000 };
 * cleanUp(tank, 0); // => 5000
 * cleanUp(tank, 30); // ~> 300.41
 * ```
 */
export function cleanUp(tank: Tank, minutes: number): number {
  return countAfter(checkTank(tank), requireNonNegative(minutes, 'minutes', 'minutes of filtering, 0 or more'));
}

/**
 * The count at which what comes in equals what the filter takes, per mL: ingression / (flow x efficiency). That is in
 * the tank, before the filter; behind it, the count is this over beta.
 *
 * Assumptions as for `cleanUp`. Without ingression 0; with beta 1 besides, the count at the start, since nothing
 * changes it. Source: mass balance.
 *
 * @throws `no_answer` for beta 1 with ingression: the count rises for ever.
 *
 * @example
 * ```ts
 * import { steadyState } from 'motescale/filtration';
 * steadyState({ litres: 400, litresPerMin: 100, beta: 2, perMl: 5000, ingressionPerMin: 1000000 }); // => 20
 * ```
 */
export function steadyState(tank: Tank): number {
  return settledCount(checkTank(tank), 'tank.beta');
}

/**
 * Minutes of filtering until the tank holds `perMl` particles per mL or fewer. 0 where it does from the start. Null
 * where it never will: the target lies at or below the steady state, or is 0. A target within 1e-12 of the steady
 * state, as a share, is the steady state.
 *
 * It asks when, not for how long: oil that starts cleaner than its steady state gets dirtier. Ask `steadyState` what
 * can be held. Assumptions as for `cleanUp`: reality takes longer. Sources: CDC (1994), MMWR 43 (RR-13), table S3-1;
 * with ingression, mass balance: t = ln((C0 - Cs) / (Ct - Cs)) / k.
 *
 * @throws `negative`, `out_of_range`.
 *
 * @example
 * ```ts
 * import { timeToReach } from 'motescale/filtration';
 * const tank = { litres: 400, litresPerMin: 40, beta: 200, perMl: 5000, ingressionPerMin: 2000000 };
 * timeToReach(tank, 320); // ~> 29.24
 * timeToReach(tank, 40); // => null
 * ```
 */
export function timeToReach(tank: Tank, perMl: number): number | null {
  return minutesTo(checkTank(tank), requireTargetCount(perMl, 'perMl'));
}

/** A count to be reached: 0, or from 1e-60 to 1e60, so that a count over it stays finite. */
export function requireTargetCount(perMl: unknown, parameter: string): number {
  return requireNonNegative(perMl, parameter, tellable) === 0 ? 0 : requirePositive(perMl, parameter, tellable);
}

/** `cleanUp` of a checked tank. */
export function countAfter(tank: Required<Tank>, minutes: number): number {
  const x = cleaningRate(tank) * minutes;
  const fresh = risingRate(tank) * minutes;
  if (x === 0) return tank.perMl + fresh;
  const settled = limitOf(tank);
  if (x >= 1 || settled <= tank.perMl) return settled + (tank.perMl - settled) * exp(-x);
  // far below a high steady state, whose digits would drown those of the count
  return tank.perMl * exp(-x) + fresh * shareLeft(x);
}

/** `steadyState` of a checked tank. */
export function settledCount(tank: Required<Tank>, betaParameter: string): number {
  if (cleaningRate(tank) > 0) return limitOf(tank);
  if (tank.ingressionPerMin === 0) return tank.perMl;
  const expected = 'a filtration ratio, above 1: nothing settles without a filter';
  throw motescaleError('no_answer', betaParameter, tank.beta, expected);
}

/** `timeToReach` of a checked tank. */
export function minutesTo(tank: Required<Tank>, perMl: number): number | null {
  if (tank.perMl <= perMl) return 0;
  if (!settlesBelow(tank, perMl)) return null;
  return log1p((tank.perMl - perMl) / (perMl - limitOf(tank))) / cleaningRate(tank);
}

/**
 * The filter that a target asks for: the filtration ratio, or the flow, to hold a count for good or to reach it within a time.
 *
 * Every answer is the least that does it in a well-mixed tank with constant flow, ratio and ingression; a real tank needs more. Choose the
 * next better filter, and take a sample.
 */
import { requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp, expm1 } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import { passEfficiency } from './beta.ts';
import { checkTank, risingRate, type Tank } from './tank.ts';

/** A tank whose filter is to be chosen. */
export type TankWithoutBeta = Omit<Tank, 'beta'>;

/** A tank whose flow is to be chosen. */
export type TankWithoutFlow = Omit<Tank, 'litresPerMin'>;

/**
 * The least filtration ratio that holds the tank at `perMl` particles per mL, against the ingression. Null where none does: what comes in
 * would need more flow even if nothing passed the filter.
 *
 * Assumptions as for `cleanUp`. Source: mass balance, steady state.
 *
 * @throws `out_of_range` for a target of 0; `no_answer` without ingression, where any filter holds any count in time.
 *
 * @example
 * ```ts
 * import { betaToHold } from 'motescale/filtration';
 * const tank = { litres: 400, litresPerMin: 100, perMl: 5000, ingressionPerMin: 1000000 };
 * betaToHold(tank, 20); // => 2
 * betaToHold(tank, 10); // => null
 * ```
 */
export function betaToHold(tank: TankWithoutBeta, perMl: number): number | null {
  const target = requireTarget(perMl);
  const taken = requireIngression(checkTank({ ...tank, beta: 1 })) / (1000 * tank.litresPerMin * target);
  return taken < 1 ? 1 / (1 - taken) : null;
}

/**
 * The least flow through the filter, L/min, that holds the tank at `perMl` particles per mL, against the ingression. Null for beta 1.
 *
 * Assumptions as for `cleanUp`. Source: mass balance, steady state.
 *
 * @throws `out_of_range` for a target of 0; `no_answer` without ingression.
 *
 * @example
 * ```ts
 * import { flowToHold } from 'motescale/filtration';
 * flowToHold({ litres: 400, beta: 2, perMl: 5000, ingressionPerMin: 1000000 }, 20); // => 100
 * ```
 */
export function flowToHold(tank: TankWithoutFlow, perMl: number): number | null {
  const target = requireTarget(perMl);
  const flow = requireIngression(checkTank({ ...tank, litresPerMin: 1 })) / (1000 * target);
  return tank.beta === 1 ? null : flow / passEfficiency(tank.beta);
}

/**
 * The least filtration ratio that brings the tank to `perMl` particles per mL within `minutes`. 1 where it needs no filter; null where none
 * does it: the flow is too small.
 *
 * Assumptions as for `cleanUp`. Accuracy: 1e-10 relative in efficiency. Source: as `cleanUp`, solved for beta.
 *
 * @throws `out_of_range` for a target or a time of 0.
 *
 * @example
 * ```ts
 * import { betaToReach } from 'motescale/filtration';
 * const tank = { litres: 400, litresPerMin: 40, perMl: 5000 };
 * betaToReach(tank, 640, 30); // ~> 3.18
 * betaToReach(tank, 640, 20); // => null
 * ```
 */
export function betaToReach(tank: TankWithoutBeta, perMl: number, minutes: number): number | null {
  const target = requireTarget(perMl);
  const time = requirePositive(minutes, 'minutes', 'minutes of filtering, above 0');
  const checked = checkTank({ ...tank, beta: 1 });
  const share = cleanedVolumes(checked, target, time) / ((checked.litresPerMin * time) / checked.litres);
  return share < 1 ? 1 / (1 - share) : null;
}

/**
 * The least flow through the filter, L/min, that brings the tank to `perMl` particles per mL within `minutes`. 0 where it needs no filter;
 * null for beta 1 where it does.
 *
 * Assumptions as for `cleanUp`. Accuracy: 1e-10 relative. Source: as `cleanUp`, solved for the flow.
 *
 * @throws `out_of_range` for a target or a time of 0.
 *
 * @example
 * ```ts
 * import { flowToReach } from 'motescale/filtration';
 * flowToReach({ litres: 400, beta: 75, perMl: 5000 }, 640, 30); // ~> 27.78
 * ```
 */
export function flowToReach(tank: TankWithoutFlow, perMl: number, minutes: number): number | null {
  const target = requireTarget(perMl);
  const time = requirePositive(minutes, 'minutes', 'minutes of filtering, above 0');
  const checked = checkTank({ ...tank, litresPerMin: 1 });
  const volumes = cleanedVolumes(checked, target, time);
  if (volumes === 0) return 0;
  return checked.beta === 1 ? null : (volumes * checked.litres) / (time * passEfficiency(checked.beta));
}

/** How many tank volumes must be cleaned wholly within the time: x where C0 exp(-x) + g t (1 - exp(-x)) / x is the target. */
function cleanedVolumes(tank: Required<Tank>, target: number, minutes: number): number {
  const fresh = risingRate(tank) * minutes;
  if (tank.perMl + fresh <= target) return 0;
  const excess = (x: number) => tank.perMl * exp(-x) + (x === 0 ? fresh : fresh * (-expm1(-x) / x)) - target;
  const enough = Math.max(tank.perMl === 0 ? 0 : log((2 * tank.perMl) / target), (2 * fresh) / target) + 1;
  return findRoot(excess, 0, enough, 'perMl');
}

function requireTarget(perMl: unknown): number {
  return requirePositive(perMl, 'perMl', 'a target above 0 particles per mL');
}

function requireIngression(tank: Required<Tank>): number {
  if (tank.ingressionPerMin > 0) return tank.ingressionPerMin;
  throw motescaleError('no_answer', 'tank.ingressionPerMin', 0, 'particles that come in, above 0 per minute');
}

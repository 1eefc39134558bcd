/**
 * The filter that a target asks for: the filtration ratio, or the flow, to hold a count for good or to reach it within
 * a time.
 *
 * Every answer is the least that does it in a well-mixed tank with constant flow, ratio and ingression; a real tank
 * needs more. Choose the next better filter, and take a sample.
 */
import { requireObject, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { passEfficiency } from './beta.ts';
import { cleanedVolumes } from './cleanedVolumes.ts';
import { limitOf } from './settling.ts';
import { checkTank, type Tank, tankMembers } from './tank.ts';

/** A tank whose filter is to be chosen. */
export type TankWithoutBeta = Omit<Tank, 'beta'>;

/** A tank whose flow is to be chosen. */
export type TankWithoutFlow = Omit<Tank, 'litresPerMin'>;

/**
 * The least filtration ratio that holds the tank at `perMl` particles per mL, against the ingression. Null where none
 * does: what comes in would need more flow even if nothing passed the filter.
 *
 * Rounded upwards, so that `steadyState` with it is never above the target. Assumptions as for `cleanUp`. Source: mass
 * balance, steady state.
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
  const checked = completed(tank, 'a tank { litres, litresPerMin, perMl, ingressionPerMin }', { beta: Infinity });
  const carried = requireIngression(checked);
  const filtered = 1000 * checked.litresPerMin * target;
  if (limitOf(checked) >= target || carried >= filtered) return null;
  return enoughToHold(filtered / (filtered - carried), target, (beta) => limitOf({ ...checked, beta }));
}

/**
 * The least flow through the filter, L/min, that holds the tank at `perMl` particles per mL, against the ingression.
 * Null for beta 1.
 *
 * Rounded upwards, so that `steadyState` with it is never above the target. Assumptions as for `cleanUp`. Source: mass
 * balance, steady state.
 *
 * It gives a flow even where no element can take it. The element must be rated for the flow, with the oil as cold as it
 * is to be filtered: else its by-pass valve opens, and of the ratio little is left (`combineFilters`; common practice).
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
  const checked = completed(tank, 'a tank { litres, beta, perMl, ingressionPerMin }', { litresPerMin: 1 });
  requireIngression(checked);
  if (checked.beta === 1) return null;
  // the steady state at 1 L/min, over the target
  return enoughToHold(limitOf(checked) / target, target, (litresPerMin) => limitOf({ ...checked, litresPerMin }));
}

/**
 * The least filtration ratio that brings the tank to `perMl` particles per mL within `minutes`. 1 where it needs no
 * filter; null where none does it: the flow is too small.
 *
 * Assumptions as for `cleanUp`. Accuracy: 1e-13 relative in the efficiency 1 - 1/beta, save that a beta near 1 is a
 * double and so 2e-16 of itself. Source: as `cleanUp`, solved for beta.
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
  const checked = completed(tank, 'a tank { litres, litresPerMin, perMl }', { beta: 1 });
  const share = cleanedVolumes(checked, target, time) / ((checked.litresPerMin * time) / checked.litres);
  return share < 1 ? 1 / (1 - share) : null;
}

/**
 * The least flow through the filter, L/min, that brings the tank to `perMl` particles per mL within `minutes`. 0 where
 * it needs no filter; null for beta 1 where it does.
 *
 * Assumptions as for `cleanUp`. Accuracy: 1e-13 relative, however near the target lies to the start. Source: as
 * `cleanUp`, solved for the flow.
 *
 * It gives a flow even where no element can take it. The element must be rated for the flow, with the oil as cold as it
 * is to be filtered: else its by-pass valve opens, and of the ratio little is left (`combineFilters`; common practice).
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
  const checked = completed(tank, 'a tank { litres, beta, perMl }', { litresPerMin: 1 });
  const volumes = cleanedVolumes(checked, target, time);
  if (volumes === 0) return 0;
  return checked.beta === 1 ? null : (volumes * checked.litres) / (time * passEfficiency(checked.beta));
}

/** The answer, or the next figure above it whose steady state keeps the target; null where rounding leaves none. */
function enoughToHold(answer: number, target: number, settled: (answer: number) => number): number | null {
  let enough = answer;
  let step = 1 / 4503599627370496;
  for (let round = 0; round < 60; round += 1) {
    if (settled(enough) <= target) return enough;
    enough = answer * (1 + step);
    step *= 2;
  }
  return null;
}

function completed(
  tank: TankWithoutBeta | TankWithoutFlow,
  expected: string,
  own: { beta: number } | { litresPerMin: number },
): Required<Tank> {
  requireObject(tank, 'tank', expected, tankMembers);
  return checkTank({ ...tank, ...own } as Tank);
}

function requireTarget(perMl: unknown): number {
  return requirePositive(perMl, 'perMl', 'particles per mL, above 0');
}

function requireIngression(tank: Required<Tank>): number {
  if (tank.ingressionPerMin > 0) return tank.ingressionPerMin;
  throw motescaleError('no_answer', 'tank.ingressionPerMin', 0, 'particles per min, above 0');
}

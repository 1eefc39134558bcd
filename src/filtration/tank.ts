/**
 * A tank with a filter loop: oil is drawn from it, filtered, and returned, while particles come in. The model of all
 * clean-up figures.
 */
import { requireFilledArray, requireNonNegative, requireObject, requirePositive } from '../checks.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import { expm1 } from '../numeric/exponential.ts';
import { passEfficiency, requireBetaOrPerfect, requireNoLower } from './beta.ts';

/** A tank and its filter loop, at one size: particles of that size and larger. */
export interface Tank {
  /** Oil in the tank and the loop, L. */
  readonly litres: number;
  /** Flow through the filter, L/min. */
  readonly litresPerMin: number;
  /** Filtration ratio at this size, 1 or more; `combineFilters` makes one of several. */
  readonly beta: number;
  /** Particles per mL at the start. */
  readonly perMl: number;
  /** Particles that come into the oil per minute: through seals and breathers, from wear. None where left out. */
  readonly ingressionPerMin?: number;
}

/** A tank and its filter loop, at several sizes. */
export interface TankBySize {
  /** Oil in the tank and the loop, L. */
  readonly litres: number;
  /** Flow through the filter, L/min. */
  readonly litresPerMin: number;
  /** Counts at the start. */
  readonly counts: CumulativeCounts;
  /** Filtration ratio at each size of the counts; never lower at a larger size. */
  readonly beta: readonly number[];
  /** Particles of each size and larger that come in per minute; never more at a larger size. None where left out. */
  readonly ingressionPerMin?: readonly number[];
}

/** The members of a tank, of a loop and of a tank at several sizes: the same tank may be handed to all functions. */
export const tankMembers: readonly string[] = ['litres', 'litresPerMin', 'beta', 'perMl', 'counts', 'ingressionPerMin'];

/** Checks a tank and returns it with nothing left out; errors call it by the name of the parameter. */
export function checkTank(tank: Tank, parameter = 'tank'): Required<Tank> {
  requireObject(tank, parameter, 'a tank { litres, litresPerMin, beta, perMl }', tankMembers);
  const ingression = tank.ingressionPerMin ?? 0;
  return {
    ...checkLoop(tank, parameter),
    beta: requireBetaOrPerfect(tank.beta, `${parameter}.beta`),
    perMl: requireNonNegative(tank.perMl, `${parameter}.perMl`, 'particles per mL, 0 or more'),
    ingressionPerMin: requireNonNegative(ingression, `${parameter}.ingressionPerMin`, 'particles per min, 0 or more'),
  };
}

/** The volume and the flow alone, checked. */
export function checkLoop(loop: Pick<Tank, 'litres' | 'litresPerMin'>, parameter: string): typeof loop {
  return {
    litres: requirePositive(loop.litres, `${parameter}.litres`, 'a volume in L, above 0'),
    litresPerMin: requirePositive(loop.litresPerMin, `${parameter}.litresPerMin`, 'a flow in L/min, above 0'),
  };
}

/** Checks a tank at several sizes and returns it as one tank for each. */
export function tanksOf(tank: TankBySize): Required<Tank>[] {
  requireObject(tank, 'tank', 'a tank { litres, litresPerMin, counts, beta }', tankMembers);
  const { sizes, perMl } = checkCounts(tank.counts, 'tank.counts');
  const ingression = tank.ingressionPerMin ?? sizes.map(() => 0);
  requireOnePerSize(tank.beta, sizes.length, 'tank.beta');
  requireOnePerSize(ingression, sizes.length, 'tank.ingressionPerMin');
  return sizes.map((_size, i) => {
    const single = checkTank({
      litres: tank.litres,
      litresPerMin: tank.litresPerMin,
      beta: requireBetaOrPerfect(tank.beta[i], `tank.beta[${i}]`),
      perMl: perMl[i] as number,
      ingressionPerMin: requireNonNegative(ingression[i], `tank.ingressionPerMin[${i}]`),
    });
    requireNoLower(single.beta, tank.beta[i - 1] ?? 1, `tank.beta[${i}]`);
    const ingressionBefore = ingression[i - 1] ?? Infinity;
    if (single.ingressionPerMin > ingressionBefore) {
      const expected = `at most ${ingressionBefore}, what comes in at the smaller size and larger`;
      throw motescaleError('counts_rise_with_size', `tank.ingressionPerMin[${i}]`, single.ingressionPerMin, expected);
    }
    return single;
  });
}

/** How much of the tank is cleaned per minute: flow x efficiency / volume. */
export function cleaningRate(tank: Required<Tank>): number {
  return (tank.litresPerMin * passEfficiency(tank.beta)) / tank.litres;
}

/** How fast ingression alone would raise the count, per mL and minute. */
export function risingRate(tank: Required<Tank>): number {
  return tank.ingressionPerMin / (tank.litres * 1000);
}

/** (1 - exp(-x)) / x: the share of what comes in evenly, while the tank is cleaned x times, that is still in it. */
export function shareLeft(x: number): number {
  return x === 0 ? 1 : -expm1(-x) / x;
}

function requireOnePerSize(list: unknown, length: number, parameter: string): void {
  const { length: actual } = requireFilledArray(list, parameter);
  if (actual !== length)
    throw motescaleError('length_mismatch', parameter, list, `an array of ${length}, one for each size of the counts`);
}

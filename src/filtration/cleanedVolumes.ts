/**
 * How much must be cleaned for a target: the number x of tank volumes that must pass a filter which lets nothing
 * through, within the time.
 *
 * It solves C0 exp(-x) + fresh (1 - exp(-x)) / x = target, where `fresh` is what comes in meanwhile. Near the start the
 * two sides are alike to many digits, so there the equation is written for what is missing, and that is summed at twice
 * the digits.
 */
import { productError, sumError } from '../numeric/exactSum.ts';
import { exp, expm1 } from '../numeric/exponential.ts';
import { log, log1p } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import { risingRate, shareLeft, type Tank } from './tank.ts';

/** The tank volumes to be cleaned; 0 where the target is kept without a filter. Within 1e-14. */
export function cleanedVolumes(tank: Required<Tank>, target: number, minutes: number): number {
  if (tank.ingressionPerMin === 0) return tank.perMl <= target ? 0 : log1p((tank.perMl - target) / target);
  const start = tank.perMl;
  const fresh = risingRate(tank) * minutes;
  const excess = excessOf(tank, target, minutes);
  if (excess <= 0) return 0;
  const enough = Math.max(log((2 * start) / target), (2 * fresh) / target) + 1;
  const taken = (x: number) => -start * expm1(-x) + fresh * shareTaken(x) - excess;
  const left = (x: number) => start * exp(-x) + fresh * shareLeft(x) - target;
  return findRoot(excess < target ? taken : left, 0, enough, 'perMl');
}

/**
 * By how much the count would be above the target without a filter: start + ingression x time / volume - target, with
 * what rounding takes from each product and sum carried along (Ogita, Rump and Oishi, SIAM J. Sci. Comput. 26 (2005)
 * 1955, from memory: Dot2).
 */
function excessOf(tank: Required<Tank>, target: number, minutes: number): number {
  const ml = 1000 * tank.litres;
  const mlRest = productError(1000, tank.litres);
  let sum = 0;
  let rest = 0;
  const add = (a: number, b: number): void => {
    rest += productError(a, b) + sumError(sum, a * b);
    sum += a * b;
  };
  add(ml, tank.perMl);
  add(ml, -target);
  add(tank.ingressionPerMin, minutes);
  add(mlRest, tank.perMl);
  add(mlRest, -target);
  return (sum + rest) / ml;
}

/** 1 - (1 - exp(-x)) / x: the share of what comes in evenly that is taken out again. */
function shareTaken(x: number): number {
  if (x >= 1) return 1 + expm1(-x) / x;
  let sum = 0;
  for (let n = 20; n >= 2; n -= 1) sum = (x / n) * (1 - sum);
  return sum;
}

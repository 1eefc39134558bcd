/**
 * Where a tank settles, and on which side of that a count lies: one number and one comparison behind every "never" and
 * every "for good".
 */
import { cleaningRate, type Tank } from './tank.ts';

/** Nearer to the steady state than this share of itself, a count is there: no rounding tells minutes from never. */
export const sameWithin = 1e-12;

/**
 * The count at which ingression and filter balance: ingression over flow times efficiency, for beta above 1. Written so
 * that figures as they are on a data sheet give the nearest double to the true quotient.
 */
export function limitOf(tank: Required<Tank>): number {
  const { ingressionPerMin, litresPerMin, beta } = tank;
  if (beta === Infinity) return ingressionPerMin / (1000 * litresPerMin);
  return (ingressionPerMin * beta) / (1000 * litresPerMin * (beta - 1));
}

/** Whether the tank ends up below a count, so that it gets there from above in finite time. */
export function settlesBelow(tank: Required<Tank>, perMl: number): boolean {
  if (cleaningRate(tank) === 0) return false;
  return limitOf(tank) < perMl * (1 - sameWithin);
}

/** Whether the tank ends up above a count, so that it leaves it again if it starts below. */
export function settlesAbove(tank: Required<Tank>, perMl: number): boolean {
  if (cleaningRate(tank) === 0) return tank.ingressionPerMin > 0;
  return limitOf(tank) > perMl * (1 + sameWithin);
}

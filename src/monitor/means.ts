/**
 * What the change detector remembers, as a state keeps it: the means of up to 63 blocks as whole numbers of one unit,
 * each in four characters.
 */
import { isPacked, packWhole, wholeAt } from '../state/packed.ts';
import { rules } from '../trend/change/rules.ts';
import type { ChangeState } from '../trend/change/types.ts';
import type { FollowedChange } from './types.ts';

export const meanChars = 4;
/** Units that the largest mean has at most: seven digits. */
const mostUnits = 9999999;
const middle = mostUnits + 1;

/**
 * As it is kept. The unit is a power of ten: the largest mean has its seven digits, and all others as many decimal
 * places.
 */
export function keptChange({ ring, ...rest }: ChangeState): FollowedChange {
  let largest = 0;
  for (const mean of ring) if (mean !== null) largest = Math.max(largest, Math.abs(mean));
  let unit = -18;
  while (unitsOf(largest, unit) > mostUnits) unit += 1;
  let means = '';
  for (const mean of ring) means += packWhole(mean === null ? 0 : unitsOf(mean, unit) + middle, meanChars);
  return { ...rest, unit, means };
}

/** As the detector works on it. */
export function openChange({ unit, means, ...rest }: FollowedChange): ChangeState {
  const ring: (number | null)[] = [];
  for (let i = 0; i < means.length; i += meanChars) {
    const units = wholeAt(means, i, meanChars);
    const power = powerOfTen(Math.abs(unit));
    ring.push(units === 0 ? null : unit < 0 ? (units - middle) / power : (units - middle) * power);
  }
  const { last, since, settled, level, steps } = rest;
  return { last, ring, since, settled, level, steps };
}

/** Whether kept means are whole, and begin and end with a value. */
export function areMeans(means: unknown): means is string {
  if (!isPacked(means, meanChars, rules.ringDays)) return false;
  for (let i = 0; i < means.length; i += meanChars) {
    const units = wholeAt(means, i, meanChars);
    const end = i === 0 || i === means.length - meanChars;
    if (units > middle + mostUnits || (end && units === 0)) return false;
  }
  return true;
}

function unitsOf(mean: number, unit: number): number {
  const power = powerOfTen(Math.abs(unit));
  return Math.floor((unit < 0 ? mean * power : mean / power) + 0.5);
}

function powerOfTen(exponent: number): number {
  let power = 1;
  for (let i = 0; i < exponent; i += 1) power *= 10;
  return power;
}

/** What a reading knows of its scale numbers: the number, a bound of it, or nothing. */
import { isFiniteNumber, requireFinite, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import type { KnownScaleNumber, RollUpBucket } from './types.ts';

const highest = 29;

/** One column of a reading, checked, as a copy. */
export function requireKnown(known: KnownScaleNumber, parameter: string): KnownScaleNumber {
  if (known === null) return null;
  if (typeof known !== 'object') return requireScaleNumber(known, parameter);
  requireObject(known, parameter, undefined, ['atLeast', 'atMost']);
  const { atLeast, atMost } = known as { readonly atLeast?: number; readonly atMost?: number };
  if ((atLeast === undefined) === (atMost === undefined))
    throw motescaleError('wrong_type', parameter, known, 'one of the members atLeast, atMost');
  return atLeast === undefined
    ? { atMost: requireScaleNumber(atMost, `${parameter}.atMost`) }
    : { atLeast: requireScaleNumber(atLeast, `${parameter}.atLeast`) };
}

function requireScaleNumber(value: unknown, parameter: string): number {
  const number = requireFinite(value, parameter);
  if (!isScaleNumber(number))
    throw motescaleError('out_of_range', parameter, number, `a whole number from 0 to ${highest}`);
  return number;
}

function isScaleNumber(value: unknown): boolean {
  return isFiniteNumber(value) && value === Math.floor(value) && value >= 0 && value <= highest;
}

/** Time spent at a scale number, as a bucket holds it. */
export type Spent = RollUpBucket['spent'][number][number];

/** A known number as time spent there; null where nothing is known. */
export function spentAt(known: KnownScaleNumber, ms: number): Spent | null {
  if (known === null) return null;
  if (typeof known === 'number') return { scaleNumber: known, ms };
  return 'atLeast' in known
    ? { scaleNumber: known.atLeast, ms, bound: 'at_least' }
    : { scaleNumber: known.atMost, ms, bound: 'at_most' };
}

const order = ['at_most', undefined, 'at_least'];

/** Ascending by number; of one number at most, exactly, at least. */
export function comesBefore(a: Spent, b: Spent): boolean {
  if (a.scaleNumber !== b.scaleNumber) return a.scaleNumber < b.scaleNumber;
  return order.indexOf(a.bound) < order.indexOf(b.bound);
}

/** Whether a part of a bucket is time spent. */
export function isSpent(part: Spent): boolean {
  const keys = Object.keys(part ?? {});
  for (const key of keys) if (['scaleNumber', 'ms', 'bound'].indexOf(key) < 0) return false;
  return isScaleNumber(part?.scaleNumber) && isFiniteNumber(part.ms) && order.indexOf(part.bound) >= 0;
}

/** Whether a column of a reading in a bucket is what a reading knows. */
export function isKnown(known: KnownScaleNumber): boolean {
  if (known === null || typeof known !== 'object') return known === null || isScaleNumber(known);
  const keys = Object.keys(known);
  const [key] = keys;
  return keys.length === 1 && (key === 'atLeast' || key === 'atMost') && isScaleNumber(known[key as never]);
}

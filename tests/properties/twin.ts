/** What the twins share: figures of the library against decimals of 50 digits over the same doubles. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect } from 'vitest';
import { Exact, exactly } from '../doubles.ts';

/** The value a double holds; a text says the decimal itself. */
export const d = (x: number | string): Decimal => (typeof x === 'string' ? new Exact(x) : exactly(x));

/** The decimal that a double is printed as: what a caller means who writes 0.1. */
export const written = (x: number): Decimal => new Exact(String(x));

export const pi: Decimal = Exact.acos(-1);

/**
 * Evenly over a range. `fc.double` is even over the doubles instead, of which almost all lie near to 0: of 0 to 100 it
 * hardly ever takes one above 1.
 */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.maxSafeNat().map((n) => Math.min(max, min + (max - min) * (n / Number.MAX_SAFE_INTEGER)));

/** From low to high, evenly over orders of magnitude. */
export const spread = (low: number, high: number): fc.Arbitrary<number> =>
  between(Math.log(low), Math.log(high)).map(Math.exp);

/** A number of so many decimals at most, as people write it. */
export const short = (min: number, max: number, decimals: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.ceil(min * 10 ** decimals), max: Math.floor(max * 10 ** decimals) }).map((whole) => {
    return Number(`${whole}e-${decimals}`);
  });

/** The figure within `by` of its twin. */
export function near(found: number, twin: Decimal, by: number): void {
  const off = d(found).minus(twin).abs().toNumber();
  if (!(off <= by)) expect.fail(`${found} is off its twin ${twin.toPrecision(20)} by ${off}, more than ${by}`);
}

/** The figure against its twin, within a share of it. */
export function agrees(found: number, twin: Decimal, relative: number): void {
  near(found, twin, relative * Math.abs(twin.toNumber()));
}

export function sum(list: readonly Decimal[]): Decimal {
  return list.reduce((total, one) => total.plus(one), d(0));
}

/** Doubles under the microscope: neighbours, exact values, distances in units of the last place. */
import { Decimal } from 'decimal.js';

const view = new DataView(new ArrayBuffer(8));

/** Decimal arithmetic at 50 digits over the whole range of doubles. */
export const Exact: typeof Decimal = Decimal.clone({ precision: 50, toExpNeg: -2000, toExpPos: 2000 });

/** The next double above a number of 0 or more. */
export function nextUp(x: number): number {
  view.setFloat64(0, x);
  view.setBigUint64(0, view.getBigUint64(0) + 1n);
  return view.getFloat64(0);
}

/** The next double below a number above 0. */
export function nextDown(x: number): number {
  view.setFloat64(0, x);
  view.setBigUint64(0, view.getBigUint64(0) - 1n);
  return view.getFloat64(0);
}

/** The value a double really holds: `new Decimal(x)` would take its shortest decimal text instead. */
export function exactly(x: number): Decimal {
  view.setFloat64(0, Math.abs(x));
  const bits = view.getBigUint64(0);
  const exponent = Number(bits >> 52n);
  const fraction = bits & ((1n << 52n) - 1n);
  const whole = exponent === 0 ? fraction : fraction | (1n << 52n);
  const value = new Exact(whole.toString()).times(new Exact(2).pow(Math.max(exponent, 1) - 1075));
  return x < 0 ? value.negated() : value;
}

/** How far `actual` lies from the true value, in units of the last place of the double nearest to it. */
export function ulpsOff(actual: number, truth: Decimal): number {
  const nearest = Math.abs(truth.toNumber());
  const ulp = exactly(nextUp(nearest)).minus(exactly(nearest));
  return exactly(actual).minus(truth).abs().dividedBy(ulp).toNumber();
}

/** A fixed stream of numbers from 0 to 1 (Park and Miller 1988): the same inputs on every run. */
export function stream(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/**
 * A root between two points of opposite sign, by Brent's method: it never leaves the bracket and always ends.
 *
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, procedure zero.
 */
import { motescaleError } from '../errors.ts';

const halfUlp = 1 / 9007199254740992;

/** The x between `low` and `high` where `f` changes sign, to the last digit or two of a double. */
export function findRoot(f: (x: number) => number, low: number, high: number, parameter = 'bracket'): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0)
    throw motescaleError('no_answer', parameter, `${low} to ${high}`, 'a span in which the function changes sign');
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let round = 0; round < 300; round += 1) {
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const tolerance = 2 * halfUlp * Math.abs(b);
    const middle = (c - b) / 2;
    if (fb === 0 || Math.abs(middle) <= tolerance) return b;
    if (Math.abs(before) < tolerance || Math.abs(fa) <= Math.abs(fb)) {
      step = middle;
      before = middle;
    } else {
      const guess = interpolate(a, b, c, fa, fb, fc, middle);
      if (2 * guess.p < Math.min(3 * middle * guess.q - Math.abs(tolerance * guess.q), Math.abs(before * guess.q))) {
        before = step;
        step = guess.p / guess.q;
      } else {
        step = middle;
        before = middle;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > tolerance ? step : middle > 0 ? tolerance : -tolerance;
    fb = f(b);
  }
  return b;
}

/** The secant through two points, or the inverse parabola through three, as a fraction p / q with p >= 0. */
function interpolate(
  a: number,
  b: number,
  c: number,
  fa: number,
  fb: number,
  fc: number,
  middle: number,
): { p: number; q: number } {
  const s = fb / fa;
  let p: number;
  let q: number;
  if (a === c) {
    p = 2 * middle * s;
    q = 1 - s;
  } else {
    const t = fa / fc;
    const r = fb / fc;
    p = s * (2 * middle * t * (t - r) - (b - a) * (r - 1));
    q = (t - 1) * (r - 1) * (s - 1);
  }
  return p > 0 ? { p, q: -q } : { p: -p, q };
}

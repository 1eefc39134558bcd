/**
 * Oil that is driven out of a tube by thinner oil, in laminar flow: the thin oil runs through the middle of the thick.
 *
 * Own derivation from Hagen-Poiseuille: two layers round one axis, without mixing, the total flow held. With m = old
 * viscosity over new, a core over the share s of the section carries the share
 *
 *     f(s) = (2s + (m - 2)s²) / (1 + (m - 1)s²)
 *
 * of the flow. Each s moves with the speed f'(s) times the mean; where fast ones would overtake slow ones a front
 * forms, which moves with the greatest f(s) / s. For m = 1 this is f = 1 - (1 - s)², and so F(t) = 1 - (tau / 2t)².
 */
import { findRoot } from '../../numeric/root.ts';

/** Times as multiples of the mean transit time, what is left as a share of the volume. */
export interface Displacement {
  readonly time: number;
  readonly first: number;
  readonly remaining: number;
}

/**
 * Until no more than the share `old` of what leaves is old, at a viscosity ratio `m` above 1: the longest that any
 * ratio from 1 to `m` asks for. Beyond some ratio the formula lets a thread of new oil run through old oil that stands;
 * no count should rest on that.
 */
export function displacement(old: number, m: number): Displacement {
  const time = longestTime(old, m);
  const front = frontShare(m);
  // the share of the section that is old at the outlet then
  const speed = (e: number) => slope(e, m) - 1 / time;
  const e = speed(1 - front) <= 0 ? 1 - front : findRoot(speed, 0, 1 - front);
  const first = front === 0 ? 0.5 : (front * wholeOf(front, m)) / (2 * front + (m - 2) * front * front);
  return { time, first, remaining: e - (time * e * e) / wholeOf(1 - e, m) };
}

/**
 * With e, the share of the section that is old at the outlet, 1 - f(1 - e) = old gives e for a ratio, and 1 / f'(1 - e)
 * = e²(1 - e) / (2 old (e - old)) the time; that is longest at a ratio above 1 where old is below 1/9.
 */
function longestTime(old: number, m: number): number {
  if (old >= 1 / 9) return 0.5 / Math.sqrt(old);
  const atRatio = (old * m) / (old * (m - 1) + Math.sqrt(old * (m - old * (m - 1))));
  const sum = 1 + 3 * old;
  const e = Math.min(atRatio, (sum + Math.sqrt((1 - old) * (1 - 9 * old))) / 4);
  return (e * e * (1 - e)) / (2 * old * (e - old));
}

/** The share of the section behind the front, where f(s) / s is greatest; 0 where no front forms, m up to 2. */
function frontShare(m: number): number {
  if (m <= 2) return 0;
  return (m - 2) / (2 * (m - 1) + Math.sqrt(4 * (m - 1) * (m - 1) + (m - 2) * (m - 2) * (m - 1)));
}

/** 1 + (m - 1)s²: the whole flow, that of old oil alone being 1. */
function wholeOf(s: number, m: number): number {
  return 1 + (m - 1) * s * s;
}

/** f'(1 - e). */
function slope(e: number, m: number): number {
  const whole = wholeOf(1 - e, m);
  return (2 * e) / whole + (2 * (m - 1) * (1 - e) * e * e) / (whole * whole);
}

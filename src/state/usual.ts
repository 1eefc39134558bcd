/** How often something usually comes, as one number that a state can afford, and what follows from it. */
import { day } from './timeSteps.ts';

/**
 * No interval counts as longer, so that a first one over a leap of the clock does not blind the monitor for ever (our
 * choice).
 */
export const longestUsual: number = 40 * day;

/**
 * A leap of the clock teaches as an interval of so long at most, and so much of what is usual outlasts a set-back (our
 * choice).
 */
export const leapTeaches: number = 7 * day;

/**
 * The usual interval after one more. An interval moves it by a quarter of the difference, and counts as at most twice
 * and at least half of it, so that one long gap does not change what is usual. Intervals of 0 are none.
 */
export function usualAfter(usual: number | null, interval: number): number | null {
  if (!(interval > 0)) return usual;
  if (usual === null) return interval;
  const counted = Math.max(usual / 2, Math.min(2 * usual, interval));
  return Math.max(1, Math.floor(usual + (counted - usual) / 4 + 1 / 2));
}

/** Ten usual intervals, at least a day: longer than that is not usual. Endless while it is not known what is usual. */
export function unusualMs(usual: number | null): number {
  return usual === null ? Infinity : Math.max(day, 10 * usual);
}

/**
 * Everything known about the counts of one sample, as differences: count here minus count there is at most so much.
 * From such a system the shortest paths give the sharpest bound on any range, and a contradiction (a cycle that returns
 * less than nothing) proves a class impossible.
 *
 * Source: difference constraints and the Bellman-Ford algorithm, T. Cormen and others, Introduction to Algorithms
 * (2009), section 24.4.
 */
import { type Bound, isSharper, none, plus } from './bound.ts';

/** count(of) - count(minus) is at most `bound`. */
export interface Difference {
  readonly of: number;
  readonly minus: number;
  readonly bound: Bound;
}

/** The place of the count of nothing: beyond every size, always zero. */
export const nothing = 0;

/** The place of the count of a size, of those known in ascending order; null is nothing. */
export function placeOfSize(sizes: readonly number[], size: number | null): number {
  return size === null ? nothing : sizes.indexOf(size) + 1;
}

/** The largest value of count(of) - count(minus), or null if nothing bounds it. */
export function largestDifference(
  places: number,
  differences: readonly Difference[],
  of: number,
  minus: number,
): Bound | null {
  const reach: (Bound | null)[] = [];
  for (let i = 0; i < places; i += 1) reach.push(i === minus ? none : null);
  relax(places, differences, reach);
  return reach[of] as Bound | null;
}

/** Whether any counts satisfy all differences at once. */
export function isPossible(places: number, differences: readonly Difference[]): boolean {
  const reach: (Bound | null)[] = [];
  for (let i = 0; i < places; i += 1) reach.push(none);
  return relax(places, differences, reach);
}

/** Tightens until nothing changes; false if it never settles, which is a contradiction. */
function relax(places: number, differences: readonly Difference[], reach: (Bound | null)[]): boolean {
  for (let round = 0; round <= places; round += 1) {
    let changed = false;
    for (const { of, minus, bound } of differences) {
      const start = reach[minus] as Bound | null;
      if (start === null) continue;
      const found = plus(start, bound);
      const old = reach[of] as Bound | null;
      if (old === null || isSharper(found, old)) {
        reach[of] = found;
        changed = true;
      }
    }
    if (!changed) return true;
  }
  return false;
}

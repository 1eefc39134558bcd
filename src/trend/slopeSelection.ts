/**
 * The slope of a given rank among the slopes of all pairs, in O(n log n) time and O(n) memory: a sample of slopes and
 * then interpolation close in on the rank, each step counting exactly how many slopes lie below; when few enough are
 * left, they are formed and the rank is read off.
 */
import type { NumberList } from '../numeric/lists.ts';
import { selectRank } from '../numeric/selectRank.ts';
import type { KendallCounts } from './kendall.ts';
import { type SortingRoom, sortingRoom } from './slopeMerge.ts';
import { countRoundedUpTo, type SortedAlong, slopeSlack, slopesBetween, sortedOn } from './slopeOrder.ts';
import { sampleSlopes, samplesBetween } from './slopeSample.ts';
import { places, type TrendPoints } from './trendPoints.ts';

/** A slope, and how many pairs have a smaller one; the points sorted along it where that was done. */
interface Cut extends Omit<SortedAlong, 'order'> {
  readonly order?: NumberList;
}

/** From the rank looked for up to `upTo`, `at` gives the slope of each rank. */
interface Stretch {
  readonly upTo: number;
  readonly at: (rank: number) => number;
}

/** Below and above every slope there can be, and between zero and every other. */
const edge = 1e300;
const nextToZero = 1e-300;
/** As near as two cuts come: then the slopes between agree to their last bits. */
const tightest = 1 / 35184372088832;
/** Forming this many slopes costs less than any narrowing. */
const fewSlopes = 131072;

/** What is known while ranks are looked for: every cut counted so far, the first of them in order of time. */
interface Search {
  readonly points: TrendPoints;
  readonly most: number;
  readonly room: SortingRoom;
  readonly sample: readonly number[];
  readonly cuts: Cut[];
}

/**
 * The slopes of these ranks, from 1 for the smallest. `counts` are the counts of all groups together; `most` is how
 * many slopes may be formed at once.
 */
export function slopesOfRanks(
  points: TrendPoints,
  counts: Pick<KendallCounts, 'n' | 'rising' | 'falling' | 'level'>,
  ranks: readonly number[],
  most: number = Math.max(8 * counts.n, fewSlopes),
): number[] {
  const notRising = counts.falling + counts.level;
  const all = notRising + counts.rising;
  const cuts: Cut[] = [
    { slope: -edge, below: 0, order: places(0, points.x.length) },
    { slope: edge, below: all },
  ];
  if (all > most) cuts.push({ slope: 0, below: counts.falling }, { slope: nextToZero, below: notRising });
  const sample = all > most ? sampleSlopes(points) : [];
  const room = sortingRoom(points.x.length);
  const search: Search = { points, most, room, sample, cuts };
  const found: number[] = [];
  let stretch: Stretch | undefined;
  for (const rank of ranks.slice().sort((a, b) => a - b)) {
    if (stretch === undefined || rank > stretch.upTo) stretch = stretchAround(search, rank);
    found[ranks.indexOf(rank)] = stretch.at(rank);
  }
  return ranks.map((rank) => found[ranks.indexOf(rank)] as number);
}

function stretchAround(search: Search, rank: number): Stretch {
  const { points, most, sample, cuts } = search;
  let low = cuts[0] as Cut;
  let high = cuts[1] as Cut;
  for (const cut of cuts) {
    if (cut.below < rank && cut.slope > low.slope) low = cut;
    if (cut.below >= rank && cut.slope < high.slope) high = cut;
  }
  if (low.slope === 0) return { upTo: high.below, at: () => 0 };
  const tight = () => high.slope - low.slope <= tightest * Math.max(Math.abs(low.slope), Math.abs(high.slope));
  for (let round = 0; high.below - low.below > most && !tight(); round += 1) {
    const cut = sortAt(search, nextSlope(round, low, high, rank, most, sample), rank);
    if (cut.below < rank) low = cut;
    else high = cut;
  }
  return formed(search, low, high, rank) ?? formedWider(search, low, high) ?? oneSlope(points, low, high, rank);
}

/** Sorts along a line next to the slope of that rank, from the nearest order there is. */
function sortAt({ points, room, cuts }: Search, slope: number, rank: number): SortedAlong {
  let from = cuts[0] as SortedAlong;
  for (const cut of cuts) {
    if (cut.order !== undefined && Math.abs(cut.below - rank) < Math.abs(from.below - rank)) from = cut as SortedAlong;
  }
  const found = sortedOn(points, from, slope, room);
  cuts.push(found);
  return found;
}

/**
 * Forms the slopes between two cuts. A slope in doubles may lie on the other side of a cut than the true one; so the
 * answer holds only where it lies farther from both cuts than rounding reaches.
 */
function formed(search: Search, low: Cut, high: Cut, rank: number): Stretch | null {
  const { points, most, room } = search;
  const count = high.below - low.below;
  if (count > most) return null;
  const sorted = low.order !== undefined ? low : high.order !== undefined ? high : sortAt(search, low.slope, low.below);
  const from = sorted as SortedAlong;
  const to = from === high ? low.slope : high.slope;
  const slopes = slopesBetween(points, from, to, count, room);
  const at = (sought: number) => selectRank(slopes, sought - low.below);
  const holds = (slope: number) => slope > widened(low.slope, 1) && slope < widened(high.slope, -1);
  if (!holds(at(rank))) return null;
  return { upTo: holds(at(high.below)) ? high.below : rank, at };
}

/** Forms the slopes between two cuts and a little beyond, as far as rounding reaches. */
function formedWider(search: Search, low: Cut, high: Cut): Stretch | null {
  const { points, most, room, cuts } = search;
  const from = sortedOn(points, cuts[0] as SortedAlong, widened(low.slope, -1), room);
  const upTo = widened(high.slope, 1);
  const count = sortedOn(points, from, upTo, room).below - from.below;
  if (count > 2 * most) return null;
  const slopes = slopesBetween(points, from, upTo, count, room);
  return { upTo: high.below, at: (rank) => selectRank(slopes, rank - from.below) };
}

/** More slopes than there is room for, agreeing to their last bits: tries the few doubles between. */
function oneSlope(points: TrendPoints, low: Cut, high: Cut, rank: number): Stretch {
  let below = widened(low.slope, -1);
  let slope = widened(high.slope, 1);
  let upTo = countRoundedUpTo(points, slope);
  for (;;) {
    const middle = below + (slope - below) / 2;
    if (middle === below || middle === slope) return { upTo, at: () => slope };
    const count = countRoundedUpTo(points, middle);
    if (count < rank) {
      below = middle;
    } else {
      slope = middle;
      upTo = count;
    }
  }
}

function widened(slope: number, direction: 1 | -1): number {
  return slope + direction * Math.abs(slope) * slopeSlack;
}

/** Where to cut next: by the sample while it tells much, then by interpolation, at times by halving, so it ends. */
function nextSlope(round: number, low: Cut, high: Cut, rank: number, most: number, sample: readonly number[]): number {
  const count = high.below - low.below;
  const share = (rank - low.below) / count;
  const inside = samplesBetween(sample, low.slope, high.slope);
  const cutHigh = round > 0 && high.below - rank > rank - low.below;
  if (inside.count > 1000 || (inside.count > 0 && round % 8 === 7)) {
    const margin = 2 * Math.sqrt(inside.count * share * (1 - share)) + 1;
    const place = Math.floor(share * inside.count + (cutHigh ? margin : -margin));
    return sample[inside.first + Math.min(Math.max(place, 0), inside.count - 1)] as number;
  }
  if (round % 8 === 6) return halfWay(low.slope, high.slope);
  if (round % 8 === 7) return cutHigh ? widened(low.slope, 1) : widened(high.slope, -1);
  const aside = most / 8 / count;
  const slope = low.slope + (high.slope - low.slope) * (share + (cutHigh ? aside : -aside));
  return slope > low.slope && slope < high.slope ? slope : halfWay(low.slope, high.slope);
}

/** Half way on a logarithmic scale while the two are far apart; both have the same sign, or one is zero. */
function halfWay(low: number, high: number): number {
  const near = Math.max(Math.min(Math.abs(low), Math.abs(high)), nextToZero);
  const far = Math.max(Math.abs(low), Math.abs(high));
  if (far <= 4 * near) return low + (high - low) / 2;
  const size = Math.sqrt(near) * Math.sqrt(far);
  return low < 0 ? -size : size;
}

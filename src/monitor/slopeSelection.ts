/**
 * The slope of a given rank among the slopes of all pairs, in O(n log n) time and O(n) memory: a sample of slopes and then interpolation close
 * in on the rank, each step counting exactly how many slopes lie below; when few enough are left, they are formed and the rank is read off.
 */
import { selectRank } from '../numeric/selectRank.ts';
import type { KendallCounts } from './kendall.ts';
import { countBelow, countRoundedUpTo, slopeSlack, slopesBetween } from './slopeOrder.ts';
import { sampleSlopes, samplesBetween } from './slopeSample.ts';
import type { TrendPoints } from './trendPoints.ts';

/** A slope, and how many pairs have a smaller one. */
interface Cut {
  readonly slope: number;
  readonly below: number;
}

/** The ranks above `after` and up to `upTo` lie in this stretch, and `at` gives the slope of each. */
interface Stretch {
  readonly after: number;
  readonly upTo: number;
  readonly at: (rank: number) => number;
}

/** Below and above every slope there can be, and between zero and every other. */
const edge = 1e300;
const nextToZero = 1e-300;
/** As near as two cuts come: then the slopes between agree to their last bits. */
const tight = 1 / 35184372088832;
/** Forming this many slopes costs less than any narrowing. */
const fewSlopes = 131072;

/** The slopes of these ranks, from 1 for the smallest. `counts` are the counts of all groups together; `room` is how many slopes may be formed at once. */
export function slopesOfRanks(
  points: TrendPoints,
  counts: Pick<KendallCounts, 'n' | 'rising' | 'falling' | 'level'>,
  ranks: readonly number[],
  room: number = Math.max(8 * counts.n, fewSlopes),
): number[] {
  const all = counts.rising + counts.falling + counts.level;
  const sample = all <= room ? [] : sampleSlopes(points);
  let stretch: Stretch | undefined;
  return ranks.map((rank) => {
    if (stretch === undefined || rank <= stretch.after || rank > stretch.upTo) {
      stretch = stretchAround(points, counts, rank, room, sample);
    }
    return stretch.at(rank);
  });
}

function stretchAround(
  points: TrendPoints,
  counts: Pick<KendallCounts, 'rising' | 'falling' | 'level'>,
  rank: number,
  room: number,
  sample: readonly number[],
): Stretch {
  const notRising = counts.falling + counts.level;
  const all = notRising + counts.rising;
  let low: Cut = { slope: -edge, below: 0 };
  let high: Cut = { slope: edge, below: all };
  if (all > room) {
    if (rank <= counts.falling) high = { slope: 0, below: counts.falling };
    else if (rank <= notRising) return { after: counts.falling, upTo: notRising, at: () => 0 };
    else low = { slope: nextToZero, below: notRising };
  }
  for (let round = 0; high.below - low.below > room && !isTight(low, high); round += 1) {
    const slope = nextSlope(round, low, high, rank, room, sample);
    const cut = { slope, below: countBelow(points, slope) };
    if (cut.below < rank) low = cut;
    else high = cut;
  }
  return formed(points, low, high, room) ?? oneSlope(points, low, high, rank);
}

function isTight(low: Cut, high: Cut): boolean {
  return high.slope - low.slope <= tight * Math.max(Math.abs(low.slope), Math.abs(high.slope));
}

/** Forms the slopes between two cuts and a little beyond, since a slope in doubles may lie on the other side of a cut than the true one. */
function formed(points: TrendPoints, low: Cut, high: Cut, room: number): Stretch | null {
  const between = slopesBetween(points, widened(low.slope, -1), widened(high.slope, 1), room + room);
  if (between === null) return null;
  const { below, slopes } = between;
  return { after: low.below, upTo: high.below, at: (rank) => selectRank(slopes, rank - below) };
}

/** More slopes than there is room for, agreeing to their last bits: tries the few doubles between. */
function oneSlope(points: TrendPoints, low: Cut, high: Cut, rank: number): Stretch {
  let below = widened(low.slope, -1);
  let slope = widened(high.slope, 1);
  let after = countRoundedUpTo(points, below);
  let upTo = countRoundedUpTo(points, slope);
  for (;;) {
    const middle = below + (slope - below) / 2;
    if (middle === below || middle === slope) return { after, upTo, at: () => slope };
    const count = countRoundedUpTo(points, middle);
    if (count < rank) {
      below = middle;
      after = count;
    } else {
      slope = middle;
      upTo = count;
    }
  }
}

function widened(slope: number, direction: 1 | -1): number {
  return slope + direction * Math.abs(slope) * slopeSlack;
}

/** Where to cut next: by the sample while it has much to say, then by interpolation, and every few rounds by halving, so that it always ends. */
function nextSlope(round: number, low: Cut, high: Cut, rank: number, room: number, sample: readonly number[]): number {
  const share = (rank - low.below) / (high.below - low.below);
  const inside = samplesBetween(sample, low.slope, high.slope);
  const cutHigh = high.below - rank > rank - low.below;
  if (inside.count > 1000 || (inside.count > 0 && round % 4 === 3)) {
    const margin = 2 * Math.sqrt(inside.count * share * (1 - share)) + 1;
    const place = Math.floor(share * inside.count + (cutHigh ? margin : -margin));
    return sample[inside.first + Math.min(Math.max(place, 0), inside.count - 1)] as number;
  }
  if (round % 4 === 2) return halfWay(low.slope, high.slope);
  if (round % 4 === 3) return cutHigh ? widened(low.slope, 1) : widened(high.slope, -1);
  const aside = room / 3 / (high.below - low.below);
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

/**
 * Which slopes between pairs of points lie below a given one, without forming them all: seen along a direction, a pair
 * whose slope lies below that of the direction changes sides. So sorting by the height above a line of that slope
 * counts them, and sorting once more by a second line finds the pairs between two slopes.
 *
 * Each comparison is exact: where rounding could mislead, the sign is taken from an exact sum. So the counts are exact
 * too.
 *
 * Sources: R. Cole, J. Salowe, W. Steiger, E. Szemeredi, An optimal-time algorithm for slope selection, SIAM J.
 * Comput. 18 (1989) 792 (the idea); J. Matousek, Randomized optimal algorithm for slope selection, Inf. Process. Lett.
 * 39 (1991) 183 (narrowing from samples).
 */
import { exactSumOf, productError, sumError } from '../numeric/exactSum.ts';
import { copyOfIntegers, doubles, type NumberList } from '../numeric/lists.ts';
import { type Heights, type Passed, type SortingRoom, sortByHeight, sortPlaces } from './slopeMerge.ts';
import { places, slopeBetween, type TrendPoints } from './trendPoints.ts';

/** More than a slope (dy/dx in doubles) can be off by rounding, relative: three roundings of 2^-53 each. */
export const slopeSlack: number = 1 / 562949953421312;

/**
 * The places of all points, within each group in order of their height above a line of that slope (on one line: of
 * time), and how many pairs have a smaller slope.
 */
export interface SortedAlong {
  readonly slope: number;
  readonly below: number;
  readonly order: NumberList;
}

/** Sorted along another line, steeper or less steep. The closer the two lines, the quicker. */
export function sortedOn(
  points: TrendPoints,
  from: SortedAlong,
  slope: number,
  room: SortingRoom,
  passed?: Passed,
): SortedAlong {
  const order = copyOfIntegers(from.order);
  const exchanged = sortByHeight(order, points.starts, heightsAlong(points, slope, room), room, passed);
  return { slope, below: from.below + (slope > from.slope ? exchanged : -exchanged), order };
}

/**
 * The slopes between that of the sorted points and another, the lower one included and the higher one not, as doubles
 * give them, in no order; `count` is their number.
 */
export function slopesBetween(
  points: TrendPoints,
  from: SortedAlong,
  to: number,
  count: number,
  room: SortingRoom,
): NumberList {
  const slopes = doubles(count);
  let found = 0;
  sortedOn(points, from, to, room, (left, right) => {
    slopes[found] = slopeBetween(points, left, right);
    found += 1;
  });
  return slopes;
}

/** How many pairs have a slope, as doubles give it, up to and of this one; exact if all differences are. */
export function countRoundedUpTo(points: TrendPoints, slope: number): number {
  const above = (left: number, right: number) => slopeBetween(points, left, right) <= slope;
  return sortPlaces(places(0, points.x.length), above, points.starts);
}

/**
 * The height of each point above a line of that slope, rounded, and more than two heights together can be off; where
 * rounding could mislead, `near` is exact.
 */
function heightsAlong(points: TrendPoints, slope: number, room: SortingRoom): Heights {
  const { x, y } = points;
  const x0 = x[0] as number;
  const y0 = y[0] as number;
  const heights = room.above;
  let widest = 0;
  for (let i = 0; i < heights.length; i += 1) {
    const along = slope * ((x[i] as number) - x0);
    const up = (y[i] as number) - y0;
    heights[i] = up - along;
    widest = Math.max(widest, Math.abs(along) + Math.abs(up));
  }
  const surelyBelow = slope - Math.abs(slope) * slopeSlack;
  const surelyAbove = slope + Math.abs(slope) * slopeSlack;
  const near = (left: number, right: number) => {
    const quotient = slopeBetween(points, left, right);
    const isLater = (x[right] as number) >= (x[left] as number);
    if (quotient < surelyBelow) return isLater;
    if (quotient > surelyAbove) return !isLater;
    const above = rise(x, y, left, right, slope);
    return above < 0 || (above === 0 && right < left);
  };
  return { heights, error: widest * slopeSlack, near };
}

/** dy - slope * dx: the sign is exact. Where dx and dy are close to that slope, the short way loses nothing. */
function rise(x: NumberList, y: NumberList, left: number, right: number, slope: number): number {
  const [x1, y1, x2, y2] = [x[left] as number, y[left] as number, x[right] as number, y[right] as number];
  const dx = x2 - x1;
  const dy = y2 - y1;
  const dxError = sumError(x2, -x1);
  const dyError = sumError(y2, -y1);
  const short = dy - slope * dx - productError(slope, dx);
  if (dxError === 0 && dyError === 0) return short;
  const own = [dyError, dy, -productError(slope, dx), -(slope * dx)];
  return exactSumOf([...own, -productError(slope, dxError), -(slope * dxError)]);
}

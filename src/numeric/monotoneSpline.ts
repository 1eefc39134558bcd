/**
 * Monotone cubic interpolation: the natural spline, its slopes held back where they would overshoot.
 *
 * Sources: natural cubic spline: C. de Boor, A Practical Guide to Splines (1978), chapter IV. Filter: J. M. Hyman,
 * Accurate monotonicity preserving cubic interpolation, SIAM J. Sci. Stat. Comput. 4 (1983) 645, as relaxed by R. L.
 * Dougherty, A. Edelman and J. M. Hyman, Math. Comp. 52 (1989) 471: a slope up to three times the smaller neighbouring
 * chord keeps a cubic monotone.
 */

/** Points with ascending x, and the slope of the curve at each. */
export interface Spline {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly slopes: readonly number[];
}

/** The curve through points with ascending x and monotone y. Two points give a straight line. */
export function monotoneSpline(x: readonly number[], y: readonly number[]): Spline {
  const chords: number[] = [];
  for (let i = 0; i + 1 < x.length; i += 1) chords.push((at(y, i + 1) - at(y, i)) / (at(x, i + 1) - at(x, i)));
  const slopes = naturalSlopes(x, chords);
  for (let i = 0; i < slopes.length; i += 1) {
    const left = at(chords, Math.max(i - 1, 0));
    const right = at(chords, Math.min(i, chords.length - 1));
    slopes[i] = heldBack(at(slopes, i), left, right);
  }
  return { x, y, slopes };
}

/** The curve's height at `position`, within the points. Between two points it may turn by a rounding, no more. */
export function splineAt(spline: Spline, position: number): number {
  const { x, y, slopes } = spline;
  let i = 0;
  while (i + 2 < x.length && position >= at(x, i + 1)) i += 1;
  const width = at(x, i + 1) - at(x, i);
  const rise = at(y, i + 1) - at(y, i);
  const t = (position - at(x, i)) / width;
  const height =
    at(y, i) +
    t * (rise + (1 - t) * ((1 - t) * (at(slopes, i) * width - rise) - t * (at(slopes, i + 1) * width - rise)));
  const low = Math.min(at(y, i), at(y, i + 1));
  const high = Math.max(at(y, i), at(y, i + 1));
  return Math.min(Math.max(height, low), high);
}

/** Slopes at the points of the spline whose second derivative is continuous, and zero at both ends. */
function naturalSlopes(x: readonly number[], chords: readonly number[]): number[] {
  const last = chords.length;
  const diagonal: number[] = [2];
  const right: number[] = [3 * at(chords, 0)];
  for (let i = 1; i <= last; i += 1) {
    const before = at(x, i) - at(x, i - 1);
    const after = i < last ? at(x, i + 1) - at(x, i) : 0;
    // row i: after * slope[i-1] + 2 (before + after) * slope[i] + before * slope[i+1], the end row: slope[last-1] + 2
    // slope[last]
    const lower = i < last ? after : 1;
    const middle = i < last ? 2 * (before + after) : 2;
    const value = i < last ? 3 * (after * at(chords, i - 1) + before * at(chords, i)) : 3 * at(chords, last - 1);
    const above = i === 1 ? 1 : at(x, i - 1) - at(x, i - 2);
    const factor = lower / at(diagonal, i - 1);
    diagonal.push(middle - factor * above);
    right.push(value - factor * at(right, i - 1));
  }
  const slopes: number[] = right.slice();
  for (let i = last; i >= 0; i -= 1) {
    const above = i === 0 ? 1 : at(x, i) - at(x, i - 1);
    const next = i === last ? 0 : above * at(slopes, i + 1);
    slopes[i] = (at(right, i) - next) / at(diagonal, i);
  }
  return slopes;
}

function heldBack(slope: number, left: number, right: number): number {
  if (left > 0 !== right > 0 || left === 0 || right === 0 || slope > 0 !== left > 0) return 0;
  const most = 3 * Math.min(Math.abs(left), Math.abs(right));
  return slope > 0 ? Math.min(slope, most) : Math.max(slope, -most);
}

function at(list: readonly number[], index: number): number {
  return list[index] as number;
}

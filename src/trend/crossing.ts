/**
 * Where the limits of a line meet a level: E. C. Fieller's quadratic, with the dependence of the points in both
 * variances.
 *
 * Source: E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175.
 */

/** A line that rises towards a level, about the mean of the times. */
export interface Approach {
  /** Of the level above the line at the mean of the times, and of the slope towards it. */
  readonly distance: number;
  readonly speed: number;
  readonly speedVariance: number;
  readonly distanceVariance: number;
  /** The last time, from the mean of the times. */
  readonly last: number;
}

/** The limits; where the later one is known, so is the earlier. */
type Limits =
  | { readonly earliest: number | null; readonly latest: null }
  | { readonly earliest: number; readonly latest: number };

/**
 * From when on the upper limit lies at the level, and until when the lower one does not; null for never. Times from
 * the mean of the times.
 */
export function limitsOfCrossing(approach: Approach, reach: number): Limits {
  const { distance, speed, speedVariance, distanceVariance, last } = approach;
  const square = reach * reach;
  // (distance - speed u)^2 = square (distanceVariance + u^2 speedVariance)
  const a = speed * speed - square * speedVariance;
  const b = -speed * distance;
  const c = distance * distance - square * distanceVariance;
  // b^2 - a c with what cancels left out, so that a perfect line has no width
  const apart = distance * distance * speedVariance + speed * speed * distanceVariance;
  const root = reach * Math.sqrt(Math.max(0, apart - square * speedVariance * distanceVariance));
  const upperNow = speed * last + reach * Math.sqrt(distanceVariance + last * last * speedVariance);
  const first = b <= 0 ? c / (-b + root) : (-b - root) / a;
  if (a > 0 && speed > 0) {
    const earliest = upperNow >= distance ? last : Math.max(last, first);
    return { earliest, latest: Math.max(last, (-b + root) / a) };
  }
  return { earliest: upperNow >= distance ? last : first >= last && first < Infinity ? first : null, latest: null };
}

/**
 * The risk that may be spent on the slope where the memory is taken for the longest that the readings may hide. That
 * longest memory carries most of the risk itself, but only as far as there is `room` for it below the strongest
 * memory there can be. Measured: docs/rates.md.
 */
export function riskBesideLongest(risk: number, room: number): number {
  const carried = 4 * room;
  return (risk * (1 + carried)) / (1 + risk * carried);
}

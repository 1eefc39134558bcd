/** The place of a line where its pressure is least: its end, or a point that lies higher. */
import { type MotescaleError, motescaleError } from '../../errors.ts';
import { shown } from '../../numeric/shown.ts';

/**
 * The place before the end of a line, always the end of a segment, that has least pressure, and less than the end has:
 * a crest, where air gathers that belongs vented, or the top of what falls behind a throttle or a strainer, also in a
 * line that falls all the way. Where that pressure is below the tank's, oil gives off air there.
 *
 * Where a limit is set, the place is the one that comes nearest to it, and the limit is asked only from the first
 * segment that rises on. Before that the line lies no higher than its beginning, and a place counts only by how far it
 * is from no pressure.
 */
export interface HighPoint {
  /** The segment at whose end it lies: its place in `segments`, 0 for the first. */
  readonly segment: number;
  /** Absolute pressure there, kPa. Fittings of a segment that falls from it count as standing before it. */
  readonly kPa: number;
}

/** What a segment takes, in Pa or in kPa. */
export interface Taken {
  readonly friction: number;
  readonly fittings: number;
  readonly rise: number;
}

/** A place before the end. */
export interface Lower {
  readonly segment: number;
  /** How far the pressure there lies below that of the end. */
  readonly below: number;
  /** How much less it has above its limit than the end has above `limit`. */
  readonly short: number;
}

/** A shortfall below this share of the pressures that add up is one of rounding. */
const rounding = 1e-12;

/**
 * The place before the end of a line that comes nearest to its limit, if it comes nearer than the end does; else null.
 * The limit is `limit` from the first segment that rises on, where air may gather, and no pressure at all before that.
 * Pressure falls or rises evenly along a tube, so the ends of segments are enough.
 */
export function lowestBefore(segments: readonly Taken[], limit: number): Lower | null {
  let firstRise = 0;
  while (firstRise < segments.length && !((segments[firstRise] as Taken).rise > 0)) firstRise += 1;
  let lowest: Lower | null = null;
  let later = 0;
  let size = 0;
  for (let i = segments.length - 2; i >= 0; i -= 1) {
    const { friction, fittings, rise } = segments[i + 1] as Taken;
    later += friction + fittings + rise;
    size += friction + fittings + Math.abs(rise);
    const high = i >= firstRise;
    const below = (high && rise < 0 ? fittings : 0) - later;
    const short = high ? below : below - limit;
    if (short > rounding * size && (lowest === null || short > lowest.short)) lowest = { segment: i, below, short };
  }
  return lowest;
}

/** All that a line takes. */
export function totalOf(segments: readonly Taken[]): number {
  let total = 0;
  for (const { friction, fittings, rise } of segments) total += friction + fittings + rise;
  return total;
}

/** The error for a place that no pressure is left for. */
export function broken({ segment, kPa }: HighPoint): MotescaleError {
  const expected = 'more than 0 kPa absolute at its end: else the column of oil tears there';
  return motescaleError('no_answer', `line.segments[${segment}]`, Number(shown(kPa)), expected);
}

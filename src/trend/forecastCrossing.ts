/**
 * When a trend will reach a level, between which times that can be trusted, and when nothing can be said.
 */
import { requireObject, requireOneOf, requireWithin } from '../checks.ts';
import { medianOf } from '../numeric/selectRank.ts';
import { medianLimits } from './medianLimits.ts';
import { requireFigure } from './requireNumbers.ts';
import { senSlope } from './senSlope.ts';
import { requireSameLength, requireSeries } from './trendPoints.ts';

/** A forecast. Times are in the unit of the times given. */
export interface Forecast {
  /**
   * `expected`: at `time`. `reached`: the trend line has passed the level already. `never`: the values hold still or move away from it.
   * `not distinguishable`: the readings agree both with a trend towards the level and with none.
   */
  readonly outcome: 'expected' | 'reached' | 'never' | 'not distinguishable';
  /** When the trend line reaches the level; only where it is expected. */
  readonly time: number | null;
  /** Not before this time, with the confidence asked for; null where even that cannot be said or there is nothing to come. */
  readonly earliest: number | null;
  /** Not after this time; null where that cannot be said. */
  readonly latest: number | null;
  /** The trend line at the last time. */
  readonly now: number;
  /** The Sen slope, and its limits, each limit at half the risk. */
  readonly slope: number;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * When values that rise (or fall, with `direction: 'falling'`) will reach `level`, if they go on as they did.
 *
 * The line has the Sen slope and leaves half of the readings above it. `earliest` and `latest` come from the limits of the slope and of that
 * median together, so that the true crossing of a straight trend lies between them with at least the confidence asked for (0.5 to 0.9999;
 * 0.95 where left out), up to the approximation in the limits of `senSlope`.
 *
 * Give continuous scale numbers, rolled up to hours or days: the code's scale number 18 begins where the continuous one passes 17.
 * Assumes a straight trend and independent readings. It foresees no sudden failure: a filter that bursts, a leak, a change of work. It is a
 * help for planning, never a reason to put off an inspection or to keep a machine running past its limits.
 *
 * Range: 8 to 300,000 points. O(n log n) time. Sources: W. J. Conover (1980), 3.2 and 5.5; P. K. Sen (1968).
 *
 * @param times in any unit and order
 * @throws `too_few`, `out_of_range`, `length_mismatch`, `unknown_option`.
 *
 * @example
 * ```ts
 * import { forecastCrossing } from 'motescale/trend';
 * const days = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
 * const rising = [15.0, 15.2, 15.1, 15.3, 15.5, 15.4, 15.6, 15.8, 15.7, 15.9];
 * forecastCrossing(days, rising, { level: 17 }).outcome; // => 'expected'
 * forecastCrossing(days, rising, { level: 17 }).time; // ~> 20.0
 * forecastCrossing(days, rising, { level: 13, direction: 'falling' }).outcome; // => 'never'
 * ```
 */
export function forecastCrossing(
  times: readonly number[],
  values: readonly number[],
  options: { readonly level: number; readonly direction?: 'rising' | 'falling'; readonly confidence?: number },
): Forecast {
  const x = requireSeries(times, 'times', 8);
  const y = requireSeries(values, 'values', 8);
  requireSameLength(x, y);
  requireObject(options, 'options');
  const level = requireFigure(options.level, 'options.level');
  const sign =
    requireOneOf(options.direction ?? 'rising', 'options.direction', ['rising', 'falling']) === 'rising' ? 1 : -1;
  const risk = (1 - requireWithin(options.confidence ?? 0.95, 'options.confidence', 0.5, 0.9999)) / 2;

  const { slope, low, high } = senSlope(x, y, { confidence: 1 - risk });
  const middle = medianOf(x);
  const left = x.map((time, i) => sign * ((y[i] as number) - slope * (time - middle)));
  const centre = medianOf(left);
  const last = x.reduce((latest, time) => Math.max(latest, time), x[0] as number);
  const rate = sign * slope;
  const now = centre + rate * (last - middle);
  const said = { time: null, earliest: null, latest: null, now: sign * now, slope, low, high };

  if (now >= sign * level) return { outcome: 'reached', ...said };
  if (low === null || high === null) return { outcome: 'not distinguishable', ...said };
  const slowest = sign > 0 ? low : -high;
  const fastest = sign > 0 ? high : -low;
  if (fastest < 0 || y.every((value) => value === y[0])) return { outcome: 'never', ...said };
  const limits = medianLimits(left, risk);
  const crossing = (from: number, speed: number) => middle + (sign * level - from) / speed;
  const earliest = fastest === 0 || limits === null ? null : Math.max(last, crossing(limits.high, fastest));
  if (slowest <= 0 || limits === null) return { outcome: 'not distinguishable', ...said, earliest };
  const time = crossing(centre, rate);
  return { outcome: 'expected', ...said, time, earliest, latest: Math.max(time, crossing(limits.low, slowest)) };
}

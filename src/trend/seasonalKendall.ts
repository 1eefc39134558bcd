/**
 * The seasonal Mann-Kendall test and slope: a trend beside a rhythm. Readings are compared only with readings of the
 * same hour of day (or another season), so that a machine that runs dirtier every afternoon is not taken for one that
 * gets dirtier.
 */
import { requireFinite, requireObject, requirePositive, requireShare, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { countPairs } from './kendall.ts';
import { normalChance, standardised } from './kendallChance.ts';
import { medianSlope } from './senSlope.ts';
import { orderPoints, requirePairs } from './trendPoints.ts';

/** What the seasonal test found. */
export interface SeasonalKendall {
  readonly s: number;
  readonly variance: number;
  readonly z: number;
  /** Two-sided, by the normal distribution. */
  readonly p: number;
  /** Change of the value per unit of time: the median over all pairs within a season. */
  readonly slope: number;
  readonly low: number | null;
  readonly high: number | null;
  /** Season by season, where there are readings: a trend that only some hours show is seen here. */
  readonly seasons: readonly { readonly season: number; readonly n: number; readonly s: number; readonly z: number }[];
  /** Each season is taken as independent of the next, and each period of the next: `p` and the limits rest on that. */
  readonly independence: 'assumed';
}

const day = 86400000;

/**
 * Whether values rise or fall with time when each reading is compared only with those of its own season, by default
 * its hour of day in UTC.
 *
 * Times in ms since 1970-01-01T00:00:00Z, in any order; with other `period` and `offset`, in any unit. Where a value is
 * null, its time is left out. Readings of one season in one period (one hour of one day) count as of the same time and
 * form no pair, so what happens within the hour does not weigh in. A local day begins at `offset`: 23 * 3600000 for an
 * hour ahead of UTC.
 *
 * **Not for hourly readings of oil.** It assumes one season independent of the next; where a high morning means a high
 * evening, `p` is too small. Measured without a trend, hourly over 14 and 30 days with 24 seasons (400 series each): p
 * below 0.05 in 20 and 21 % for a correlation of 0.5 from hour to hour, 59 and 62 % for 0.9, 80 and 78 % for 0.97;
 * where each day has a level of its own that scatters as much as its hours, 54 and 56 %. Give `autocorrelatedTrend` the
 * median of each whole day instead: of the same series, with a rhythm of the day, it calls 2 to 6 %. It needs ten days.
 *
 * **For a season of the year** give whole years and a `period` of 364 days: of two years means of four weeks with 13
 * `seasons` (2 to 4 % false where weeks are correlated by 0.5 at most, 7 % for 0.7), of three and five years means of
 * 13 weeks with 4 (2 to 6 % up to 0.8). Beyond a correlation of 0.9 more years do not help: 0.95, 0.97 and 0.98 give
 * 31, 38 and 42 % false for two years, 7, 11 and 15 % for three, 18, 28 and 37 % for five. Means of weeks are too
 * alike: 17 to 20 % for 0.5 (docs/rates.md).
 *
 * Range: 2 to 300,000 points. O(n log n) time, O(n) memory. Source: R. O. Gilbert (1987), 17.2 and 17.4.
 *
 * @throws `too_few` where no season has readings in two periods; `out_of_range`, `length_mismatch`.
 *
 * @example
 * ```ts
 * import { seasonalKendall } from 'motescale/trend';
 * const hour = 3600000;
 * const times = [8, 16, 32, 40, 56, 64].map((hours) => hours * hour);
 * const trend = seasonalKendall(times, [15, 18, 15.1, 18.1, 15.2, 18.2]);
 * trend.s; // => 6
 * trend.slope * 24 * hour; // ~> 0.10
 * ```
 */
export function seasonalKendall(
  times: readonly number[],
  values: readonly (number | null)[],
  options: {
    readonly period?: number | undefined;
    readonly seasons?: number | undefined;
    readonly offset?: number | undefined;
    readonly confidence?: number | undefined;
  } = {},
): SeasonalKendall {
  const { x, y } = requirePairs(times, values, 2);
  requireObject(options, 'options', 'an object', ['period', 'seasons', 'offset', 'confidence']);
  const period = requirePositive(options.period ?? day, 'options.period');
  const seasons = requireSeasons(options.seasons ?? 24);
  const offset = requireFinite(options.offset ?? 0, 'options.offset');
  const confidence = requireShare(options.confidence ?? 0.95, 'options.confidence');
  const cycles = x.map((time) => Math.floor((time - offset) / period));
  const season = x.map((time, i) => seasonOf(time - offset - (cycles[i] as number) * period, period, seasons));
  const points = orderPoints(cycles, y, season);
  const present = distinct(season);
  const groups = present.map((_season, g) => countPairs(points, g));
  const total = { n: 0, rising: 0, falling: 0, level: 0, variance: 0 };
  for (const group of groups) {
    total.n += group.n;
    total.rising += group.rising;
    total.falling += group.falling;
    total.level += group.level;
    total.variance += group.variance;
  }
  if (total.rising + total.falling + total.level === 0) {
    throw motescaleError('too_few', 'times', x.length, 'a season with readings in at least 2 periods');
  }
  const s = total.rising - total.falling;
  const z = standardised(s, total.variance);
  const line = medianSlope(points, total, confidence);
  return {
    s,
    variance: total.variance,
    z,
    p: normalChance(z),
    slope: line.slope / period,
    low: line.low === null ? null : line.low / period,
    high: line.high === null ? null : line.high / period,
    seasons: groups.map((group, g) => {
      const own = group.rising - group.falling;
      return { season: present[g] as number, n: group.n, s: own, z: standardised(own, group.variance) };
    }),
    independence: 'assumed',
  };
}

function requireSeasons(value: unknown): number {
  const count = requireWithin(value, 'options.seasons', 1, 1000);
  if (count !== Math.floor(count)) throw motescaleError('not_an_integer', 'options.seasons', value, 'a whole number');
  return count;
}

function seasonOf(phase: number, period: number, seasons: number): number {
  return Math.min(Math.max(Math.floor((phase * seasons) / period), 0), seasons - 1);
}

/** The different numbers of a list, ascending. */
function distinct(list: readonly number[]): number[] {
  const seen: boolean[] = [];
  for (const number of list) seen[number] = true;
  const result: number[] = [];
  for (let i = 0; i < seen.length; i += 1) if (seen[i] === true) result.push(i);
  return result;
}

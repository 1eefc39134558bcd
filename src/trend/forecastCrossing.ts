/** When a trend will reach a level, between which times that can be trusted, and when nothing can be said. */
import { requireConfidence, requireNonNegative, requireObject, requireOneOf, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { sineAndCosine } from '../numeric/sine.ts';
import { studentLimit } from '../numeric/student.ts';
import { farthest } from '../rules/bounds.ts';
import { type Approach, limitsOfCrossing, riskBesideLongest } from './crossing.ts';
import type { Dependence } from './dependence/dependence.ts';
import { type RobustLine, robustLine, withLongestMemory } from './dependence/robustLine.ts';
import { shapeFlags, type TrendFlag } from './dependence/shapeFlags.ts';
import { countPairs } from './kendall.ts';
import { requireFigure } from './requireNumbers.ts';
import { senSlopeOf } from './senSlope.ts';
import { orderPoints, requireDifferentTimes, requirePairs } from './trendPoints.ts';

/** What is to be known of a forecast beside its times. */
export type ForecastFlag = TrendFlag | 'season_untold' | 'far_beyond';

/** A forecast. Times are in the unit of the times given. */
export interface Forecast {
  /**
   * `expected`: at `time`. `reached`: the trend line has passed the level already. `never`: the values hold still or
   * move away from it.
   * `not_distinguishable`: the readings agree both with a trend towards the level and with none, or do not tell how
   * alike neighbours are.
   */
  readonly outcome: 'expected' | 'reached' | 'never' | 'not_distinguishable';
  /** When the trend line reaches the level; only where it is expected. */
  readonly time: number | null;
  /**
   * Not before this time, with the confidence asked for, if the trend is straight: too late where it accelerates; null
   * where even that cannot be said or there is nothing to come.
   */
  readonly earliest: number | null;
  /** Not after this time; null where that cannot be said. */
  readonly latest: number | null;
  /** The trend line at the last time. */
  readonly now: number;
  /** The Sen slope, and its limits; null where the readings do not tell how alike neighbours are. */
  readonly slope: number;
  readonly low: number | null;
  readonly high: number | null;
  /** As many independent readings would tell as much; null as for the limits. */
  readonly effectiveN: number | null;
  /**
   * `curved`, `late_rise`, `late_fall`: the readings follow no straight line; without them they still may follow none;
   * `season_untold`: they span under 400
   * days and no `season` was given, so that a swing over the year may pass for wear; `far_beyond`: the crossing lies
   * further ahead than the readings reach back.
   */
  readonly flags: readonly ForecastFlag[];
  /**
   * The half-swing over the year whose steepest stretch alone would give this slope. Very large where the readings
   * span about 1.43, 2.46 or 3.47 years, over which a swing makes hardly any slope; null where it makes none.
   */
  readonly yearlyWouldNeed: number | null;
}

const optionNames = ['level', 'direction', 'confidence', 'season', 'unitsPerDay'];
const year = 365.25;
const seasonKnownFrom = 400;
const msPerDay = 86400000;

/**
 * When values that rise (or fall, with `direction: 'falling'`) will reach `level`, if they go on as they did.
 *
 * The line has the Sen slope. `earliest` and `latest` are Fieller's limits, with variances that know how alike
 * neighbours are, as in `autocorrelatedTrend`; `confidence` 0.5 to 0.9999, 0.95 where left out. An end is told where
 * even the longest memory that the readings may hide would give one. Measured at 0.95 (docs/rates.md), for readings
 * whose likeness fades with time and that scatter no further: the true crossing lies within the limits in 95 to 98.7 %.
 * Where an end is given it does so in 92 to 99.2 % for a rise of four standard deviations over the readings. Of a rise
 * so small that an end is given in fewer than 13 % (25 % a year on a scatter of 0.2 over 90 days), in 41 to 88 % or
 * fewer: `latest` is then too early. **Scatter of single readings upon a long memory makes it hold less**: a rise of
 * four standard deviations, a correlation of 0.95 and scatter of half of the variance: in 87, 86, 92 and 99 % for 30,
 * 60, 120 and 365 readings, and where an end is given in 86, 84, 90 and 99 %; scatter of a twentieth: in 93 and 96 %
 * for 120 and 365, and where an end is given in 94 and 97 %. **So does a memory beyond 0.95**: where an end is given 92
 * and 95 % at 0.98 (60 and 120 readings), 89 and 85 % at 0.99, 79 and 72 % at 0.999, 73 % for a level that walks at
 * random (rise 4, steps of 0.2), 55 to 60 % for one that walks under scatter (0.1 and 0.5). Means of weeks of such days
 * hold in 97 to 99 % over half a year and a year, and give an end less often.
 *
 * `season` is a half-swing over the year that the user knows of, in the unit of the values: it widens the limits by
 * what such a swing can do to slope and level. Times are days; where they are not, `unitsPerDay` says so (86400000 for
 * ms). Times that can be no days, beyond 100,000,000, are refused where it is left out.
 *
 * Give continuous scale numbers, rolled up to days or weeks: the code's scale number 18 begins where the continuous
 * one passes 17.
 * Assumes a straight trend. **Where wear accelerates, `earliest` lies after the truth, mostly without a flag**: a rise
 * of four standard deviations with the square of time over 90 readings with a memory of 0.6 in 60 % (in 53 % neither
 * `curved` nor `late_rise`), over 180 in 84 % (60 %); straight ones in 1 %. The earliest of this forecast, of that of
 * the last half and of that of the last third is too late in 2 % of them. So too where dirty days are the missing ones:
 * in 11 to 25 % where four of five above three standard deviations are lost. It foresees no sudden failure: a filter
 * that bursts, a leak, a change of work. It is a help for planning, never a reason to put off an inspection or to keep
 * a machine running past its limits.
 *
 * Range: 8 to 300,000 points; below ten, nothing can be told. O(n log n) time. Sources: E. C. Fieller (1954); P. K.
 * Sen (1968).
 *
 * @param times in days or as `unitsPerDay` says, in any order; about equal steps
 * @param values as many; null where there is none, and its time is left out
 * @throws `too_few`, `out_of_range`, `length_mismatch`, `unknown_option`.
 *
 * @example
 * ```ts
 * import { forecastCrossing } from 'motescale/trend';
 * const days = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
 * const rising = [15.0, 15.2, 15.1, 15.3, 15.5, 15.4, 15.6, 15.8, 15.7, 15.9, 16.1, 16.0];
 * forecastCrossing(days, rising, { level: 17 }).outcome; // => 'expected'
 * forecastCrossing(days, rising, { level: 17 }).time; // ~> 20.0
 * forecastCrossing(days, rising, { level: 17 }).flags; // => ['season_untold']
 * forecastCrossing(days, rising, { level: 13, direction: 'falling' }).outcome; // => 'never'
 * ```
 */
export function forecastCrossing(
  times: readonly number[],
  values: readonly (number | null)[],
  options: {
    readonly level: number;
    readonly direction?: 'rising' | 'falling' | undefined;
    readonly confidence?: number | undefined;
    readonly season?: number | undefined;
    readonly unitsPerDay?: number | undefined;
  },
): Forecast {
  const { x, y } = requirePairs(times, values, 8);
  const asked = requireAsked(options);
  const { level, sign, risk } = asked;
  if (options.unitsPerDay === undefined) requireDays(x);
  requireDifferentTimes(x);

  const points = orderPoints(x, y);
  const line = robustLine(points, senSlopeOf(points, countPairs(points, 0)), 0);
  const { slope, layout, dependence } = line;
  const span = layout.span * layout.spacing;
  const swing = yearlySwing(span, year * asked.unitsPerDay);
  const last = layout.fromMean[layout.n - 1] as number;
  const now = line.centre + slope * last;
  const flags: ForecastFlag[] = shapeFlags(line);
  if (options.season === undefined && span < seasonKnownFrom * asked.unitsPerDay) flags.push('season_untold');
  const yearlyWouldNeed = swing.slope === 0 ? null : Math.abs(slope / swing.slope);
  const told = { now, slope, flags, yearlyWouldNeed };
  const reached = sign * now >= sign * level;
  if (dependence === null) {
    return { outcome: reached ? 'reached' : 'not_distinguishable', ...none, ...told };
  }
  const approach = approachOf(line, asked, swing);
  const reach = studentLimit(risk, line.freedom);
  const half = reach * Math.sqrt(approach.speedVariance);
  const said = { ...none, ...told, low: slope - half, high: slope + half, effectiveN: dependence.effective };
  if (reached) return { outcome: 'reached', ...said };
  const fastest = approach.speed + half;
  if (fastest < 0 || (fastest === 0 && slope === 0)) return { outcome: 'never', ...said };

  const plain = limitsOfCrossing(approach, reach);
  if (plain.latest === null) {
    const earliest = plain.earliest === null ? null : layout.mean + plain.earliest;
    return { outcome: 'not_distinguishable', ...said, earliest };
  }
  const crossing = approach.distance / approach.speed;
  if (crossing - last > span) flags.push('far_beyond');
  const { earliest, latest } = endsToTell(plain, line, asked, swing);
  return {
    outcome: 'expected',
    ...said,
    time: layout.mean + crossing,
    earliest: layout.mean + Math.min(earliest, crossing),
    latest: latest === null ? null : layout.mean + Math.max(latest, crossing),
  };
}

/** No day of a calendar lies beyond: times in ms or s taken for days would give limits as if no year ever passed. */
function requireDays(times: readonly number[]): void {
  const most = farthest / msPerDay;
  for (let i = 0; i < times.length; i += 1) {
    if (Math.abs(times[i] as number) <= most) continue;
    const expected = `days, up to ${most}; milliseconds need unitsPerDay: ${msPerDay}, seconds unitsPerDay: 86400`;
    throw motescaleError('out_of_range', `times[${i}]`, times[i], expected);
  }
}

/** Where nothing can be told. */
const none = { time: null, earliest: null, latest: null, low: null, high: null, effectiveN: null };

/** The question, checked. */
interface Asked {
  readonly level: number;
  /** 1 where values rise to the level, -1 where they fall to it. */
  readonly sign: number;
  readonly risk: number;
  readonly season: number;
  readonly unitsPerDay: number;
}

function requireAsked(options: Parameters<typeof forecastCrossing>[2]): Asked {
  requireObject(options, 'options', undefined, optionNames);
  const level = requireFigure(options.level, 'options.level');
  const direction = requireOneOf(options.direction ?? 'rising', 'options.direction', ['rising', 'falling']);
  return {
    level,
    sign: direction === 'rising' ? 1 : -1,
    risk: 1 - requireConfidence(options.confidence),
    season: requireNonNegative(options.season ?? 0, 'options.season'),
    unitsPerDay: requirePositive(options.unitsPerDay ?? 1, 'options.unitsPerDay'),
  };
}

/** Where an end is told, both limits stand for the longest memory too that the readings may hide. */
function endsToTell(
  plain: { readonly earliest: number; readonly latest: number },
  line: RobustLine,
  asked: Asked,
  swing: Swing,
): { earliest: number; latest: number | null } {
  const longest = withLongestMemory(line);
  // told for the line, and so for its longest memory
  const { room } = longest.dependence as Dependence;
  const risk = riskBesideLongest(asked.risk, room);
  const wide = limitsOfCrossing(approachOf(longest, asked, swing), studentLimit(risk, line.freedom));
  if (wide.latest === null) return { earliest: plain.earliest, latest: null };
  return { earliest: Math.min(plain.earliest, wide.earliest), latest: Math.max(plain.latest, wide.latest) };
}

interface Swing {
  readonly slope: number;
  readonly mean: number;
}

/** What a yearly swing of half-swing 1, whatever part of it, does at most to slope and mean of readings over a span. */
function yearlySwing(span: number, yearLength: number): Swing {
  const w = (2 * Math.PI) / yearLength;
  const h = span / 2;
  const angle = w * h;
  // below, the series: the sine and its chord differ by rounding only
  if (angle < 0.01) return { slope: w * (1 - (angle * angle) / 10), mean: 1 - (angle * angle) / 6 };
  const { sine, cosine } = sineAndCosine(angle);
  return { slope: (3 / (h * angle * angle)) * (sine - angle * cosine), mean: sine / angle };
}

/** The line seen from the level; a season told adds what it can do to slope, mean and value at the crossing. */
function approachOf(line: RobustLine, { sign, level, season }: Asked, swing: Swing): Approach {
  const half = (season * season) / 2;
  return {
    distance: sign * (level - line.centre),
    speed: sign * line.slope,
    speedVariance: line.slopeVariance + half * swing.slope * swing.slope,
    distanceVariance: line.centreVariance + half * (1 + swing.mean * swing.mean),
    last: line.layout.fromMean[line.layout.n - 1] as number,
  };
}

/**
 * Is there a trend beyond what memory and chance make? The honest test for oil, whose neighbouring readings are alike.
 */
import { requireConfidence, requireObject, requireWithin, usualConfidence } from '../checks.ts';
import { studentBeyond, studentLimit } from '../numeric/student.ts';
import { type RobustLine, robustLine } from './dependence/robustLine.ts';
import { shapeFlags, type TrendFlag } from './dependence/shapeFlags.ts';
import { countPairs } from './kendall.ts';
import { senSlopeOf, senSlopeOfFew } from './senSlope.ts';
import { orderPoints, requirePresent } from './trendPoints.ts';

/** What can be told of a trend. What the data cannot tell is null. */
export interface AutocorrelatedTrend {
  /** Blocks with a value. */
  readonly n: number;
  /** Sen slope: change of the value per block. */
  readonly slope: number;
  /** Its limits, with the confidence given. */
  readonly low: number | null;
  readonly high: number | null;
  /** The chance of a slope so far from 0, either way, from memory and chance alone. */
  readonly p: number | null;
  /** Pairs that rise less pairs that fall, and the same over the number of all pairs. */
  readonly s: number;
  readonly tau: number;
  /**
   * The correlation of neighbouring blocks, what the line took away given back and taken for a little higher than it
   * seems.
   */
  readonly correlation: number | null;
  /** The distance of neighbours, in blocks: 1 where few are missing. */
  readonly spacing: number;
  /** As many independent blocks would tell as much. */
  readonly effectiveN: number | null;
  /**
   * `ar1`: alikeness that fades by the same share from block to block; `ar1_with_noise`: the same under scatter of
   * single blocks; `not_told`: too few values, or too few neighbours among them, to tell how alike neighbours are: then
   * nothing can be said.
   */
  readonly dependence: 'ar1' | 'ar1_with_noise' | 'not_told';
  /** `not_distinguishable` from memory and chance. It does not say that there is no trend. */
  readonly verdict: 'rising' | 'falling' | 'not_distinguishable';
  /**
   * `curved`: no straight line; `late_rise`, `late_fall`: something began in the last third that the line does not
   * show.
   */
  readonly flags: readonly TrendFlag[];
}

/**
 * The trend of values in equal blocks of time (days, weeks), a block without a value given as `null`: Sen slope, and
 * limits that know how alike neighbouring blocks are.
 *
 * The correlations of the ranks of what the line leaves are read, what fitting a line takes from them is given back,
 * and a memory that fades (with or without scatter of single blocks) is fitted. The variance of the slope grows
 * accordingly, and Student's t takes as many degrees of freedom as there are effective blocks, less two. The verdict is
 * `p` below 1 - `confidence`.
 *
 * How often it holds, measured on series without a trend (docs/rates.md): where likeness fades by the same share from
 * block to block and nothing else scatters, at most 9 % are called rising or falling at a confidence of 0.95, for n of
 * 30 to 400 and a correlation up to 0.95; for n of 10 to 20 6 to 14 %. **Beyond 0.95 the rate goes on rising**: 8 to
 * 11 % for 0.98 and 0.99, 9 to 16 % for 0.995 and 0.999, 10 to 20 % for a level that walks at random (n of 30, 90 and
 * 365). Nothing in the result shows it: `correlation` cannot exceed 0.99, and of the false ones next to none had an
 * `effectiveN` of 4 or less, which the other series of such a memory mostly have.
 *
 * **With scatter of single blocks upon a long memory it is more**, as few particles a block make it. Memories of 0.95
 * under scatter of 5 to 85 % of the variance: 10 to 23 % for n of 30 and 40, 12 to 18 % for 60, 6 to 12 % for 120 and
 * 200, 1 to 8 % for 400. No option repairs that: `leastCorrelation` of 0.9 calls none, and finds no rise of four
 * standard deviations over 40 or 60 blocks either. A level that walks at random under scatter (steps of 0.1 to 0.3 of
 * it): 10 to 32 % for 30, 28 % for 90, 21 to 39 % for 365. Give means of weeks over half a year and more (2 to 9 %),
 * and believe no trend that a month or two alone show.
 *
 * All that is of one look; of looks every day over a year, nine quiet years in ten show a trend at least once. A swing
 * over the year is not memory: below two years it looks like a trend. With a rhythm of the week and a correlation of
 * 0.9 and more, 91 and 119 days are called a trend in 11 to 28 %: give means of weeks.
 *
 * Give continuous scale numbers, never whole codes or classes. Range: up to 300,000 blocks, at least two values; with
 * fewer than ten, or with hardly any two of them neighbours, it says `not_told`. O(n log n) time. Source: P. K. Sen
 * (1968); the rest is the library's own.
 *
 * @param options `confidence` 0.5 to 0.9999, 0.95 where left out; `leastCorrelation` 0 to 0.99: a correlation of
 * neighbours known to be there, 0 where left out
 * @throws `too_few`, `out_of_range`, `unknown_option` and errors of type.
 *
 * @example
 * ```ts
 * import { autocorrelatedTrend } from 'motescale/trend';
 * const weekly = [15.0, 15.2, 15.1, 15.3, null, 15.4, 15.6, 15.8, 15.7, 15.9, 16.0, 16.2, 16.1];
 * autocorrelatedTrend(weekly).verdict; // => 'rising'
 * autocorrelatedTrend(weekly).slope; // ~> 0.1
 * autocorrelatedTrend([15.0, 15.2, null, null, 15.1]).dependence; // => 'not_told'
 * ```
 */
export function autocorrelatedTrend(
  values: readonly (number | null)[],
  options: { readonly confidence?: number | undefined; readonly leastCorrelation?: number | undefined } = {},
): AutocorrelatedTrend {
  requireObject(options, 'options', undefined, ['confidence', 'leastCorrelation']);
  const risk = 1 - requireConfidence(options.confidence);
  const least = requireWithin(options.leastCorrelation ?? 0, 'options.leastCorrelation', 0, 0.99);
  const { x, y } = requirePresent(values, 2);
  const points = orderPoints(x, y);
  const counts = countPairs(points, 0);
  const line = robustLine(points, senSlopeOf(points, counts), least);
  const n = y.length;
  const s = counts.rising - counts.falling;
  const { slope, dependence } = line;
  const known = { n, slope, s, tau: s / ((n * (n - 1)) / 2), spacing: line.layout.spacing };
  if (dependence === null) {
    const untold = { low: null, high: null, p: null, correlation: null, effectiveN: null };
    return { ...known, ...untold, dependence: 'not_told', verdict: 'not_distinguishable', flags: [] };
  }
  const { low, high, p, verdict } = toldOf(line, risk);
  return {
    ...known,
    low,
    high,
    p,
    correlation: dependence.share * dependence.memory,
    effectiveN: dependence.effective,
    dependence: dependence.share === 1 ? 'ar1' : 'ar1_with_noise',
    verdict,
    flags: shapeFlags(line),
  };
}

/** What matters of a trend to whoever follows it. */
type Told = Pick<AutocorrelatedTrend, 'slope' | 'low' | 'high' | 'p' | 'verdict'>;

/** The same of a few figures at their places, with the usual options: no flags, and not how it was come by. */
export function trendOfFew(places: readonly number[], present: readonly number[]): Told {
  const points = orderPoints(places, present);
  const line = robustLine(points, senSlopeOfFew(points), 0);
  if (line.dependence !== null) return toldOf(line, 1 - usualConfidence);
  return { slope: line.slope, low: null, high: null, p: null, verdict: 'not_distinguishable' };
}

function toldOf(line: RobustLine, risk: number): Told {
  const { slope, slopeVariance, freedom } = line;
  const error = Math.sqrt(slopeVariance);
  const half = error === 0 ? 0 : studentLimit(risk, freedom) * error;
  const p = chanceOf(line);
  const verdict = p >= risk ? 'not_distinguishable' : slope > 0 ? 'rising' : 'falling';
  return { slope, low: slope - half, high: slope + half, p, verdict };
}

/** The chance of a slope so far from 0, either way, from memory and chance alone; the dependence has been told. */
export function chanceOf({ slope, slopeVariance, freedom }: RobustLine): number {
  if (slope === 0) return 1;
  return slopeVariance === 0 ? 0 : studentBeyond(slope / Math.sqrt(slopeVariance), freedom);
}

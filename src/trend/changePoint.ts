/** Since when is it worse? Where a whole series goes from one level to another, or leaves its level. */
import { requireConfidence, requireObject } from '../checks.ts';
import { exp } from '../numeric/exponential.ts';
import type { NumberList } from '../numeric/lists.ts';
import { log } from '../numeric/logarithm.ts';
import { medianOf } from '../numeric/selectRank.ts';
import { studentLimit } from '../numeric/student.ts';
import { addedAt, bestShape, leftBy, pulledIn } from './changeShapes.ts';
import { centredRanks } from './dependence/correlations.ts';
import { dependenceOf } from './dependence/dependence.ts';
import { layoutOf, square, sumOf } from './dependence/layout.ts';
import { requirePresent } from './trendPoints.ts';

/** Where a series changes, as far as it can be told. Places are those of the list given, from 0. */
export interface ChangePoint {
  /** Blocks with a value. */
  readonly n: number;
  /**
   * `step`: from one level to another. `slope`: from a level into a straight rise or fall. `not_distinguishable` from
   * memory and chance; it does not say that nothing has changed.
   */
  readonly kind: 'step' | 'slope' | 'not_distinguishable';
  /** The first block of the new level; of a slope the last of the old one. Null where nothing is told. */
  readonly since: number | null;
  /** Its limits, with the confidence given. */
  readonly earliest: number | null;
  readonly latest: number | null;
  /** The level before; and that after a step, of a slope that at the end. */
  readonly before: number | null;
  readonly after: number | null;
  /** The chance of so much from memory and chance alone; null where they cannot be told. */
  readonly p: number | null;
}

/**
 * Since when values in equal blocks of time (days, weeks) are on another level, or rise or fall, looking back over the
 * whole series; a block without a value is given as `null`.
 *
 * A level with one step, and a level that bends into a slope, are fitted at every place by least squares, wild values
 * pulled in; the better one is told, if the rank test of Pettitt finds a change at all. Its chance and the limits know
 * how alike neighbouring blocks are, as `autocorrelatedTrend` does. The limits hold the places whose fit is hardly
 * worse.
 *
 * How often it is wrong, simulated (docs/rates.md): of series without a change 1 to 5 % are called one for 30 to 730
 * values and a correlation of neighbours up to 0.9, up to 8 % for 0.95, 2 to 7 % for 0.98 to 0.999 and for a level that
 * walks at random. **With scatter of single blocks upon a long memory it is 3 to 23 %**, most in short series; upon a
 * random walk (steps of 0.1 to 0.3 of the scatter) 5 to 24 % of 30, 21 to 29 % of 90, 7 to 23 % of 365 values. Of
 * single readings of few particles 9 to 10 %, and where a second instrument goes on that reads 0.5 higher 17 to 21 %:
 * one instrument a series. The true place lies within the limits for 96 to 100 % of the steps told as one, and for 92
 * to 99 % of the slopes from 60 values and up to a correlation of 0.5; slopes in short series with a longer memory 52
 * to 97 %. It is cautious: of 30 to 120 values without a memory it misses one large step in five to ten, and with a
 * long memory most.
 *
 * It knows one change: dirt that came and went (20 to 60 of 120 days, six standard deviations) is
 * `not_distinguishable`, and of a step on the last tenth of the days it tells one in eight. Cut the series where work
 * was done, and give it whole years or no swing over the year: a swing of one standard deviation is called a change in
 * half of the years of days. A slope that has begun before the first block has its `earliest` at the first. Give
 * continuous scale numbers, never whole codes.
 *
 * Range: up to 300,000 blocks, at least two values; with fewer than ten it tells nothing. From `since` on there are at
 * least five values, and a twentieth of all; before a step as many. O(n log n) time. Sources: A. N. Pettitt, Appl.
 * Stat. 28 (1979) 126; B. E. Hansen, Econometrica 68 (2000) 575 (limits of a step); both from memory; the rest is the
 * library's own.
 *
 * @param options `confidence` 0.5 to 0.9999, 0.95 where left out
 * @throws `too_few`, `out_of_range`, `unknown_option` and errors of type.
 *
 * @example
 * ```ts
 * import { changePoint } from 'motescale/trend';
 * const weeks = Array.from({ length: 40 }, (_week, i) => 15 + (i % 3) / 10 + Math.max(0, i - 20) / 20);
 * const { kind, since, earliest, latest } = changePoint(weeks);
 * kind; // => 'slope'
 * [earliest, since, latest]; // => [18, 20, 21]
 * ```
 */
export function changePoint(
  values: readonly (number | null)[],
  options: { readonly confidence?: number | undefined } = {},
): ChangePoint {
  requireObject(options, 'options', undefined, ['confidence']);
  const confidence = requireConfidence(options.confidence);
  const { x: places, y: present } = requirePresent(values, 2);
  const n = present.length;
  const nothing = { since: null, earliest: null, latest: null, before: null, after: null, p: null };
  const untold: ChangePoint = { n, kind: 'not_distinguishable', ...nothing };
  const least = Math.max(fewestAfter, Math.ceil(n / 20));

  const middle = medianOf(present);
  const series = { times: places, values: present.map((value) => value - middle) };
  const pulled = pulledIn(series, bestShape(series, least));
  const fit = bestShape(pulled, least);
  const left = leftBy(fit, pulled);
  const dependence = dependenceOf(layoutOf(series.times), left);
  // of fewer than ten values, or where most blocks have none, no memory can be told
  if (dependence === null) return untold;
  const most = largestSum(series.values);
  const squares = sumOf(left, square);
  // what leaves nothing has no memory
  const alike = squares === 0 ? 1 : dependence.mean;
  const p = Math.min(1, 2 * exp((-6 * most * most) / (n * n * (n + 1) * alike)));
  if (p >= 1 - confidence) return { ...untold, p };

  const variance = (alike * squares) / (n * (1 - dependence.taken));
  const student = studentLimit(1 - confidence, Math.max(1, dependence.effective - 2));
  const reach = fit.kind === 'step' ? -2 * log(1 - Math.sqrt(confidence)) : student * student;
  let [earliest, latest] = [fit.at, fit.at];
  for (let i = 0; i < n; i += 1) {
    if (!((fit.losses[i] as number) - fit.loss <= reach * variance)) continue;
    earliest = Math.min(earliest, i);
    latest = Math.max(latest, i);
  }
  const before = middle + fit.base;
  return {
    n,
    kind: fit.kind,
    since: places[fit.at] as number,
    earliest: places[earliest] as number,
    latest: places[latest] as number,
    before,
    after: before + addedAt(fit, series.times, n - 1),
    p,
  };
}

/** So many values after a change, at least. */
const fewestAfter = 5;

/** K of Pettitt: the largest sum, over pairs of values before and after a place, of the sign of their difference. */
function largestSum(values: NumberList): number {
  const ranks = centredRanks(values);
  let sum = 0;
  let most = 0;
  for (let i = 0; i < ranks.length; i += 1) {
    sum += 2 * (ranks[i] as number);
    most = Math.max(most, Math.abs(sum));
  }
  return most;
}

/** Buckets of a handy width for a chart, and what a bucket says about the share of time. */
import { requireFinite, requireObject, requireShare, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { day, hour, stepsOfADay } from '../state/timeSteps.ts';
import { isWhole } from './checks.ts';
import { middleOf } from './levels.ts';
import type { RollUpBucket } from './types.ts';

const daysBeyond: readonly number[] = [2 * day, 7 * day, 14 * day, 28 * day];

/**
 * The narrowest handy width, in ms, at which a span of time takes no more than so many buckets: seconds to four weeks,
 * each a whole part of an hour, a day or a week. A span that does not begin with a bucket touches one more.
 *
 * Range: spans from 2 hours to 1 year (366 days), 14 to 10,000 points.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { rollUpWidth } from 'motescale/history';
 * const hour = 3600000;
 * rollUpWidth(2 * hour, 120) === hour / 60; // => true
 * rollUpWidth(365 * 24 * hour, 400) === 24 * hour; // => true
 * ```
 */
export function rollUpWidth(spanMs: number, points: number): number {
  const span = requireWithin(spanMs, 'spanMs', 2 * hour, 366 * day);
  const most = requireWithin(points, 'points', 14, 10000);
  const widths = stepsOfADay.concat(daysBeyond);
  // fourteen buckets of four weeks hold the longest span
  let place = 0;
  while (span > (widths[place] as number) * most) place += 1;
  return widths[place] as number;
}

/**
 * The smallest scale number at or below which a column stood for at least this share of its time in the bucket: 0.95
 * for the number that was exceeded for less than a twentieth of the time. A true quantile of the counts lies within
 * that scale number. A number known only to be at most one counts as that; one known to be at least a number may be any
 * above. The time in which the column was not seen does not count.
 *
 * @throws `no_answer` where no scale number stood in the bucket for any time, or what was only known to be at least a
 * number decides; `out_of_range`.
 *
 * @example
 * ```ts
 * import { rollUp, scaleNumberQuantile } from 'motescale/history';
 * const codes = [16, 16, 16, 19, 16].map((number, i) => ({ time: i * 1000, value: number, scaleNumbers: [number] }));
 * const [bucket] = rollUp(codes, { widthMs: 60000, holdMs: 5000 });
 * if (bucket) scaleNumberQuantile(bucket, 0, 0.75); // => 16
 * if (bucket) scaleNumberQuantile(bucket, 0, 0.95); // => 19
 * ```
 */
export function scaleNumberQuantile(bucket: RollUpBucket, column: number, share: number): number {
  requireObject(bucket, 'bucket');
  requireFinite(column, 'column');
  requireShare(share, 'share');
  if (!isWhole(bucket)) throw motescaleError('bad_state', 'bucket', bucket, 'a bucket of rollUp');
  const list = bucket.spent[column];
  if (list === undefined) throw motescaleError('out_of_range', 'column', column, `below ${bucket.spent.length}`);
  let all = 0;
  for (const { ms } of list) all += ms;
  let passed = 0;
  for (const { scaleNumber, ms, bound } of list) {
    if (bound !== 'at_least') passed += ms;
    if (passed >= share * all) return scaleNumber;
  }
  const expected = 'a bucket in which a scale number stood for some time, and was known for that share of it';
  throw motescaleError('no_answer', 'bucket', all, expected);
}

/**
 * The figure at or below which the figure of a bucket stood for this share of its time: 0.5 for the median, 0.95 for
 * what was exceeded for less than a twentieth of it. The bucket is one of a roll-up with `levels: true`.
 *
 * Each figure is kept to one of 64 levels between two powers of two. So the answer is within 0.8 % (1/128) of the true
 * quantile, and exact for 0 and where the bucket had one figure. It never lies beyond `min` and `max`. Buckets that
 * `mergeRollUps` has joined give the quantiles of all readings together.
 *
 * @param bucket a bucket of `rollUp` or `mergeRollUps`
 * @param share above 0, below 1
 * @throws `no_answer` where the bucket was rolled up without levels, or no figure stood in it for any time;
 * `out_of_range`, `bad_state`, `wrong_type`.
 *
 * @example
 * ```ts
 * import { bucketQuantile, rollUp } from 'motescale/history';
 * const counts = [402, 411, 395, 2600, 408].map((value, i) => ({ time: i * 600000, value }));
 * const [bucket] = rollUp(counts, { widthMs: 3600000, holdMs: 1200000, levels: true });
 * bucket?.mean; // => 952
 * if (bucket) bucketQuantile(bucket, 0.5); // => 402
 * ```
 */
export function bucketQuantile(bucket: RollUpBucket, share: number): number {
  requireObject(bucket, 'bucket');
  requireShare(share, 'share');
  if (!isWhole(bucket)) throw motescaleError('bad_state', 'bucket', bucket, 'a bucket of rollUp');
  const { levels, min, max } = bucket;
  if (levels === undefined)
    throw motescaleError('no_answer', 'bucket.levels', levels, 'a bucket of a roll-up with levels: true');
  let all = 0;
  for (const { ms } of levels) all += ms;
  let passed = 0;
  for (const { level, ms } of levels) {
    passed += ms;
    if (passed >= share * all) return Math.min(Math.max(middleOf(level), min as number), max as number);
  }
  throw motescaleError('no_answer', 'bucket.levels', levels, 'a bucket in which a figure stood for some time');
}

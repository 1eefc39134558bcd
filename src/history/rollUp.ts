/**
 * Rolls irregular readings up into buckets of time, for charts and trends over hours or a year. Each reading stands
 * until the next one comes, but no longer than `holdMs`; what is left open after that is a gap. So a mean weighs time,
 * not how often somebody measured.
 */
import { requireArray } from '../checks.ts';
import { type MotescaleError, motescaleError } from '../errors.ts';
import { addBucket, emptyBucket, finished, type OpenBucket, stand, takeReading } from './bucket.ts';
import { columnsOfAll, requireAsBefore, requireParts, requireReading, sizesOfAll } from './checks.ts';
import { type RollUpSettings, requireSettings, startAt, widthAt } from './settings.ts';
import type { RollUpBucket, RollUpOptions, RollUpReading } from './types.ts';

const mostBuckets = 100000;

/**
 * Rolls readings up. Every bucket from the first reading's to the last one's is there, also where it is empty. What the
 * last reading stands for is left open until the next part is merged: `widthMs - valuedMs - badMs - gapMs` of its
 * bucket is how long (of the first bucket also the time before the first reading). A month whose readings stop five
 * days before its end has a `gapMs` of 0 until the next month begins. Where no next part comes, take what is open for a
 * gap, but for the `holdMs` that the last reading may stand; `coverage` of `periodFigures` tells it up to its `to`.
 *
 * Assumes that a figure holds until the next reading, as for scheduled samples; between readings nothing was seen.
 * A roll-up hides single readings: judge an alarm by the readings, not by a mean.
 *
 * **One list for each unit.** Of readings with one time the last stands until the next time, the others for 0 ms: they
 * count, in `count` and `max`, but not in means and percentiles. So of two units in one list, read at the same times,
 * the means are those of one alone. Roll each up by itself; docs/fleet.md says how to sum them up.
 *
 * Buckets are of one width, or lie between `edges` of the caller's own: the midnights of a place, or the first days of
 * its months.
 *
 * Range: up to 100,000 buckets; readings in order of time, several of one time allowed; figures 0 or of magnitude 1e-60
 * to 1e60.
 *
 * @throws `out_of_range` also for a reading earlier than the one before; `not_an_integer` for times with parts of a ms
 * and for parts of particles; `length_mismatch` where the number of columns, or of sizes counted, changes (a reading
 * without them changes nothing, nor does one whose are left aside). Never for counts that rise with size.
 *
 * @example
 * ```ts
 * import { type RollUpBucket, rollUp } from 'motescale/history';
 * const minute = 60000;
 * const readings = [
 *   { time: 0, value: 16, scaleNumbers: [16] },
 *   { time: 10 * minute, value: 18, scaleNumbers: [18] },
 *   { time: 90 * minute, value: 17, scaleNumbers: [17] },
 * ];
 * const [first, second] = rollUp(readings, { widthMs: 60 * minute, holdMs: 30 * minute });
 * first?.mean; // => 17.5
 * first?.worst; // => [18]
 * first?.gapMs === 20 * minute; // => true
 * second?.count; // => 1
 * const open = ({ widthMs, valuedMs, badMs, gapMs }: RollUpBucket) => widthMs - valuedMs - badMs - gapMs;
 * [first, second].map((bucket) => bucket && open(bucket) / minute); // => [0, 30]
 * ```
 */
export function rollUp(readings: readonly RollUpReading[], options: RollUpOptions): RollUpBucket[] {
  const settings = requireSettings(options);
  requireArray(readings, 'readings', 'an array of readings');
  const buckets: OpenBucket[] = [];
  let last: RollUpReading | undefined;
  let columns = 0;
  let sizes = 0;
  for (let i = 0; i < readings.length; i += 1) {
    const reading = requireReading(readings[i], `readings[${i}]`, last);
    const lengthOf = (list: readonly unknown[] = []) => (reading.quality === 'bad' ? 0 : list.length);
    columns = requireAsBefore(lengthOf(reading.scaleNumbers), columns, 'columns', `readings[${i}].scaleNumbers`);
    sizes = requireAsBefore(lengthOf(reading.counted), sizes, 'sizes', `readings[${i}].counted`);
    const start = startOf(reading.time, settings, `readings[${i}].time`);
    if (last === undefined) buckets.push(bucketAt(start, settings));
    else holdUntil(buckets, last, reading.time, settings);
    takeReading(buckets[buckets.length - 1] as OpenBucket, reading);
    last = reading;
  }
  return buckets.map(finished);
}

/**
 * Joins the roll-ups of two stretches of time, the earlier one first. It is the roll-up of all their readings together,
 * to the last bit, so parts can be joined in any grouping; an empty roll-up changes nothing.
 *
 * The parts may have finer buckets than the options ask for, where each lies within one of theirs: of days, with the
 * first days of months as `edges`, come months; with `[]` as the later part nothing is joined. Coarser buckets cannot
 * be cut.
 *
 * @throws `not_convertible` where a bucket lies in none of those of the options, or had another `holdMs`;
 * `out_of_range` where the later part begins before the earlier one ends, or with more than 100,000 buckets in all;
 * `length_mismatch` where the parts have other numbers of columns; `bad_state` where buckets are missing.
 *
 * @example
 * ```ts
 * import { mergeRollUps, rollUp } from 'motescale/history';
 * const options = { widthMs: 3600000, holdMs: 600000 };
 * const morning = rollUp([{ time: 0, value: 16 }], options);
 * const later = rollUp([{ time: 600000, value: 18 }], options);
 * const hours = mergeRollUps(morning, later, options);
 * hours[0]?.count; // => 2
 * mergeRollUps(hours, [], { widthMs: 86400000, holdMs: 600000 })[0]?.widthMs; // => 86400000
 * ```
 */
export function mergeRollUps(
  earlier: readonly RollUpBucket[],
  later: readonly RollUpBucket[],
  options: RollUpOptions,
): RollUpBucket[] {
  const settings = requireSettings(options);
  requireParts(earlier, 'earlier', settings);
  requireParts(later, 'later', settings);
  return joined(coarser(earlier, settings), coarser(later, settings), settings);
}

function joined(earlier: RollUpBucket[], later: RollUpBucket[], settings: RollUpSettings): RollUpBucket[] {
  if (earlier.length === 0) return later;
  if (later.length === 0) return earlier;
  const end = earlier[earlier.length - 1] as RollUpBucket;
  const last = end.last as RollUpReading;
  const next = later[0] as RollUpBucket;
  const time = next.firstTime as number;
  if (time < last.time) throw motescaleError('out_of_range', 'later', time, `a first reading at ${last.time} or later`);
  requireAsBefore(columnsOfAll(later), columnsOfAll(earlier), 'columns', 'later');
  requireAsBefore(sizesOfAll(later), sizesOfAll(earlier), 'sizes', 'later');
  // the last bucket of the earlier part and the first of the later one belong to the seam
  const room = mostBuckets + 2 - earlier.length - later.length;
  if (room < 1) throw tooMany(settings);
  const open = bucketAt(end.start, settings);
  addBucket(open, end);
  const seam = [open];
  holdUntil(seam, last, time, settings, room);
  addBucket(seam[seam.length - 1] as OpenBucket, next);
  return [...earlier.slice(0, -1), ...seam.map(finished), ...later.slice(1)];
}

/** Lets a reading stand until the next, or as long as it may, and notes the gap then; adds the buckets between. */
function holdUntil(
  buckets: OpenBucket[],
  reading: RollUpReading,
  until: number,
  settings: RollUpSettings,
  room = mostBuckets,
): void {
  const ends = Math.min(until, reading.time + settings.holdMs);
  for (let from = reading.time; ; ) {
    const bucket = buckets[buckets.length - 1] as OpenBucket;
    const bucketEnd = bucket.start + bucket.widthMs;
    const to = Math.min(until, bucketEnd);
    if (ends > from) stand(bucket, reading, Math.min(ends, to) - from);
    if (to > ends) bucket.gapMs += to - Math.max(from, ends);
    if (ends < until && ends >= bucket.start && ends < bucketEnd) bucket.gaps.push({ from: ends, to: until });
    if (until < bucketEnd) return;
    if (buckets.length >= room) throw tooMany(settings);
    buckets.push(bucketAt(bucketEnd, settings));
    from = bucketEnd;
  }
}

/** Edges of the caller's own are no more than there may be buckets. */
function tooMany({ widthMs }: RollUpSettings): MotescaleError {
  return motescaleError('out_of_range', 'options.widthMs', widthMs, `at most ${mostBuckets} buckets in all`);
}

/** The empty bucket that begins there. */
function bucketAt(start: number, settings: RollUpSettings): OpenBucket {
  return emptyBucket(start, widthAt(start, settings), settings.holdMs, settings.levels);
}

/** Where the bucket of a reading begins. */
function startOf(time: number, settings: RollUpSettings, parameter: string): number {
  const start = startAt(time, settings);
  if (start !== null) return start;
  const edges = settings.edges as readonly number[];
  const expected = `a time from ${edges[0]} to below ${edges[edges.length - 1]}, within options.edges`;
  throw motescaleError('out_of_range', parameter, time, expected);
}

/** The buckets of the settings: those that are ones already, and what finer ones make up. */
function coarser(part: readonly RollUpBucket[], settings: RollUpSettings): RollUpBucket[] {
  const buckets: RollUpBucket[] = [];
  let open: OpenBucket | null = null;
  for (const bucket of part) {
    const start = startAt(bucket.start, settings) as number;
    if (open !== null && open.start !== start) {
      buckets.push(finished(open));
      open = null;
    }
    if (bucket.widthMs === widthAt(start, settings)) buckets.push(bucket);
    else {
      open = open ?? bucketAt(start, settings);
      addBucket(open, bucket);
    }
  }
  return open === null ? buckets : [...buckets, finished(open)];
}

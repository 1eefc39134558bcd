/** Counts rolled up size by size, and other figures, for a trend of more readings than a picture can show. */
import {
  isObject,
  requireArray,
  requireFilledArray,
  requireMembers,
  requireNonNegative,
  requireObject,
  requirePositive,
} from '../../checks.ts';
import type { ClassTable } from '../../codes/index.ts';
import { requireSizing } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/index.ts';
import { requireUpperEnd } from '../../counts/ranges.ts';
import { caught, motescaleError } from '../../errors.ts';
import { isWhole } from '../../history/checks.ts';
import { type RollUpBucket, type RollUpOptions, type RollUpReading, rollUp } from '../../history/index.ts';
import { largestFigure } from '../../rules/bounds.ts';
import { type Allowed, isTooMany, tableOr, withReadableCodes } from '../classSteps.ts';
import { measuredAt, measuredQuality, requireMeasured } from '../measured.ts';
import { sizingOf } from '../period/periodFigures.ts';
import { checkReadings, distinct, hasSample, type ReportReading } from '../reportReading.ts';
import { countIn, type SizeRange, tableRanges } from '../sizeRange.ts';
import { requireTime } from '../timeText.ts';
import {
  allowedAt,
  type CodeBucket,
  codeBuckets,
  countedRanges,
  isByCode,
  otherCodesIn,
  otherCountsIn,
  type TooManyBucket,
} from './codeBuckets.ts';

/** The buckets of one size, or of one range of sizes: what `rollUp` makes of its counts per mL. */
export interface SizeBuckets {
  /** µm. */
  readonly size: number;
  /** The upper end of a range, µm; particles of the size and larger where left out. */
  readonly to?: number;
  /** `iso11171` where left out. */
  readonly sizing?: Sizing;
  readonly buckets: readonly RollUpBucket[];
  /** What codes of readings without counts allow, bucket by bucket where one stood; left out without any. */
  readonly codes?: readonly CodeBucket[];
  /** Buckets in which a code said `*`, too many to count; left out without any. */
  readonly tooMany?: readonly TooManyBucket[];
  /** How many readings have a code only, and none of the table; left out without any. */
  readonly otherCodes?: number;
  /** How many readings have counts at none of the sizes that the table judges; left out without any. */
  readonly otherCounts?: number;
}

/** How to roll counts up. */
export type CountBucketOptions = RollUpOptions & {
  /** The standard of the codes of readings without counts, as `trendChart` takes it; ISO 4406 where left out. */
  readonly table?: ClassTable | undefined;
};

/**
 * Rolls readings up size by size, for `trendChart`; of a table of ranges (NAS 1638), range by range. A reading that
 * lacks a size, or has a code only, says nothing of it: the count before stands on, for `holdMs` at most. A bad reading
 * ends it (`badMs`), also one without counts whose counts are called bad or whose code cannot be read, and so does a
 * code that says `*` there; repeated ones, those set aside (`arrival`) and those with neither counts nor code are left
 * out.
 *
 * One list for each unit: of readings with one time the last stands, the others for 0 ms (`rollUp`). Of two units in
 * one list, read at the same times, means are those of one alone; docs/fleet.md says how to sum them up.
 *
 * Of readings with a code and no counts, `codes` has what they allow, and `tooMany` when they said `*`.
 * Without any counts the sizes are those that the table judges. A range needs counts at both its sizes.
 *
 * @param readings with counts or codes, in any order
 * @param options as `rollUp` takes them, and `table`
 * @throws what readings and `rollUp` can throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { countBuckets, trendChart } from 'motescale/report';
 * const counts = [1890, 2100, 2700].map((at4) => cumulativeCounts({ 4: at4, 6: 402 }));
 * const readings = counts.map((at, i) => ({ time: i * 600000, counts: at }));
 * const rolled = countBuckets(readings, { widthMs: 3600000, holdMs: 1200000 });
 * rolled[0]?.buckets[0]?.max; // => 2700
 * (trendChart(rolled).vconcat as unknown[]).length; // => 3
 * ```
 */
export function countBuckets(readings: readonly ReportReading[], options: CountBucketOptions): SizeBuckets[] {
  const { table: given, ...settings } = requireObject(options, 'options') as CountBucketOptions;
  const sizing = checkReadings(readings) ?? sizingOf(given);
  const table = tableOr(given, sizing);
  const inOrder = distinct(withReadableCodes(readings, table).filter(hasSample));
  const coded = inOrder.some(isByCode);
  const otherCodes = otherCodesIn(inOrder, table);
  const otherCounts = otherCountsIn(inOrder, tableRanges(table, sizing));
  const roll = (values: readonly RollUpReading[]) => rolled(values, settings, readings);
  return rangesDrawn(inOrder, tableRanges(table, sizing), coded).map((range) => {
    const { from: size, to } = range;
    const allowed = allowedAt(inOrder, size, table, sizing);
    const counted = inOrder.map(({ time, counts, quality = 'good' }) => ({
      time,
      value: counts === undefined ? null : countIn(counts, range),
      quality,
    }));
    // of `*` there are more than could be counted: the count before does not stand
    const isBeyond = (i: number) => allowed[i] !== null && isTooMany(allowed[i] as Allowed);
    const buckets = roll(counted.filter((at, i) => saysSomething(at) || isBeyond(i)));
    const { codes, tooMany } = codeBuckets(inOrder, allowed, roll);
    const more = { ...(otherCodes > 0 && { otherCodes }), ...(otherCounts > 0 && { otherCounts }) };
    const many = tooMany.length === 0 ? {} : { tooMany };
    return { size, ...(to !== null && { to }), sizing, buckets, ...(codes.length > 0 && { codes }), ...many, ...more };
  });
}

/** Whether a reading has the figure, or calls it bad: one that merely lacks it lets the one before stand. */
function saysSomething({ value, quality }: RollUpReading): boolean {
  return value !== null || quality === 'bad';
}

/** A roll-up of what was made of readings: a time that it refuses is that of a reading as the caller gave it. */
function rolled(
  values: readonly RollUpReading[],
  options: RollUpOptions,
  readings: readonly ReportReading[],
): RollUpBucket[] {
  try {
    return rollUp(values, options);
  } catch (thrown) {
    const error = caught(thrown);
    const place = /^readings\[(\d+)\]\.time$/.exec(error.parameter);
    if (place === null) throw error;
    const { time } = values[Number(place[1])] as RollUpReading;
    const own = readings.map((reading) => (reading.arrival === undefined ? reading.time : null)).indexOf(time);
    throw motescaleError(error.code, `readings[${own}].time`, time, error.expected);
  }
}

/** The buckets of a figure that is no count. */
export interface FigureBuckets {
  /** The word that alarms and events have for it: `celsius`, `other acid number`. */
  readonly figure: string;
  readonly buckets: readonly RollUpBucket[];
}

/**
 * Rolls up what was measured beside the particles, for the `figures` of `trendChart`. Each figure is taken with its own
 * quality, from readings with or without counts. A reading that lacks it lets the one before stand, for `holdMs` at
 * most; one that calls it bad ends it (`badMs`). Repeated readings and those set aside (`arrival`) are left out.
 *
 * @param readings in any order
 * @param figures words of figures: `mlPerMin`, `kPa`, `celsius`, `mm2PerS`, `waterSaturation`, `other` and a name
 * @param options as `rollUp` takes them
 * @throws `unknown_option` for what is no such word; what readings and `rollUp` can throw.
 *
 * @example
 * ```ts
 * import { figureBuckets } from 'motescale/report';
 * const readings = [41, 43, 45].map((celsius, i) => ({ time: i * 600000, celsius }));
 * const rolled = figureBuckets(readings, ['celsius'], { widthMs: 3600000, holdMs: 1200000 });
 * rolled[0]?.buckets[0]?.max; // => 45
 * ```
 */
export function figureBuckets(
  readings: readonly ReportReading[],
  figures: readonly string[],
  options: RollUpOptions,
): FigureBuckets[] {
  checkReadings(readings);
  const inOrder = distinct(readings);
  return requireFilledArray(figures, 'figures').map((word, i) => {
    const figure = requireMeasured(word, `figures[${i}]`);
    const values = inOrder.map((reading) => {
      const at = measuredAt(reading, figure) ?? { value: null, quality: measuredQuality(reading, figure) };
      return { time: reading.time, ...at };
    });
    return { figure, buckets: rolled(values.filter(saysSomething), options, readings) };
  });
}

/**
 * All sizes counted, or the ranges of the table that were; where nothing that it judges was counted, and there are
 * codes or bad readings alone, its own.
 */
function rangesDrawn(
  readings: readonly ReportReading[],
  ranges: readonly SizeRange[],
  coded: boolean,
): readonly SizeRange[] {
  const { judged, counted } = countedRanges(readings, ranges);
  if (judged.length > 0) return ranges.some(({ to }) => to !== null) ? judged : counted;
  const own = coded || (counted.length === 0 && readings.length > 0) ? ranges : [];
  return [...counted, ...own].sort((a, b) => a.from - b.from);
}

/** Whether buckets came, and no readings. */
export function isBuckets(given: unknown): given is readonly SizeBuckets[] {
  return Array.isArray(given) && isObject(given[0]) && Object.keys(given[0]).indexOf('buckets') >= 0;
}

/** Checks what is drawn of buckets; returns their one sizing. */
export function checkBuckets(given: readonly SizeBuckets[]): Sizing {
  const members = ['size', 'to', 'sizing', 'buckets', 'codes', 'tooMany', 'otherCodes', 'otherCounts'];
  const first = requireSizing(given[0]?.sizing ?? 'iso11171', 'readings[0].sizing');
  given.forEach((each, i) => {
    const path = `readings[${i}]`;
    requireMembers(requireObject(each, path, 'buckets { size, buckets }'), path, members);
    requirePositive(each.size, `${path}.size`);
    if (each.to !== undefined) requireUpperEnd(each.to, each.size, `${path}.to`);
    if (requireSizing(each.sizing ?? 'iso11171', `${path}.sizing`) !== first) {
      throw motescaleError('sizing_not_convertible', `${path}.sizing`, each.sizing, `'${first}', as in the first`);
    }
    if (given.some(({ size, to }, k) => k < i && size === each.size && to === each.to)) {
      throw motescaleError('sizes_out_of_order', `${path}.size`, each.size, 'each size once');
    }
    checkEach(each.buckets, `${path}.buckets`, (bucket, at) => checkBucket(bucket, at, 0));
    checkEach(each.codes ?? [], `${path}.codes`, checkCode);
    checkEach(each.tooMany ?? [], `${path}.tooMany`, checkTooMany);
    if (each.otherCodes !== undefined) requireNonNegative(each.otherCodes, `${path}.otherCodes`);
    if (each.otherCounts !== undefined) requireNonNegative(each.otherCounts, `${path}.otherCounts`);
  });
  requireFilledArray(given, 'readings');
  return first;
}

/** Checks the buckets of one figure. */
export function checkFigureBuckets(given: FigureBuckets, path: string): void {
  requireMembers(requireObject(given, path, 'buckets { figure, buckets }'), path, ['figure', 'buckets']);
  requireMeasured(given.figure, `${path}.figure`);
  checkEach(given.buckets, `${path}.buckets`, (bucket, at) => checkBucket(bucket, at, -largestFigure));
}

/** Each element, a hole too. */
function checkEach<T>(list: readonly T[], path: string, check: (one: T, path: string) => void): void {
  requireArray(list, path);
  for (let i = 0; i < list.length; i += 1) check(list[i] as T, `${path}[${i}]`);
}

function checkCode(code: CodeBucket, path: string): void {
  requireObject(code, path, 'a bucket { start, widthMs, low, high }');
  requireMembers(code, path, ['start', 'widthMs', 'low', 'high']);
  checkTime(code, path);
  requireNonNegative(code.low, `${path}.low`);
  if (code.high !== null && requireNonNegative(code.high, `${path}.high`) < code.low)
    throw motescaleError('out_of_range', `${path}.high`, code.high, 'low or more, or null');
}

function checkTooMany(bucket: TooManyBucket, path: string): void {
  requireObject(bucket, path, 'a bucket { start, widthMs }', ['start', 'widthMs']);
  checkTime(bucket, path);
}

function checkTime({ start, widthMs }: TooManyBucket, path: string): void {
  requireTime(start, `${path}.start`);
  requirePositive(widthMs, `${path}.widthMs`);
}

function checkBucket(bucket: RollUpBucket, path: string, leastFigure: number): void {
  requireObject(bucket, path, 'a bucket of rollUp');
  checkTime(bucket, path);
  const { min, max, mean } = bucket;
  const counts = 'counts per mL of 0 or more, least, mean and most in order, or null';
  const expected = leastFigure === 0 ? counts : 'figures, least, mean and most in order, or null';
  const isFigure = (value: unknown) =>
    value === null || (typeof value === 'number' && value >= leastFigure && value <= largestFigure);
  const inOrder = min === null || max === null || (min <= max && (mean === null || (mean >= min && mean <= max)));
  if (![min, max, mean].every(isFigure) || !inOrder) throw motescaleError('out_of_range', path, bucket, expected);
  if (!isWhole(bucket)) throw motescaleError('bad_state', path, bucket, 'a bucket of rollUp');
}

/** What a trend is made of, size by size: readings with counts, readings with a code only, or buckets of a roll-up. */
import type { ClassTable } from '../../../codes/index.ts';
import type { Sizing } from '../../../counts/index.ts';
import type { RollUpBucket } from '../../../history/index.ts';
import type { Quality } from '../../../reading/reading.ts';
import { type Allowed, allowanceAt, tableCode } from '../../classSteps.ts';
import { measuredAt } from '../../measured.ts';
import { inTimeOrder, type ReportReading } from '../../reportReading.ts';
import { countIn, type SizeRange } from '../../sizeRange.ts';
import { localTime, type OffsetAt } from '../../timeText.ts';
import type { TooManyBucket } from '../codeBuckets.ts';
import type { SizeBuckets } from '../sizeBuckets.ts';

/** A count in the trend. Times are those of the local clock. */
export interface TrendPoint {
  readonly time: number;
  readonly count: number;
  readonly quality: Quality;
  /** Points of one stretch are joined by a line. */
  readonly stretch: number;
}

/** A span of time. */
export interface TrendTime {
  readonly time: number;
  readonly end: number;
}

/** The counts that a code allows, over a span of time. */
export type TrendBand = TrendTime & Allowed;

/** Counts from least to most in a bucket of time, with their mean. */
export interface TrendBucket extends TrendTime {
  readonly low: number;
  readonly high: number;
  /** Null where no count stood for any time. */
  readonly mean: number | null;
  /** Those of one stretch touch, and have a mean. */
  readonly stretch: number;
  /** When its last reading was taken, of whatever quality; its middle where it has none. */
  readonly lastTime: number;
  /** Whether it is known for less than half of its width. */
  readonly thin: boolean;
}

/** The last figure that can be relied on. */
export interface TrendLast {
  /** By UTC, and by the local clock. */
  readonly time: number;
  readonly local: number;
  readonly value: number;
  /** Of a bucket that ends with a bad reading, which does not keep the figure before it. */
  readonly isMean: boolean;
}

/** What one panel shows. */
export interface TrendSeries {
  readonly points: readonly TrendPoint[];
  readonly codes: readonly TrendBand[];
  /** Of `codes`, each uncertain reading. */
  readonly uncertainCodes: readonly TrendBand[];
  /** When the code of a bad reading stood. */
  readonly badCodes: readonly TrendBand[];
  /** When bad readings stood that say nothing of counts; of buckets, those in which nothing else is drawn. */
  readonly badTimes: readonly TrendTime[];
  readonly buckets: readonly TrendBucket[];
  /** How wide the buckets are that anything is drawn of; empty of readings. */
  readonly widths: readonly number[];
  /**
   * How long buckets in which no code stood lasted between their first reading and the last, and how long of it nothing
   * good is known, ms; null of readings.
   */
  readonly spent: { readonly all: number; readonly bad: number; readonly unknown: number } | null;
  /** Null where there is none. */
  readonly last: TrendLast | null;
}

/** Readings, and the number of the unbroken stretch each belongs to. */
interface Stretches<T = ReportReading> {
  readonly readings: readonly T[];
  readonly times: readonly number[];
  readonly stretches: readonly number[];
  /** The usual interval: the median of those above 0; 0 where there is none. */
  readonly usual: number;
}

/** Breaks readings, in order of time, behind bad ones and at gaps of more than three times the usual interval. */
export function stretchesOf<T extends { readonly time: number; readonly quality?: Quality | undefined }>(
  inOrder: readonly T[],
  offset: OffsetAt,
): Stretches<T> {
  const steps: number[] = [];
  for (let i = 1; i < inOrder.length; i += 1) {
    const step = (inOrder[i] as T).time - (inOrder[i - 1] as T).time;
    // two readings of one time say nothing of the usual interval
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  const usual = steps[Math.floor(steps.length / 2)] ?? 0;
  let stretch = 0;
  const stretches = inOrder.map(({ time }, i) => {
    const before = inOrder[i - 1];
    if (before !== undefined && (before.quality === 'bad' || time - before.time > 3 * usual)) stretch += 1;
    return stretch;
  });
  return { readings: inOrder, times: inOrder.map(({ time }) => localTime(time, offset)), stretches, usual };
}

export function readingSeries(range: SizeRange, table: ClassTable, sizing: Sizing, all: Stretches): TrendSeries {
  const points: TrendPoint[] = [];
  const codes: TrendBand[] = [];
  const uncertainCodes: TrendBand[] = [];
  const badCodes: TrendBand[] = [];
  const badTimes: TrendTime[] = [];
  const allowedBy = allowanceAt(table, sizing, range.from);
  // readings that lack this size, such as codes, may lie between two that have it
  let breaks = 0;
  let before: number | null = null;
  let last: TrendLast | null = null;
  all.readings.forEach((reading, i) => {
    const time = all.times[i] as number;
    const quality = reading.quality ?? 'good';
    const stretch = all.stretches[i] as number;
    if (reading.counts !== undefined) {
      const count = countIn(reading.counts, range);
      if (count === null) return;
      if (before !== null && reading.time - before > 3 * all.usual) breaks += 1;
      before = reading.time;
      points.push({ time, count, quality, stretch: stretch + breaks });
      if (quality !== 'bad') last = { time: reading.time, local: time, value: count, isMean: false };
      return;
    }
    const after = all.readings[i + 1];
    const goesTo = after !== undefined && after.time - reading.time <= 3 * all.usual;
    const next = goesTo ? (all.times[i + 1] as number) : time + all.usual;
    const text = tableCode(reading, table);
    if (text === null) {
      if (quality === 'bad') badTimes.push({ time, end: next });
      return;
    }
    const band = allowedBy(text);
    if (band === null) return;
    const code = { time, end: next, ...band };
    if (quality === 'bad') {
      badCodes.push(code);
      return;
    }
    if (quality === 'uncertain') uncertainCodes.push(code);
    addBar(codes, code);
  });
  return { points, codes, uncertainCodes, badCodes, badTimes, buckets: [], widths: [], spent: null, last };
}

/** Adds the bar of a code; one that says the same right after the last makes that longer. */
function addBar(bars: TrendBand[], bar: TrendBand): void {
  const last = bars[bars.length - 1];
  const goesOn = last !== undefined && last.end === bar.time && last.low === bar.low && last.high === bar.high;
  if (goesOn) bars[bars.length - 1] = { ...last, end: bar.end };
  else bars.push(bar);
}

/** A figure that is no count, at the readings that have it. */
export function figureSeries(figure: string, inOrder: readonly ReportReading[], offset: OffsetAt): TrendSeries {
  const having: { time: number; value: number; quality: Quality }[] = [];
  for (const reading of inOrder) {
    const at = measuredAt(reading, figure);
    if (at !== null) having.push({ time: reading.time, ...at });
  }
  const { times, stretches } = stretchesOf(having, offset);
  let last: TrendLast | null = null;
  const points = having.map(({ time, value, quality }, i) => {
    const local = times[i] as number;
    if (quality !== 'bad') last = { time, local, value, isMean: false };
    return { time: local, count: value, quality, stretch: stretches[i] as number };
  });
  const none = { codes: [], uncertainCodes: [], badCodes: [], badTimes: [], buckets: [], widths: [], spent: null };
  return { points, ...none, last };
}

/** The buckets of a size or of another figure. */
export type RolledUp = Pick<SizeBuckets, 'buckets' | 'codes' | 'tooMany'>;

/** Those that are drawn, of all that there are. */
export function bucketSeries(
  { buckets: list, codes: codeList = [], tooMany = [] }: RolledUp,
  isDrawn: (bucket: TooManyBucket) => boolean,
  offset: OffsetAt,
): TrendSeries {
  const buckets: TrendBucket[] = [];
  const codes: TrendBand[] = [];
  const beyond: TrendBand[] = [];
  const badTimes: TrendTime[] = [];
  const widths: number[] = [];
  const timeOf = ({ start, widthMs }: TooManyBucket): TrendTime => {
    const time = localTime(start, offset);
    widths.push(widthMs);
    return { time, end: time + widthMs };
  };
  const coded: { [start: string]: true } = {};
  for (const code of codeList.filter(isDrawn)) {
    const { low, high } = code;
    coded[code.start] = true;
    addBar(codes, { ...timeOf(code), low, high });
  }
  for (const bucket of tooMany.filter(isDrawn)) {
    coded[bucket.start] = true;
    addBar(beyond, { ...timeOf(bucket), low: Infinity, high: null });
  }
  // the last reading taken: it may stand into the next bucket
  let standing: RollUpBucket['last'] = null;
  let last: TrendLast | null = null;
  let stretch = 0;
  let joinedTo = Number.NEGATIVE_INFINITY;
  const spent = { all: 0, bad: 0, unknown: 0 };
  for (const bucket of list) {
    const { start, widthMs, min, max, mean, valuedMs, badMs, gapMs } = bucket;
    standing = bucket.last ?? standing;
    if (!isDrawn(bucket)) continue;
    const isCoded = start in coded;
    if (!isCoded) {
      spent.all += valuedMs + badMs + gapMs;
      spent.bad += badMs;
      spent.unknown += gapMs;
    }
    if (min !== null && max !== null) {
      const at = timeOf(bucket);
      const lastTime = bucket.last === null ? (at.time + at.end) / 2 : localTime(bucket.last.time, offset);
      if (mean === null || start > joinedTo) stretch += 1;
      joinedTo = mean === null ? Number.NEGATIVE_INFINITY : start + widthMs;
      const thin = valuedMs < widthMs / 2 && !isCoded;
      buckets.push({ ...at, low: min, high: max, mean, stretch, lastTime, thin });
      last = lastIn(bucket, standing, offset);
    } else if (badMs > 0 && standing?.quality === 'bad' && !isCoded) badTimes.push(timeOf(bucket));
  }
  const all = inTimeOrder(codes.concat(beyond));
  return { points: [], codes: all, uncertainCodes: [], badCodes: [], badTimes, buckets, widths, spent, last };
}

/** The last figure of a bucket that has any, of the last reading up to its end. */
function lastIn({ start, mean, max }: RollUpBucket, reading: RollUpBucket['last'], offset: OffsetAt): TrendLast {
  const isMean = reading === null || reading.quality === 'bad' || reading.value === null;
  const time = isMean ? start : reading.time;
  return { time, local: localTime(time, offset), value: (isMean ? (mean ?? max) : reading.value) as number, isMean };
}

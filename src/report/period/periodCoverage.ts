/** How well the readings of a period cover it: the first and the last, and the stretches without any. */
import { unusualMs } from '../../state/usual.ts';
import type { Period } from './periodEvents.ts';

/** A moment, and how far the local clock is ahead of UTC then. */
export interface Moment {
  readonly time: number;
  readonly utcOffsetMinutes: number;
}

/** From one moment to another. */
export interface PeriodGap {
  readonly from: Moment;
  readonly to: Moment;
}

/** Where in the period there are readings that can be relied on: good and uncertain ones. */
export interface PeriodCoverage {
  /** The first and the last of them; null without any. */
  readonly first: Moment | null;
  readonly last: Moment | null;
  /** Their usual interval (the median) in ms; null where there are fewer than two times. */
  readonly usualMs: number | null;
  /**
   * The longest stretch without one, also before the first and after the last up to the ends of the period; null where
   * the period has no length.
   */
  readonly longestGap: PeriodGap | null;
  /**
   * How many stretches are longer than ten usual intervals and than a day (our choice); none where it is not known what
   * is usual.
   */
  readonly longGaps: number;
  /** How long these are together, in ms. */
  readonly longGapsMs: number;
  /**
   * The share of the period that they cover, each up to the next one, or, where that comes after more than three usual
   * intervals, as at a break of a chart's line, for one (our choice). Null where the period has no length or it is not
   * known what is usual.
   */
  readonly coveredShare?: number | null;
}

/** The times ascend; `from` and `to` are the ends of the period. */
export function coverageOf(
  times: readonly number[],
  { from, to }: Period,
  moment: (time: number | undefined) => Moment | null,
): PeriodCoverage {
  const intervals: number[] = [];
  for (let i = 1; i < times.length; i += 1) {
    const interval = (times[i] as number) - (times[i - 1] as number);
    if (interval > 0) intervals.push(interval);
  }
  const usualMs = medianOf(intervals);
  const unusual = unusualMs(usualMs);
  let longest = 0;
  let end = 0;
  let longGaps = 0;
  let longGapsMs = 0;
  let coveredMs = 0;
  let before = from;
  for (let i = 0; i <= times.length; i += 1) {
    const time = i < times.length ? times[i] : to;
    if (time === undefined) break;
    const gap = before === undefined ? 0 : time - before;
    before = time;
    if (usualMs !== null && gap > 3 * usualMs) coveredMs += i === 0 ? 0 : usualMs;
    else coveredMs += gap;
    if (gap > longest) {
      longest = gap;
      end = time;
    }
    if (!(gap > unusual)) continue;
    longGaps += 1;
    longGapsMs += gap;
  }
  return {
    first: moment(times[0]),
    last: moment(times[times.length - 1]),
    usualMs,
    longestGap: longest === 0 ? null : { from: moment(end - longest) as Moment, to: moment(end) as Moment },
    longGaps,
    longGapsMs,
    coveredShare: usualMs === null || from === undefined || before === undefined ? null : coveredMs / (before - from),
  };
}

function medianOf(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const ascending = values.slice().sort((a, b) => a - b);
  const lower = ascending[Math.floor((ascending.length - 1) / 2)] as number;
  return (lower + (ascending[Math.floor(ascending.length / 2)] as number)) / 2;
}

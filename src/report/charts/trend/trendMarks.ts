/**
 * The marks of single readings in a trend: thinned where they would lie on each other, a stretch of bad readings as one
 * hatched span.
 */
import { inTimeOrder } from '../../reportReading.ts';
import type { TimeSpan } from '../timeAxis.ts';
import type { TrendPoint, TrendSeries, TrendTime } from './trendSeries.ts';

/** From times to pixels and back. */
export interface TimeScale {
  readonly span: TimeSpan;
  readonly plot: number;
}

/** Pixels from the left of the plot. */
export function timePixel(time: number, { span, plot }: TimeScale): number {
  return (plot * (time - span.from)) / (span.to - span.from);
}

/** The moment at a pixel. */
function pixelTime(x: number, { span, plot }: TimeScale): number {
  return span.from + (x * (span.to - span.from)) / plot;
}

const markRoom = 8;

/** Those of a list, in order of time, whose marks have room beside the one before, sideways or up and down. */
export function apart<T extends { readonly time: number; readonly y: number }>(
  list: readonly T[],
  scale: TimeScale,
): T[] {
  const kept: T[] = [];
  for (const item of list) {
    const before = kept[kept.length - 1];
    const near =
      before !== undefined &&
      timePixel(item.time, scale) - timePixel(before.time, scale) < markRoom &&
      Math.abs(item.y - before.y) < markRoom;
    if (!near) kept.push(item);
  }
  return kept;
}

const hatchEvery = 4;
const crossRoom = 9;
const leastWide = 4;

/**
 * Splits bad readings: runs of three and more whose crosses would lie on each other are spans, the others crosses.
 * Codes, and readings without any count, are spans.
 */
export function badMarks(
  { points, badCodes, badTimes }: Pick<TrendSeries, 'points' | 'badCodes' | 'badTimes'>,
  scale: TimeScale,
): { readonly crosses: TrendPoint[]; readonly spans: TrendTime[] } {
  const crosses: TrendPoint[] = [];
  const spans: TrendTime[] = [];
  let run: TrendPoint[] = [];
  const close = () => {
    const places = run.map(({ time }) => timePixel(time, scale));
    const [from, to] = [places[0] ?? 0, places[places.length - 1] ?? 0];
    if (run.length >= 3 && to - from < crossRoom * (run.length - 1)) {
      const half = Math.max(0, (crossRoom - (to - from)) / 2);
      const end = pixelTime(Math.min(scale.plot, to + half), scale);
      spans.push({ time: pixelTime(Math.max(0, from - half), scale), end });
    } else for (const point of run) crosses.push(point);
    run = [];
  };
  for (const point of points) {
    if (point.quality === 'bad') run.push(point);
    else close();
  }
  close();
  const without = inTimeOrder<TrendTime>([...badCodes, ...badTimes]);
  for (const { time, end } of widened(without, scale)) spans.push({ time, end });
  return { crosses, spans: joined(inTimeOrder(spans), scale) };
}

/** Spans of codes, in order of time, wide enough to be seen: a code without an interval has no width of its own. */
export function widened<T extends TrendTime>(spans: readonly T[], scale: TimeScale): T[] {
  const least = pixelTime(leastWide, scale) - scale.span.from;
  const list: T[] = [];
  let later = Infinity;
  for (let i = spans.length - 1; i >= 0; i -= 1) {
    const span = spans[i] as T;
    const after = spans[i + 1];
    // those of one time have the same room
    if (after !== undefined && after.time !== span.time) later = after.time;
    const wide = Math.max(span.end - span.time, Math.min(least, later - span.time));
    // one at the right edge reaches to the left
    const time = Math.min(span.time, Math.max(scale.span.from, scale.span.to - Math.min(wide, least)));
    list.push({ ...span, time, end: Math.max(span.end, time + wide) });
  }
  return list.reverse();
}

/** Spans too near each other to be told apart are one. */
function joined(spans: readonly TrendTime[], scale: TimeScale): TrendTime[] {
  const list: TrendTime[] = [];
  for (const span of spans) {
    const before = list[list.length - 1];
    if (before !== undefined && timePixel(span.time, scale) - timePixel(before.end, scale) < hatchEvery)
      list[list.length - 1] = { time: before.time, end: Math.max(before.end, span.end) };
    else list.push(span);
  }
  return list;
}

/** The upright lines of the hatching. */
export function hatching(spans: readonly TrendTime[], scale: TimeScale): { time: number }[] {
  const lines: { time: number }[] = [];
  for (const { time, end } of spans) {
    const to = timePixel(end, scale);
    for (let x = timePixel(time, scale); x <= to + 0.01; x += hatchEvery) lines.push({ time: pixelTime(x, scale) });
  }
  return lines;
}

/** The layers of a clean-up chart: a line for each size, the limits of the target, and the minute when all are kept. */
import type { CleanUpPoint, TimeToCode } from '../../filtration/index.ts';
import { countIn, rangeOf, type SizeRange } from '../sizeRange.ts';
import type { Texts } from '../texts/types.ts';
import { numberLabel } from './axisLabels.ts';
import { byPixel, dashes, ink, layerOf, layersOf, type PlacedText, type Spec, shapes } from './chartSpec.ts';
import { type CountScale, drawnAt, held, leastApart, pixelOf } from './countScale.ts';
import { textWidth } from './textWidth.ts';

/** The size of the letters of a limit. */
export const targetSize = 10;

/** What is drawn, and where. */
export interface CleanUpFrame {
  readonly ranges: readonly SizeRange[];
  readonly curve: readonly CleanUpPoint[];
  readonly measured: readonly CleanUpPoint[];
  /** When the target is reached; null without one. */
  readonly time: TimeToCode | null;
  readonly scale: CountScale;
  readonly minutes: number;
  /** How many minutes a unit of the axis has. */
  readonly unit: number;
  /** The width of the plot in pixels. */
  readonly plot: number;
}

/** The i-th size: its line, and what was measured. */
export function lineLayers(range: SizeRange, i: number, frame: CleanUpFrame, texts: Texts): Spec[] {
  const { curve, measured, scale, unit } = frame;
  // the line ends at the lower edge, what was measured is held there
  const values = rowsAt(range, curve, unit).filter(({ perMl }) => perMl >= scale.span.low);
  const none = measured
    .filter(({ counts }) => countIn(counts, range) === 0)
    .map((point) => ({ time: noneTime(point, range, frame), perMl: drawnAt(0, scale) }));
  const marks = rowsAt(range, measured, unit)
    .filter(({ perMl }) => perMl > 0)
    .map(({ time, perMl }) => ({ time, perMl: drawnAt(perMl, scale) }));
  return [
    layerOf(values, { type: 'line', color: ink.data, strokeWidth: 1.8, strokeDash: dashes[i % dashes.length] }),
    markLayer(marks, { shape: shapes[i % shapes.length], size: 42 }),
    markLayer(none, { shape: 'triangle-down', size: 60 }),
    ...layersOf(
      none.map((mark) => ({ ...mark, text: numberLabel(range.from, texts) })),
      { type: 'text', dy: 10, fontSize: 10, color: ink.text },
      { text: { field: 'text' } },
    ),
  ];
}

/** Where the mark of a size stands of which none was counted: beside those of the others, in the order of sizes. */
function noneTime(
  { minutes: at, counts }: CleanUpPoint,
  range: SizeRange,
  { ranges, minutes, unit, plot }: CleanUpFrame,
): number {
  const alike = ranges.filter((each) => countIn(counts, each) === 0);
  const width = (10 * minutes) / plot;
  const all = width * (alike.length - 1);
  const first = Math.max(0, Math.min(minutes - all, at - all / 2));
  return (first + width * alike.indexOf(range)) / unit;
}

/** The names of the lines on the right of the plot, each at the end of its line, moved apart where they would touch. */
export function lineNames(names: readonly string[], { ranges, curve, scale, plot }: CleanUpFrame): PlacedText[] {
  const last = curve[curve.length - 1] as CleanUpPoint;
  const places = ranges.map((range, i) => {
    const count = countIn(last.counts, range) ?? scale.span.low;
    return { y: pixelOf(held(count, scale.span), scale), text: names[i] as string, i };
  });
  // not every engine keeps the order of equals
  places.sort((a, b) => a.y - b.y || a.i - b.i);
  let lowest = -Infinity;
  for (const place of places) {
    place.y = Math.max(place.y, lowest + leastApart);
    lowest = place.y;
  }
  const over = Math.max(0, lowest - scale.height);
  return places.map(({ y, text }) => ({ x: plot + 7, y: y - over, text }));
}

/** The counts of a size, over the axis of time. */
function rowsAt(range: SizeRange, points: readonly CleanUpPoint[], unit: number): { time: number; perMl: number }[] {
  const rows: { time: number; perMl: number }[] = [];
  for (const { minutes, counts } of points) {
    const perMl = countIn(counts, range);
    if (perMl !== null) rows.push({ time: minutes / unit, perMl });
  }
  return rows;
}

/** What was measured. */
function markLayer(values: readonly unknown[], style: Spec): Spec {
  return layerOf(values, { type: 'point', fill: 'white', stroke: ink.data, opacity: 1, ...style });
}

/** A limit as it is drawn: up to the minute when its size reaches it, else to the end. */
interface TargetLine {
  readonly time: 0;
  readonly end: number;
  readonly perMl: number;
  readonly size: number;
  readonly to?: number;
  readonly reached: boolean;
  /** From the start: the line of the size lies below. */
  readonly met: boolean;
}

/** The limits within the scale; one above it lies beyond all that is drawn. */
function targetLines({ time, scale, minutes, unit }: CleanUpFrame): TargetLine[] {
  const lines: TargetLine[] = [];
  for (const { size, to, upTo, minutes: at } of time?.sizes ?? []) {
    const reached = at !== null && at > 0 && at <= minutes;
    const end = (reached ? at : minutes) / unit;
    if (upTo >= scale.span.high) continue;
    lines.push({ time: 0, end, perMl: upTo, size, ...(to !== undefined && { to }), reached, met: at === 0 });
  }
  return lines;
}

/**
 * The names of the limits: above and on the right of the dot, or below the limit before it, or above it; the first
 * place where no line runs, of a size, a limit or the upright, and no mark is. Of the names that `namesOf` gives the
 * first that has one; where none has, a line is broken rather than a mark hidden.
 */
export function targetNames(namesOf: (range: SizeRange) => readonly string[], frame: CleanUpFrame): PlacedText[] {
  const { ranges, curve, measured, scale, minutes, unit, plot } = frame;
  const placed: PlacedText[] = [];
  const limits = targetLines(frame);
  const at = (row: { readonly time: number; readonly perMl: number }) => ({
    x: (plot * row.time * unit) / minutes,
    y: pixelOf(row.perMl, scale),
  });
  const lines = ranges.map((range) =>
    rowsAt(range, curve, unit)
      .filter(({ perMl }) => perMl >= scale.span.low)
      .map(at),
  );
  // each by itself: nothing is drawn between them
  const marks: Pixel[][] = [];
  for (const range of ranges)
    for (const { time, perMl } of rowsAt(range, measured, unit))
      marks.push([at({ time, perMl: drawnAt(perMl, scale) })]);
  for (const limit of limits) lines.push([at(limit), at({ ...limit, time: limit.end })]);
  const upright = reachedAt(frame);
  if (upright !== null) {
    const x = (plot * upright) / minutes;
    lines.push([
      { x, y: 0 },
      { x, y: scale.height },
    ]);
  }
  for (const limit of limits) {
    const { reached, met } = limit;
    const { x, y } = at({ ...limit, time: limit.end });
    const places: PlacedText[] = [];
    const names = namesOf(rangeOf(limit));
    const fitting = names.filter((text) => 3 + textWidth(text, targetSize) <= plot);
    for (const text of fitting.length > 0 ? fitting : names) {
      const width = textWidth(text, targetSize);
      const before = Math.max(3, x - width - 3);
      const above = { x: before, y: y - 7, text };
      const below = { x: before, y: y + 8, text };
      if (reached && x + 6 + width < plot) places.push({ x: x + 6, y: y - 7, text });
      places.push(...(y > 12 && (met || y + 12 > scale.height) ? [above, below] : [below, above]));
    }
    const apart = places.filter((place) => !placed.some((other) => touching(place, other)));
    const seen = apart.filter((place) => !isCrossed(place, marks, 5));
    const free = seen.filter((place) => !isCrossed(place, lines));
    placed.push(free[0] ?? seen[0] ?? apart[0] ?? (places[0] as PlacedText));
  }
  return placed;
}

/** White behind the names of limits. */
export function groundOf(names: readonly PlacedText[]): Spec {
  const values = names.map(({ x, y, text }) => ({ x, y: y - 5, end: x + textWidth(text, targetSize), low: y + 5 }));
  const pixel = (field: string) => ({ field, ...byPixel });
  const ends = { x: pixel('x'), x2: { field: 'end' }, y: pixel('y'), y2: { field: 'low' } };
  return layerOf(values, { type: 'rect', color: 'white', opacity: 1 }, ends);
}

function touching(a: PlacedText, b: PlacedText): boolean {
  const [first, second] = a.x < b.x ? [a, b] : [b, a];
  return Math.abs(a.y - b.y) < 11 && first.x + textWidth(first.text, targetSize) > second.x;
}

/** Pixels from the corner of the plot. */
type Pixel = Pick<PlacedText, 'x' | 'y'>;

/** Whether a line runs through a name, or nearer than `room`. */
function isCrossed({ x, y, text }: PlacedText, lines: readonly (readonly Pixel[])[], room = 0): boolean {
  const end = x + textWidth(text, targetSize);
  return lines.some((line) =>
    line.some((to, i) => {
      const from = line[i - 1] ?? to;
      const beside = Math.max(from.x, to.x) < x - room || Math.min(from.x, to.x) > end + room;
      return !beside && Math.max(from.y, to.y) > y - 6 - room && Math.min(from.y, to.y) < y + 6 + room;
    }),
  );
}

/** A thin line at each limit, up to the dot where the size reaches it. */
export function targetLayers(frame: CleanUpFrame): Spec[] {
  const values = targetLines(frame);
  return [
    layerOf(values, { type: 'rule', color: ink.note, strokeWidth: 0.9 }, { x2: { field: 'end' } }),
    layerOf(
      values.filter(({ reached }) => reached),
      { type: 'point', shape: 'circle', fill: ink.text, stroke: ink.text, size: 34, opacity: 1 },
      { x: { field: 'end', type: 'quantitative' } },
    ),
  ];
}

/** The minute when all sizes are within the target, if that is to be seen. */
function reachedAt({ time, minutes }: CleanUpFrame): number | null {
  const at = time?.minutes ?? 0;
  return at > 0 && at <= minutes ? at : null;
}

/** An upright at the minute when all sizes are within the target. */
export function reachedLayer(frame: CleanUpFrame): Spec[] {
  const { scale, unit } = frame;
  const at = reachedAt(frame);
  return layersOf(
    at === null ? [] : [{ time: at / unit, perMl: scale.domain[0], high: scale.domain[1] }],
    { type: 'rule', color: ink.text, strokeWidth: 1, strokeDash: [5, 3] },
    { y2: { field: 'high' } },
  );
}

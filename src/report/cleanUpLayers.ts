/**
 * The layers of a clean-up chart: a line for each size, the limits of the target, and the minute when all are kept.
 */
import type { CleanUpPoint, TimeToCode } from '../filtration/index.ts';
import { type ChartSpec, dashes, ink, rimmedText, shapes } from './chartSpec.ts';
import { atSize, type CodeAtSize } from './classSteps.ts';
import { held, type Span } from './countScale.ts';
import { durationText } from './figures.ts';
import { countOf } from './reportReading.ts';

/** What the chart spans, and how many minutes a unit of its axis has. */
export interface Frame {
  readonly span: Span;
  readonly minutes: number;
  readonly unit: number;
}

/** The i-th size: its line, what was measured, and its name where the line ends. */
export function lineLayers(
  size: number,
  i: number,
  name: string,
  curve: readonly CleanUpPoint[],
  measured: readonly CleanUpPoint[],
  { span, unit }: Frame,
): ChartSpec[] {
  // the line ends at the lower edge, what was measured is held there
  const values = rowsAt(size, curve, unit).filter(({ perMl }) => perMl >= span.low);
  const marks = rowsAt(size, measured, unit).map(({ time, perMl }) => ({
    time,
    perMl: held(perMl, span),
    none: perMl === 0,
  }));
  const place = values[values.length - 1];
  return [
    {
      data: { values },
      mark: { type: 'line', color: ink.data, strokeWidth: 1.8, strokeDash: dashes[i % dashes.length] },
    },
    markLayer(
      marks.filter(({ none }) => !none),
      { shape: shapes[i % shapes.length], size: 42 },
    ),
    markLayer(
      marks.filter(({ none }) => none),
      { shape: 'triangle-down', size: 60 },
    ),
    ...rimmedText(
      place === undefined ? [] : [{ ...place, name }],
      { align: 'left', dx: 7, dy: values.length < curve.length ? -7 : 0 },
      { text: { field: 'name' } },
    ),
  ];
}

/** The counts of a size, over the axis of time. */
function rowsAt(size: number, points: readonly CleanUpPoint[], unit: number): { time: number; perMl: number }[] {
  const rows: { time: number; perMl: number }[] = [];
  for (const { minutes, counts } of points) {
    const perMl = countOf(counts, size);
    if (perMl !== null) rows.push({ time: minutes / unit, perMl });
  }
  return rows;
}

/** What was measured. */
function markLayer(values: unknown, style: ChartSpec): ChartSpec {
  return { data: { values }, mark: { type: 'point', fill: 'white', stroke: ink.data, opacity: 1, ...style } };
}

/** A thin line at each limit, up to where the size reaches it. */
export function targetLayers(
  targets: readonly CodeAtSize[],
  time: TimeToCode | null,
  { span, minutes, unit }: Frame,
): ChartSpec[] {
  const values = (time?.sizes ?? []).map(({ size, upTo, minutes: at }) => {
    const reached = at !== null && at > 0 && at <= minutes;
    const label = atSize(targets, size)?.label;
    return {
      time: 0,
      end: (reached ? at : minutes) / unit,
      perMl: held(upTo, span),
      text: reached ? `${label} after ${durationText(at)}` : `${label} at ${size} µm`,
      reached,
      met: at === 0,
      late: at !== null && isLate(at, minutes),
    };
  });
  const dots = values.filter(({ reached }) => reached);
  const end = { field: 'end', type: 'quantitative' };
  // named where the falling line is not: above it where it has been met, below it where the line stays above
  const named = (rows: unknown, style: ChartSpec) =>
    rimmedText(rows, { color: ink.note, ...style }, { x: end, text: { field: 'text' } });
  return [
    {
      data: { values },
      mark: { type: 'rule', color: ink.note, strokeWidth: 0.9 },
      encoding: { x2: { field: 'end' } },
    },
    {
      data: { values: dots },
      mark: { type: 'point', shape: 'circle', fill: ink.text, stroke: ink.text, size: 34, opacity: 1 },
      encoding: { x: end },
    },
    ...named(
      dots.filter(({ late }) => !late),
      { align: 'left', dx: 6, dy: -9 },
    ),
    ...named(
      dots.filter(({ late }) => late),
      { align: 'right', dx: -6, dy: 10 },
    ),
    ...named(
      values.filter(({ met }) => met),
      { align: 'right', dx: -4, dy: -9 },
    ),
    ...named(
      values.filter(({ met, reached }) => !met && !reached),
      { align: 'right', dx: -4, dy: 9 },
    ),
  ];
}

/** An upright at the minute when all sizes are within the target. */
export function reachedLayers(time: TimeToCode | null, { span, minutes, unit }: Frame): ChartSpec[] {
  if (time === null || time.minutes === null || time.minutes === 0 || time.minutes > minutes) return [];
  const values = [{ time: time.minutes / unit, perMl: span.low, high: span.high, text: durationText(time.minutes) }];
  return [
    {
      data: { values },
      mark: { type: 'rule', color: ink.text, strokeWidth: 1, strokeDash: [5, 3] },
      encoding: { y2: { field: 'high' } },
    },
    ...rimmedText(
      values,
      {
        ...(isLate(time.minutes, minutes) ? { align: 'right', dx: -6 } : { align: 'left', dx: 6 }),
        dy: 10,
        fontWeight: 'bold',
      },
      {
        y: { field: 'high', type: 'quantitative' },
        text: { field: 'text' },
      },
    ),
  ];
}

/** Too near the right edge for text to stand there. */
function isLate(at: number, minutes: number): boolean {
  return at > 0.85 * minutes;
}

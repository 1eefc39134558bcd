/** The readings of a panel: the line that joins them, and the marks of single ones. */
import { inTimeOrder } from '../../reportReading.ts';
import { crossShape, ink, layerOf, layersOf, type Spec } from '../chartSpec.ts';
import { bandEdges, type CountScale, drawnAt, pixelOf } from '../countScale.ts';
import { type LinePoint, linePoints } from './linePoints.ts';
import { apart, badMarks, hatching, type TimeScale, timePixel } from './trendMarks.ts';
import type { TrendBand, TrendPoint, TrendSeries } from './trendSeries.ts';

/** How a layer is encoded on the axis of time and on that of counts. */
export type Axes = { readonly x: Spec; readonly y: Spec };

/** A reading on its line, and one without a line. */
const dot = { size: 14, color: ink.data, aria: false };
const lonelyDot = { ...dot, filled: true, size: 30 };
const circle = { size: 34, strokeWidth: 1.4, shape: 'circle', fill: 'white', stroke: ink.data };

interface Row extends LinePoint {
  readonly quality: string;
  /** No particle was counted. */
  readonly none: boolean;
}

/** Of a size or another figure, hatched where it is bad for long. */
export function readingLayers(series: TrendSeries, scale: CountScale, time: TimeScale, encoding: Axes): Spec[] {
  const joined: Row[] = [];
  for (const point of series.points) if (point.quality !== 'bad') joined.push(rowOf(point, scale));
  const uncertain = joined.filter(({ quality }) => quality === 'uncertain');
  for (const code of series.uncertainCodes) uncertain.push(codeRow(code, scale));
  const few = series.points.length * 5 <= time.plot;
  const { crosses, spans } = badMarks(series, time);
  const marks = (rows: readonly Row[], style: Spec) => pointLayer(thinned(rows, scale, time), style, encoding);
  const isDot = ({ quality, none }: Row) => quality === 'good' && !none;
  const crossed = crosses.map((point) => rowOf(point, scale));
  const none = joined.filter((row) => row.none);
  const upright = { x: encoding.x, y: { value: 0 }, y2: { value: 'height' } };
  return [
    ...layersOf(hatching(spans, time), { type: 'rule', color: ink.note, strokeWidth: 0.8 }, upright),
    ...(joined.length === 0 ? [] : [lineLayer(few ? joined : linePoints(joined, time), few, encoding)]),
    ...(few ? [] : dotLayer(joined.filter(aloneIn(joined)).filter(isDot), scale, time, encoding)),
    ...marks(none, { ...circle, shape: 'triangle-down' }),
    ...circleLayer(thinned(inTimeOrder(uncertain), scale, time), encoding),
    ...marks(crossed, { ...circle, shape: crossShape, fill: null, stroke: ink.text }),
  ];
}

function rowOf({ time, count, quality, stretch }: TrendPoint, scale: CountScale): Row {
  return { time, count: drawnAt(count, scale), quality, stretch, none: count === 0 && scale.zero !== null };
}

/** In the middle of the bar of a code. */
function codeRow(code: TrendBand, scale: CountScale): Row {
  const { low, high } = bandEdges(code, scale);
  return { time: code.time, count: Math.sqrt(low) * Math.sqrt(high), quality: 'uncertain', stretch: 0, none: false };
}

/** Whether a point's line has no length: one alone between gaps or bad readings, or several of one time. */
export function aloneIn(joined: readonly LinePoint[]): (point: LinePoint) => boolean {
  const firsts: number[] = [];
  const lasts: number[] = [];
  for (const { stretch, time } of joined) {
    firsts[stretch] = firsts[stretch] ?? time;
    lasts[stretch] = time;
  }
  return ({ stretch }) => firsts[stretch] === lasts[stretch];
}

/** A dot for each pixel. */
export function dotLayer(rows: readonly LinePoint[], scale: CountScale, time: TimeScale, encoding: Axes): Spec[] {
  const seen: { [pixel: string]: boolean } = {};
  const dots = rows.filter((row) => {
    const pixel = `${Math.floor(timePixel(row.time, time))} ${Math.floor(pixelOf(row.count, scale))}`;
    const isFirst = seen[pixel] !== true;
    seen[pixel] = true;
    return isFirst;
  });
  return pointLayer(dots, lonelyDot, encoding);
}

export function circleLayer(rows: readonly unknown[], encoding: Axes): Spec[] {
  return pointLayer(rows, circle, encoding);
}

/** Those whose marks can be told apart. */
export function thinned<T extends LinePoint>(rows: readonly T[], scale: CountScale, time: TimeScale): Omit<T, 'y'>[] {
  const placed = rows.map((row) => ({ ...row, y: pixelOf(row.count, scale) }));
  return apart(placed, time).map(({ y: _place, ...row }) => row);
}

function pointLayer(values: readonly unknown[], style: Spec, encoding: Axes): Spec[] {
  return layersOf(values, { type: 'point', opacity: 1, ...style }, encoding);
}

/** Through points, each stretch by itself. */
export function lineLayer(values: readonly unknown[], points: boolean, { x, y }: Axes): Spec {
  return layerOf(
    values,
    { type: 'line', color: ink.data, strokeWidth: 1.4, strokeJoin: 'round', point: points ? dot : false },
    { x, y, detail: { field: 'stretch', type: 'nominal' } },
  );
}

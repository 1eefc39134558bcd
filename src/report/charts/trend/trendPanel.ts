/** One panel of the trend: one size over time, before the steps of the standard, or a figure that is no count. */
import type { ClassTable } from '../../../codes/index.ts';
import type { Sizing } from '../../../counts/index.ts';
import { atSize, type CodeAtSize, isTooMany, type Step, stepsAt } from '../../classSteps.ts';
import { measuredHead } from '../../measured.ts';
import { isAmong, rangeOf, rangeText, type SizeRange, tableRanges } from '../../sizeRange.ts';
import { fill } from '../../texts/fill.ts';
import type { Texts } from '../../texts/types.ts';
import { ink, layerOf, layersOf, type PlacedText, placedTexts, rim, type Spec } from '../chartSpec.ts';
import {
  bandEdges,
  type CountScale,
  countAxis,
  countEncoding,
  countScale,
  decadesOf,
  drawnAt,
  spanOf,
  stepsWithin,
  tooManyStrip,
} from '../countScale.ts';
import { figureScale } from '../figureScale.ts';
import { bold, textWidth } from '../textWidth.ts';
import { timeEncoding } from '../timeAxis.ts';
import { bucketLayers } from './bucketLayers.ts';
import { type Axes, readingLayers } from './readingLayers.ts';
import { type ChartForecast, forecastFan } from './trendForecast.ts';
import { type TimeScale, timePixel, widened } from './trendMarks.ts';
import type { TrendBand, TrendSeries } from './trendSeries.ts';
import { type PanelLimits, type StepLabel, spanLayers, stepLabels, stepLayers } from './trendSteps.ts';

/** What all panels share. */
export interface PanelFrame {
  readonly table: ClassTable;
  readonly sizing: Sizing;
  readonly target: readonly CodeAtSize[];
  readonly alarm: readonly CodeAtSize[];
  readonly forecast: readonly ChartForecast[];
  readonly texts: Texts;
}

/** A panel ready to be drawn: its scale, what is named on its right, its limits. */
export interface Panel extends PanelLimits {
  /** The word of a figure that is no count; null of a size. */
  readonly figure: string | null;
  readonly series: TrendSeries;
  readonly labels: readonly StepLabel[];
  readonly forecast: readonly ChartForecast[];
  readonly title: string;
  /** Of a size that a target says nothing of: so in words. */
  readonly untold: string | null;
}

/** The height of a panel in pixels: of a size, and of another figure. */
const sizeHeight = 150;
const figureHeight = 90;

/**
 * The panel of a figure that is no count. The scale is set by what can be relied on; where nothing can, by the rest.
 */
export function figurePanelOf(figure: string, series: TrendSeries, texts: Texts): Panel {
  const scale = { ...figureScale(valuesOf(series), figureHeight), percent: figure === 'waterSaturation' };
  const limits = { scale, steps: [], target: null, alarm: null };
  return { ...limits, figure, series, labels: [], forecast: [], title: measuredHead(figure, texts), untold: null };
}

/** The values that can be relied on; where none can, all. */
export function valuesOf({ points, buckets }: TrendSeries): number[] {
  const trusted = points.filter(({ quality }) => quality !== 'bad');
  const values = (trusted.length > 0 ? trusted : points).map(({ count }) => count);
  for (const { low, high } of buckets) values.push(low, high);
  return values;
}

/** Finds the scale and the labels. The scale is set by what can be relied on; where nothing can, by the rest. */
export function panelOf(range: SizeRange, series: TrendSeries, frame: PanelFrame): Panel {
  const { texts, sizing } = frame;
  const size = range.from;
  const judged = isAmong(tableRanges(frame.table, sizing), range);
  const steps = judged ? stepsAt(frame.table, sizing, size) : [];
  const asked = judged ? atSize(frame.target, size) : null;
  const target = asked?.upTo ?? null;
  const alarm = (judged ? atSize(frame.alarm, size) : null)?.upTo ?? null;
  const forecast = frame.forecast.filter((each) => isAmong([range], rangeOf(each)));
  const counts = valuesOf(series);
  for (const limit of [target, alarm]) if (limit !== null) counts.push(limit);
  let hasZero = series.points.some(({ count }) => count === 0);
  for (const { low, mean } of series.buckets) {
    // beside zeros the mean is the least that has a place on the scale
    counts.push(mean ?? low);
    hasZero = hasZero || low === 0;
  }
  const codes = series.codes.length + series.points.length > 0 ? series.codes : series.badCodes;
  for (const code of codes) {
    const { low, high } = code;
    if (!isTooMany(code)) counts.push(high ?? low, low > 0 ? low * 1.001 : (high ?? 0));
  }
  for (const { now, level } of forecast) counts.push(now, level);
  const scale = countScale(spanOf(counts, steps), sizeHeight, hasZero, series.codes.some(isTooMany));
  const limits = { scale, steps, target, alarm };
  const title = fill(texts.charts.panel, { size: rangeText(range, sizing, texts) });
  const untold = frame.target.length > 0 && asked === null ? texts.charts.noTarget : null;
  return { ...limits, figure: null, series, labels: stepLabels(limits, texts), forecast, title, untold };
}

/** Where and how the panel stands. */
interface PanelPlace {
  readonly time: TimeScale;
  readonly left: number;
  /** The last panel carries the axis of time. */
  readonly last: boolean;
  /** Times of events, and their numbers where this is the first panel. */
  readonly events: readonly { readonly time: number }[];
  readonly numbers: readonly PlacedText[];
  /** Whether there were any readings. */
  readonly some: boolean;
  readonly texts: Texts;
}

/** What of a size is not on its scale, in words; null where all is. */
export function tooManyText({ codes, points, buckets }: TrendSeries, { charts }: Texts): string | null {
  if (!codes.some(isTooMany)) return null;
  const always = codes.every(isTooMany) && buckets.length === 0 && points.every(({ quality }) => quality === 'bad');
  return always ? charts.tooMany : charts.tooManyAtTimes;
}

export function panelSpec(panel: Panel, place: PanelPlace): Spec {
  const { scale, steps, labels, series } = panel;
  const values = scale.marks ?? countMarks(steps, scale);
  const x = timeEncoding(place.time.span, place.time.plot, place.last, place.texts);
  const y = countEncoding('count', scale, countAxis(scale, values, place.texts));
  const axes = { x, y };
  const { points, codes, badCodes, badTimes, buckets } = series;
  const empty = [points, codes, badCodes, badTimes, buckets].every(({ length }) => length === 0);
  const { noReadings, nothingDrawn } = place.texts.charts;
  const nothing = place.some && panel.figure === null ? nothingDrawn : noReadings;
  const said = [empty ? nothing : tooManyText(series, place.texts), panel.untold].filter((text) => text !== null);
  const heading = said.length === 0 ? panel.title : `${panel.title}: ${said.join(place.texts.charts.separator)}`;
  const title = { x: rim - place.left, y: -14, text: heading };
  return {
    layer: [
      ...(panel.figure === null ? [...spanLayers(panel), ...stepLayers(panel, labels)] : []),
      ...edgeLayers(scale),
      ...anchorLayer(panel, place.time, axes),
      ...codeLayers(widened(series.codes, place.time), scale, axes),
      ...bucketLayers(series, scale, place.time, axes),
      ...forecastLayers(panel, place.time.span.to, axes),
      ...eventLayers(place, title.x + bold * textWidth(title.text) + 4, x),
      ...readingLayers(series, scale, place.time, axes),
      placedTexts([title], { fontWeight: 600 }),
      ...(place.numbers.length === 0 ? [] : [placedTexts(place.numbers, { align: 'center', fontWeight: 600 })]),
    ],
  };
}

/** The axis of counts is marked at the limits of the classes, or at powers of ten. */
function countMarks(steps: readonly Step[], { span }: CountScale): number[] {
  const limits = stepsWithin(steps, span).map(({ above }) => above);
  return limits.length > 0 ? [...limits.filter((limit) => limit > 0), span.high] : decadesOf(span);
}

/** Where no line is drawn, nothing else tells the axes how far they reach. */
function anchorLayer({ series, scale }: Panel, { span }: TimeScale, encoding: Axes): Spec[] {
  const drawn = series.codes.length + series.buckets.length > 0;
  if (drawn || series.points.some(({ quality }) => quality !== 'bad')) return [];
  return [layerOf([{ time: span.from, count: scale.domain[0] }], { type: 'point', opacity: 0 }, encoding)];
}

/** A line between the scale and the place of 0, and of what was too many to count, with its sign in a code. */
function edgeLayers({ zero, span, domain }: CountScale): Spec[] {
  const encoding = { x: { value: 0 }, x2: { value: 'width' }, y: { field: 'count', type: 'quantitative' } };
  const line = (count: number) => layerOf([{ count }], { type: 'rule', color: ink.note, strokeWidth: 1 }, encoding);
  const below = zero === null ? [] : [line(span.low)];
  if (domain[1] === span.high) return below;
  const sign = placedTexts([{ x: -8, y: tooManyStrip / 2 + 2, text: '*' }], { align: 'right' });
  return [...below, line(span.high), sign];
}

/** Pale, so that no bar in white looks like the grey of the alarm limit; a line at each end, none where it is open. */
function codeLayers(codes: readonly TrendBand[], scale: CountScale, { x, y }: Axes): Spec[] {
  const bands: { time: number; end: number; low: number; high: number }[] = [];
  const values: { time: number; end: number; count: number }[] = [];
  for (const code of codes) {
    const { low, high } = bandEdges(code, scale);
    bands.push({ time: code.time, end: code.end, low, high });
    if (code.low > 0) values.push({ time: code.time, end: code.end, count: low });
    if (code.high !== null) values.push({ time: code.time, end: code.end, count: high });
  }
  const ends = layersOf(values, { type: 'rule', color: ink.data, strokeWidth: 1.6 }, { x, x2: { field: 'end' }, y });
  const interval = { x, x2: { field: 'end' }, y: { ...y, field: 'low' }, y2: { field: 'high' } };
  return [...layersOf(bands, { type: 'rect', color: ink.data, opacity: 0.14 }, interval), ...ends];
}

function forecastLayers({ forecast, scale }: Panel, edge: number, { x, y }: Axes): Spec[] {
  const layers: Spec[] = [];
  for (const each of forecast) {
    const at = (count: number) => drawnAt(count, scale);
    const edges = forecastFan(each, edge).map(({ time, low, high }) => ({ time, low: at(low), high: at(high) }));
    const line = [
      { time: each.from, count: at(each.now) },
      { time: each.time, count: at(each.level) },
    ];
    const fan = { x, y: { ...y, field: 'low' }, y2: { field: 'high' } };
    layers.push(layerOf(edges, { type: 'area', color: ink.data, opacity: 0.22 }, fan));
    layers.push(layerOf(line, { type: 'line', color: ink.data, strokeWidth: 1.4, strokeDash: [5, 3] }, { x, y }));
  }
  return layers;
}

/** From above the panel down; where the title stands, from below it. */
function eventLayers({ events, time: scale }: PanelPlace, titleEnd: number, x: Spec): Spec[] {
  const layers = (below: boolean, top: number) =>
    layersOf(
      events.filter(({ time }) => timePixel(time, scale) < titleEnd === below).map(({ time }) => ({ time })),
      { type: 'rule', color: ink.text, strokeWidth: 1, strokeDash: [2, 2] },
      { x, y: { value: top }, y2: { value: 'height' } },
    );
  return [...layers(false, -24), ...layers(true, -4)];
}

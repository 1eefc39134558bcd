/**
 * A trend as a chart: one panel for each size, counts on the left, the classes of the standard on the right, spans of
 * target and alarm behind; below, what else was measured.
 */
import type { ClassTable, Code } from '../../../codes/index.ts';
import { motescaleError } from '../../../errors.ts';
import { hour } from '../../../state/timeSteps.ts';
import { atSize, type CodeAtSize, codeAtSizes, codeText, isTooMany, shortTitle } from '../../classSteps.ts';
import { requireLook } from '../../look.ts';
import type { MomentText } from '../../period/gapsText.ts';
import { checkEvents, checkPeriod, type PeriodEvent, within } from '../../period/periodEvents.ts';
import { inTimeOrder, type ReportReading } from '../../reportReading.ts';
import { isAmong, particlesText, rangeOf, rangeText, type SizeRange } from '../../sizeRange.ts';
import { figure, fill, whole } from '../../texts/fill.ts';
import type { Texts } from '../../texts/types.ts';
import {
  dateText,
  haveSeveral,
  localTime,
  momentText,
  type OffsetAt,
  offsetAt,
  type UtcOffset,
  zonesOf,
} from '../../timeText.ts';
import { bucketNotes, knownNotes, trendAlternative } from '../alternatives.ts';
import { type ChartPart, type ChartSpec, chart, rim, textPart } from '../chartSpec.ts';
import { axisRoom } from '../countScale.ts';
import { type FigureBuckets, isBuckets, type SizeBuckets } from '../sizeBuckets.ts';
import { bold, widestOf, wrapped } from '../textWidth.ts';
import type { TimeSpan } from '../timeAxis.ts';
import { newestOf } from './bucketLayers.ts';
import { bucketData, readingData, type TrendData } from './trendData.ts';
import { type ChartEvent, eventList, eventNumbers } from './trendEvents.ts';
import { type ChartForecast, checkForecasts, forecastEnd } from './trendForecast.ts';
import { badMarks, type TimeScale } from './trendMarks.ts';
import { figurePanelOf, type Panel, type PanelFrame, panelOf, panelSpec } from './trendPanel.ts';
import type { TrendSeries } from './trendSeries.ts';

/** What to draw beside the readings. */
export interface TrendChartOptions {
  readonly title?: string | undefined;
  /** The standard whose classes are drawn; ISO 4406 where left out. */
  readonly table?: ClassTable | undefined;
  /** The code to be kept. */
  readonly target?: string | Code | undefined;
  /** The dirtiest code without an alarm: not one cleaner than the target at some size and dirtier at none. */
  readonly alarm?: string | Code | undefined;
  /** What happened: a numbered line at each, its words below the chart. The first twelve are listed. */
  readonly events?: readonly PeriodEvent[] | undefined;
  /**
   * What else was measured, a panel for each below those of the sizes: words of figures, such as `celsius` or
   * `other acid number`; with buckets of counts, what `figureBuckets` makes of them.
   */
  readonly figures?: readonly string[] | readonly FigureBuckets[] | undefined;
  /** What `forecastCrossing` told, one at most for each size. */
  readonly forecast?: readonly ChartForecast[] | undefined;
  /**
   * From when to when the chart reaches, ms since 1970; from the first reading to the last where left out. Others are
   * not drawn.
   */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** Minutes ahead of UTC in which times are written, or a function of the time that gives them; 0 where left out. */
  readonly utcOffsetMinutes?: UtcOffset | undefined;
  /** Width of the whole picture in pixels, 240 to 1600; 720 where left out. */
  readonly width?: number | undefined;
  /** The words of another language; English where left out. */
  readonly texts?: Texts | undefined;
  /** The version of the grammar; 6 where left out. */
  readonly vegaLite?: 5 | 6 | undefined;
}

const members = ['table', 'target', 'alarm', 'events', 'figures', 'forecast', 'from', 'to', 'utcOffsetMinutes'];

/**
 * A trend of counts and codes as a Vega-Lite specification. A panel for each size that the table judges and that was
 * counted (for every size, if there is none): counts per mL on a logarithmic scale marked at the limits of the classes,
 * the classes named on the right. White is in target, light grey above target, dark grey in alarm.
 *
 * A line joins good and uncertain readings. It breaks where a reading is bad and where there is a gap of more than
 * three times the usual interval, the median of those above 0; a reading with none beside it to be joined to is a
 * point. Uncertain readings have a circle, bad ones a cross, and a stretch of bad ones too close for crosses is
 * hatched. Counts of 0 have a place of their own below the scale. Marks that would lie on each other are thinned. The
 * scale is set by good and uncertain readings; a bad one beyond it stands at its edge. A reading with a code and no
 * counts is a bar over the counts that the code allows, until the next reading, with a circle if it is uncertain; a
 * part with `>=` is open above, and `*` stands at the top, above the scale; a bad one is hatched, and so is one whose
 * code cannot be read. Of a forecast the notes tell the dates, and where it is cut off; of buckets their width.
 *
 * Temperature, water and whatever else was measured stand below the sizes where `figures` names them, on linear scales.
 * Each is joined, broken and marked by its own quality, of readings with and without particles.
 *
 * Every reading is drawn, but for those that were repeated or set aside (`arrival`) and those with neither counts nor
 * code. Where many lie in one column of pixels, the specification holds the first, the least, the most and the last:
 * the line is the same. For a year, give buckets instead, one list for each size (`countBuckets` makes them): a band
 * from the least to the most, a line through the means, a bar over the counts that codes allow, hatching where all was
 * bad, and nothing where nothing is known. A mean joined to no neighbour is a point, and so is the newest reading, at
 * its own time; a bucket known for less than half of its time has a circle where there is room. Notes tell which share
 * of the time was bad and which unknown, from the first reading to the last. Source of the classes: the table.
 *
 * `description` tells the last count of each size with its time, and for how long there was no reading that can be
 * relied on where that is not usual: longer than ten usual intervals and than a day (our choice), as `periodSummary`
 * does. Of buckets the usual interval is reckoned from the number of their readings.
 *
 * The picture has the width asked for; it needs no setting of the renderer, and draws the same under a policy that
 * forbids making code of text.
 *
 * @param readings readings, or buckets size by size
 * @throws `sizing_not_convertible`; `bad_code`; `out_of_range` for a width and
 * for an alarm cleaner than the target; `unknown_option`; what readings and buckets can throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { trendChart } from 'motescale/report';
 * const counts = [1890, 2100, 2700].map((at4) => cumulativeCounts({ 4: at4, 6: 402, 14: 33 }));
 * const readings = counts.map((at, i) => ({ time: i * 3600000, counts: at }));
 * const events = [{ time: 5400000, text: 'Filter changed' }];
 * const spec = trendChart(readings, { title: 'Lock 3, power unit A', target: '18/16/13', alarm: '19/17/14', events });
 * (spec.vconcat as unknown[]).length; // => 4
 * ```
 */
export function trendChart(
  readings: readonly ReportReading[] | readonly SizeBuckets[],
  options: TrendChartOptions = {},
): ChartSpec {
  const look = requireLook(options, 'trend', 720, members);
  const { title, width, texts } = look;
  const offset = offsetAt(options);
  checkPeriod(options);
  if (options.events !== undefined) checkEvents(options.events);
  const local = (time: number) => localTime(time, offset);
  const data = isBuckets(readings)
    ? bucketData(readings, options, offset)
    : readingData(readings as readonly ReportReading[], options, offset);
  const forecast = localForecasts(options.forecast, local);
  const frame = frameOf(data, forecast, options, texts);
  const panels = data.series.map((each, i) => panelOf(data.ranges[i] as SizeRange, each, frame));
  for (const { figure, series } of data.figures) panels.push(figurePanelOf(figure, series, texts));
  const span = spanFor(data.span, forecast, options, local);
  const scales = panels.map(({ scale }) => scale);
  const left = axisRoom(scales, texts);
  const right = labelRoom(panels);
  const time = { span, plot: width - left - right };
  const listed = inTimeOrder(within(options.events ?? [], options));
  const zoned = haveSeveral([...zoneTimes(data, options), ...listed.map((event) => event.time)].map(offset));
  const at: MomentText = (moment) => momentText(moment.time, moment.utcOffsetMinutes, zoned);
  const events = eventsIn(span, listed, offset, at);
  const numbers = eventNumbers(events, time);
  const period = periodOf(data, span, forecast, options, offset, texts);
  const parts: ChartPart[] = panels.map((panel, i) => ({
    height: panel.scale.height,
    spec: panelSpec(panel, {
      time,
      left,
      last: i === panels.length - 1 && period !== null,
      events,
      numbers: i === 0 ? numbers : [],
      some: data.some,
      texts,
    }),
  }));
  const said = period === null ? [] : wrapped(period, width - 2 * rim);
  parts.push(textPart([...said, ...eventList(events, width - 2 * rim, texts)], left));
  const notes = notesOf(options, panels, time, data, frame);
  return chart({
    look,
    notes,
    description: trendAlternative({ ...data, title, period, panels, notes, events, offset, at }, texts),
    left,
    right,
    above: events.length > 0 ? 44 : 28,
    overhang: events.length > 0 ? 36 : 20,
    between: 34,
    below: 0,
    parts,
  });
}

function frameOf(
  { table, sizing }: TrendData,
  forecast: readonly ChartForecast[],
  { target, alarm }: TrendChartOptions,
  texts: Texts,
): PanelFrame {
  const kept = target === undefined ? [] : codeAtSizes(table, target, sizing, 'options.target');
  const raised = alarm === undefined ? [] : codeAtSizes(table, alarm, sizing, 'options.alarm');
  if (target !== undefined && alarm !== undefined && areSwapped(kept, raised)) {
    const expected = `no cleaner than options.target, ${codeText(target)}`;
    throw motescaleError('out_of_range', 'options.alarm', codeText(alarm), expected);
  }
  return { table, sizing, target: kept, alarm: raised, forecast, texts };
}

/** Whether the alarm is cleaner than the target at some size, and dirtier at none. */
function areSwapped(target: readonly CodeAtSize[], alarm: readonly CodeAtSize[]): boolean {
  let cleaner = false;
  for (const { size, upTo } of alarm) {
    const kept = atSize(target, size);
    if (kept === null) continue;
    const [limit, keptTo] = [upTo ?? Infinity, kept.upTo ?? Infinity];
    if (limit > keptTo) return false;
    cleaner = cleaner || limit < keptTo;
  }
  return cleaner;
}

/** Room on the right for the names of the classes. */
function labelRoom(panels: readonly Panel[]): number {
  const widths = panels.map(({ labels }) => bold * widestOf(labels.map(({ text }) => text)) + 7 + rim / 2);
  return Math.ceil(Math.max(2 * rim, ...widths));
}

function localForecasts(forecast: TrendChartOptions['forecast'], local: (time: number) => number): ChartForecast[] {
  return checkForecasts(forecast).map((each) => ({
    ...each,
    from: local(each.from),
    time: local(each.time),
    earliest: local(each.earliest),
    latest: each.latest === null ? null : local(each.latest),
  }));
}

/** The events that stand on the axis. */
function eventsIn(
  { from, to }: TimeSpan,
  listed: readonly PeriodEvent[],
  offset: OffsetAt,
  at: MomentText,
): ChartEvent[] {
  return listed
    .map(({ time, text }) => ({
      time: localTime(time, offset),
      text: text.replace(/\s+/g, ' '),
      at: at({ time, utcOffsetMinutes: offset(time) }),
    }))
    .filter(({ time }) => time >= from && time <= to);
}

/** From when to when the axis of time reaches. */
function spanFor(
  data: TimeSpan | null,
  forecast: readonly ChartForecast[],
  { from, to }: TrendChartOptions,
  local: (time: number) => number,
): TimeSpan {
  const start = from === undefined ? (data?.from ?? (to === undefined ? 0 : local(to) - hour)) : local(from);
  let end = to === undefined ? Math.max(start, data?.to ?? start) : local(to);
  for (const each of forecast) end = Math.max(end, forecastEnd(each));
  return end > start ? { from: start, to: end } : { from: start - hour / 2, to: start + hour / 2 };
}

/** What is said of the time: the readings' own where the ends are not given; a forecast is told apart. */
function shownSpan({ span, open }: TrendData, axis: TimeSpan, options: TrendChartOptions, offset: OffsetAt): TimeSpan {
  const { from, to } = options;
  const own = span === null ? axis : { from: span.from, to: open ? Math.max(span.from, span.to - 1) : span.to };
  if (from === undefined && to === undefined) return own;
  return { from: axis.from, to: to === undefined ? Math.max(axis.from, own.to) : localTime(to, offset) };
}

/** Moments whose zones are named: of the readings, and the ends of the axis where they are given. */
function zoneTimes({ moments }: TrendData, { from, to }: TrendChartOptions): number[] {
  return [from, ...moments, to].filter((time): time is number => time !== undefined);
}

/** The days that the chart spans; null without readings and ends: there is no time to write. */
function periodOf(
  data: TrendData,
  axis: TimeSpan,
  forecast: readonly ChartForecast[],
  options: TrendChartOptions,
  offset: OffsetAt,
  texts: Texts,
): string | null {
  const { from, to } = options;
  if (data.span === null && from === undefined && to === undefined && forecast.length === 0) return null;
  const zone = zonesOf(zoneTimes(data, options), offset);
  const shown = shownSpan(data, axis, options, offset);
  const first = dateText(shown.from);
  const last = dateText(shown.to);
  const period =
    first === last
      ? fill(texts.charts.day, { day: first, zone })
      : fill(texts.charts.period, { from: first, to: last, zone });
  if (forecast.length === 0) return period;
  const ends = forecast.map(({ latest }) => Math.min(latest ?? axis.to, axis.to));
  return fill(texts.charts.forecastPeriod, { period, to: dateText(Math.max(...ends)) });
}

/** What the chart shows, and what its marks mean. */
function notesOf(
  options: TrendChartOptions,
  panels: readonly Panel[],
  time: TimeScale,
  { known, table, ranges, otherCodes, otherCounts }: TrendData,
  { target, sizing, forecast, texts }: PanelFrame,
): string[] {
  const { charts } = texts;
  const notes = [particlesText(ranges, texts)];
  const noteUndrawn = (of: readonly SizeRange[], template: string) => {
    const sizes = of.filter((range) => !isAmong(ranges, range)).map((range) => rangeText(range, sizing, texts));
    if (sizes.length > 0) notes.push(fill(template, { sizes: sizes.join(', ') }));
  };
  if (known) notes.push(fill(charts.classes, { standard: shortTitle(table) }));
  if (options.target !== undefined) notes.push(fill(charts.target, { code: codeText(options.target) }));
  noteUndrawn(target.map(rangeOf), charts.notCounted);
  if (options.alarm !== undefined) notes.push(fill(charts.alarm, { code: codeText(options.alarm) }));
  const counts = panels.filter(({ figure: word }) => word === null);
  const buckets = bucketNotes(panels, texts);
  notes.push(...buckets, ...knownNotes(panels, texts));
  if (panels.some(({ series }) => series.buckets.some(({ thin }) => thin))) notes.push(charts.thinMark);
  if (panels.some(({ series }) => newestOf(series).length > 0)) notes.push(charts.newestMark);
  if (buckets.length === 0 && panels.some(({ series }) => series.codes.length > 0)) notes.push(charts.codeBand);
  if (counts.some(({ series }) => series.codes.some(isTooMany))) notes.push(charts.tooManyMark);
  if (otherCounts > 0) notes.push(fill(charts.otherCounts, { number: whole(otherCounts, texts) }));
  if (otherCodes > 0) notes.push(fill(charts.otherCodes, { number: whole(otherCodes, texts) }));
  noteUndrawn(forecast.map(rangeOf), charts.otherForecasts);
  if (panels.some((panel) => panel.forecast.length > 0)) notes.push(charts.forecast);
  for (const { forecast: drawn, title } of panels) {
    for (const each of drawn) {
      notes.push(crossingText(each, title, texts));
      if (each.latest !== null && each.latest <= time.span.to) continue;
      const places = { size: title, to: dateText(time.span.to) };
      notes.push(fill(each.latest === null ? charts.forecastOpen : charts.forecastCut, places));
    }
  }
  const isUncertain = ({ points, uncertainCodes }: TrendSeries) =>
    uncertainCodes.length > 0 || points.some(({ quality }) => quality === 'uncertain');
  if (panels.some(({ series }) => isUncertain(series))) notes.push(charts.uncertainMark);
  const bad = panels.map(({ series }) => badMarks(series, time));
  if (bad.some(({ crosses }) => crosses.length > 0)) notes.push(charts.badMark);
  if (bad.some(({ spans }) => spans.length > 0)) notes.push(charts.badSpan);
  const isNone = ({ count, quality }: TrendSeries['points'][number]) => count === 0 && quality !== 'bad';
  if (counts.some(({ series }) => series.points.some(isNone))) notes.push(charts.zeroMark);
  return notes;
}

/** When a forecast reaches its level. */
function crossingText({ level, time, earliest, latest }: ChartForecast, size: string, texts: Texts): string {
  const { crossing, crossingOpen } = texts.charts;
  return fill(latest === null ? crossingOpen : crossing, {
    size,
    level: figure(level, texts),
    date: dateText(time),
    earliest: dateText(earliest),
    latest: latest === null ? '' : dateText(latest),
  });
}

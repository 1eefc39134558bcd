/**
 * A trend as a chart: one panel for each size, counts on the left, the classes of the standard on the right, spans of target and alarm behind.
 */
import { requireObject, requirePositive } from '../checks.ts';
import type { ClassTable, Code } from '../codes/index.ts';
import { type ChartSpec, chart } from './chartSpec.ts';
import { chartTable, codeAtSizes, codeText, shortTitle, tableSizes } from './classSteps.ts';
import { checkReadings, inTimeOrder, type ReportReading, sizesOf } from './reportReading.ts';
import { dateText, requireUtcOffset, zoneText } from './timeText.ts';
import { type PanelPoint, trendPanel } from './trendPanel.ts';

/** What to draw beside the readings. */
export interface TrendChartOptions {
  readonly title?: string;
  /** The standard whose classes are drawn; ISO 4406 where left out. Cumulative only. */
  readonly table?: ClassTable;
  /** The code to be kept. */
  readonly target?: string | Code;
  /** The dirtiest code without an alarm. */
  readonly alarm?: string | Code;
  /** Minutes ahead of UTC in which times are written; 0 where left out. */
  readonly utcOffsetMinutes?: number;
  /** Width of the panels in pixels; 640 where left out. */
  readonly width?: number;
}

/**
 * A trend of counts and codes as a Vega-Lite specification. A panel for each size that the table judges and that was counted (for every size,
 * if there is none): counts per mL on a logarithmic scale marked at the limits of the classes, the classes named on the right. White
 * is in target, light grey above target, dark grey in alarm.
 *
 * A line joins good and uncertain readings. It breaks where a reading is bad and where there is a gap of more than three times the usual
 * interval, the median of those above 0; a reading with none beside it to be joined to is a point. Uncertain readings have a circle, bad ones a cross, counts of 0 a triangle at the lower edge. The scale is set by
 * good and uncertain readings; a bad one beyond it stands at its edge.
 *
 * Every reading is drawn: roll up a year of them first. Source of the classes: the table.
 *
 * @throws `empty`; `sizing_not_convertible`; `bad_code`; `not_convertible` for a table of ranges; what readings can throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { trendChart } from 'motescale/report';
 * const readings = [1890, 2100, 2700].map((at4, i) => ({ time: i * 3600000, counts: cumulativeCounts({ 4: at4, 6: 402, 14: 33 }) }));
 * const spec = trendChart(readings, { title: 'Lock 3, power unit A', target: '18/16/13', alarm: '19/17/14' });
 * (spec.vconcat as unknown[]).length; // => 3
 * ```
 */
export function trendChart(readings: readonly ReportReading[], options: TrendChartOptions = {}): ChartSpec {
  const sizing = checkReadings(readings, 'readings');
  requireObject(options, 'options', 'an object', ['title', 'table', 'target', 'alarm', 'utcOffsetMinutes', 'width']);
  const offset = requireUtcOffset(options.utcOffsetMinutes ?? 0, 'options.utcOffsetMinutes');
  const width = requirePositive(options.width ?? 640, 'options.width');
  const table = chartTable(options.table, sizing);
  const target = options.target === undefined ? [] : codeAtSizes(table, options.target, sizing);
  const alarm = options.alarm === undefined ? [] : codeAtSizes(table, options.alarm, sizing);
  const counted = sizesOf(readings);
  const judged = tableSizes(table, sizing).filter((size) => counted.indexOf(size) >= 0);
  const sizes = judged.length > 0 ? judged : counted;
  const points = pointsOf(readings, offset);
  const panels = sizes.map((size, i) =>
    trendPanel({
      size,
      sizing,
      table,
      points,
      target,
      alarm,
      width,
      timeTitle: timeTitle(points, zoneText(offset)),
      last: i === sizes.length - 1,
    }),
  );
  return chart(
    options.title ?? 'Particle counts',
    legend(readings, options, judged.length > 0 ? shortTitle(table) : null),
    {
      vconcat: panels,
      spacing: 20,
      bounds: 'flush',
    },
  );
}

/** Readings in order of time, with the number of the unbroken stretch each belongs to. */
function pointsOf(readings: readonly ReportReading[], offset: number): PanelPoint[] {
  const inOrder = inTimeOrder(readings);
  const steps: number[] = [];
  inOrder.forEach(({ time }, i) => {
    const step = time - (inOrder[i - 1]?.time ?? time);
    // two readings of one time say nothing of the usual interval
    if (step > 0) steps.push(step);
  });
  steps.sort((a, b) => a - b);
  const usual = steps[Math.floor(steps.length / 2)] ?? 0;
  let stretch = 0;
  return inOrder.map(({ time, counts, quality = 'good' }, i) => {
    const before = inOrder[i - 1];
    if (before !== undefined && (before.quality === 'bad' || time - before.time > 3 * usual)) stretch += 1;
    return { time: time + offset * 60000, counts, quality, stretch };
  });
}

/** The dates that the chart spans. */
function timeTitle(points: readonly PanelPoint[], zone: string): string {
  const first = dateText((points[0] as PanelPoint).time, 0);
  const last = dateText((points[points.length - 1] as PanelPoint).time, 0);
  return `${first === last ? first : `${first} to ${last}`} (${zone})`;
}

/** Short lines: a renderer that cannot measure text takes it for wider than it is. */
function legend(readings: readonly ReportReading[], options: TrendChartOptions, standard: string | null): string[] {
  const lines = [`Particles of a size and larger per mL${standard === null ? '' : `; on the right, ${standard}`}`];
  const spans: string[] = [];
  if (options.target !== undefined) spans.push(`white: within target ${codeText(options.target)}`);
  if (options.alarm !== undefined) spans.push(`dark grey: above alarm limit ${codeText(options.alarm)}`);
  if (spans.length > 0) lines.push(spans.join('; '));
  const marks: string[] = [];
  const has = (quality: string) => readings.some((reading) => reading.quality === quality);
  if (has('uncertain')) marks.push('○ uncertain reading');
  if (has('bad')) marks.push('× bad reading, not joined');
  if (readings.some(({ counts }) => counts.perMl.indexOf(0) >= 0)) marks.push('▽ none counted');
  if (marks.length > 0) lines.push(marks.join('; '));
  return lines;
}

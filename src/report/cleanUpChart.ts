/**
 * A clean-up as a chart: the count at each size over the minutes of filtering, and when the target is reached.
 */
import { requireFilledArray, requireNonNegative, requireObject, requirePositive } from '../checks.ts';
import { type ClassTable, type Code, limitsOf } from '../codes/index.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import {
  type CleanUpPoint,
  cleanUpCurve,
  type TankBySize,
  type TimeToCode,
  timeToReachCode,
} from '../filtration/index.ts';
import { type ChartSpec, chart, dashes, ink, rimmedText, shapes } from './chartSpec.ts';
import { atSize, type CodeAtSize, chartTable, codeAtSizes, codeText, shortTitle, tableSizes } from './classSteps.ts';
import { decadesOf, held, type Span, spanOf } from './countScale.ts';
import { durationText } from './figures.ts';
import { countOf, sizeText } from './reportReading.ts';

/** What to draw. */
export interface CleanUpChartOptions {
  readonly title?: string;
  /** How long to draw, in minutes. */
  readonly minutes: number;
  /** The standard the target is written in; ISO 4406 where left out. Cumulative only. */
  readonly table?: ClassTable;
  /** The code to be reached. */
  readonly target?: string | Code;
  /** Counts measured on the way, to be held against the curve. */
  readonly measured?: readonly CleanUpPoint[];
  /** Width in pixels; 560 where left out. */
  readonly width?: number;
}

/**
 * The clean-up of a tank as a Vega-Lite specification: counts per mL at each size, logarithmic, over minutes (hours beyond four), as
 * `cleanUpCurve` has them. Lines differ by dashes, measured counts by shapes. A target is drawn as a thin line at each size up to a dot
 * where it is reached, and an upright where all are.
 *
 * It shows what a well-mixed tank would do; see `cleanUp` for what that assumes. Before a machine runs, a sample decides.
 *
 * @throws as `cleanUpCurve` and `timeToReachCode`; `bad_code`; `not_convertible` for a table of ranges.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { cleanUpChart } from 'motescale/report';
 * const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
 * const spec = cleanUpChart({ litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] }, { minutes: 60, target: '16/14/11' });
 * JSON.stringify(spec.title).indexOf('reached after 28 min') > 0; // => true
 * ```
 */
export function cleanUpChart(tank: TankBySize, options: CleanUpChartOptions): ChartSpec {
  requireObject(options, 'options', 'options { minutes }');
  const minutes = requirePositive(options.minutes, 'options.minutes', 'minutes of filtering, above 0');
  const width = requirePositive(options.width ?? 560, 'options.width');
  const curve = cleanUpCurve(tank, minutes, 120);
  const { sizing } = tank.counts;
  const table = chartTable(options.table, sizing);
  const targets = options.target === undefined ? [] : codeAtSizes(table, options.target, sizing);
  const time = options.target === undefined ? null : timeToReachCode(tank, limitsOf(table, options.target, sizing));
  const measured = checkMeasured(options.measured ?? [], minutes);
  const judged = tableSizes(table, sizing).filter((size) => tank.counts.sizes.indexOf(size) >= 0);
  const sizes = judged.length > 0 ? judged : tank.counts.sizes;
  const span = spanFor(sizes, curve, targets, measured);
  const hours = minutes > 240;
  const unit = hours ? 60 : 1;
  const lines: ChartSpec[] = [];
  sizes.forEach((size, i) => {
    lines.push(...lineLayers(size, i, curve, measured, span, unit, sizeText(size, sizing)));
  });
  return chart(options.title ?? 'Clean-up', subtitle(options, shortTitle(table), time, measured.length > 0), {
    width,
    height: 340,
    layer: [...targetLayers(targets, time, span, minutes, unit), ...lines, ...reachedLayers(time, span, minutes, unit)],
    encoding: {
      x: {
        field: 'time',
        type: 'quantitative',
        scale: { domain: [0, minutes / unit], nice: false },
        axis: { title: `${hours ? 'hours' : 'minutes'} of filtering`, grid: false, tickCount: 8 },
      },
      y: {
        field: 'perMl',
        type: 'quantitative',
        scale: { type: 'log', domain: [span.low, span.high], nice: false },
        axis: { title: 'particles of a size and larger, per mL', values: decadesOf(span), labelExpr: 'datum.value' },
      },
    },
  });
}

/** From the start down to a decade below the lowest target, or to what is reached, but never lower than one particle in 100 mL. */
function spanFor(
  sizes: readonly number[],
  curve: readonly CleanUpPoint[],
  targets: readonly CodeAtSize[],
  measured: readonly CleanUpPoint[],
): Span {
  const counts: number[] = [];
  for (const point of [...curve, ...measured]) for (const size of sizes) counts.push(countOf(point.counts, size) ?? 0);
  let floor = 0.01;
  let least = 0;
  for (const { upTo } of targets) if (upTo !== null && (least === 0 || upTo < least)) least = upTo;
  if (least > 0) floor = Math.max(floor, least / 8);
  return spanOf([...counts.map((count) => Math.max(count, floor)), ...(least > 0 ? [least] : [])], []);
}

function lineLayers(
  size: number,
  i: number,
  curve: readonly CleanUpPoint[],
  measured: readonly CleanUpPoint[],
  span: Span,
  unit: number,
  name: string,
): ChartSpec[] {
  const rows = (points: readonly CleanUpPoint[]) => {
    const values: { time: number; perMl: number }[] = [];
    for (const { minutes, counts } of points) {
      const perMl = countOf(counts, size);
      if (perMl !== null && perMl >= span.low) values.push({ time: minutes / unit, perMl });
    }
    return values;
  };
  const values = rows(curve);
  const place = values[values.length - 1];
  return [
    {
      data: { values },
      mark: { type: 'line', color: ink.data, strokeWidth: 1.8, strokeDash: dashes[i % dashes.length] },
    },
    {
      data: { values: rows(measured) },
      mark: { type: 'point', shape: shapes[i % shapes.length], fill: 'white', stroke: ink.data, size: 42, opacity: 1 },
    },
    ...rimmedText(
      place === undefined ? [] : [{ ...place, name }],
      { align: 'left', dx: 7 },
      { text: { field: 'name' } },
    ),
  ];
}

/** A thin line at each limit, up to where the size reaches it. */
function targetLayers(
  targets: readonly CodeAtSize[],
  time: TimeToCode | null,
  span: Span,
  minutes: number,
  unit: number,
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
    ...named(dots, { align: 'left', dx: 6, dy: -9 }),
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

function reachedLayers(time: TimeToCode | null, span: Span, minutes: number, unit: number): ChartSpec[] {
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
      { align: 'left', dx: 6, dy: 10, fontWeight: 'bold' },
      {
        y: { field: 'high', type: 'quantitative' },
        text: { field: 'text' },
      },
    ),
  ];
}

function subtitle(
  options: CleanUpChartOptions,
  standard: string,
  time: TimeToCode | null,
  measured: boolean,
): string[] {
  const lines = ['A well-mixed tank, by calculation; reality takes longer'];
  if (measured) lines.push('lines: calculated; marks: measured');
  if (options.target === undefined || time === null) return lines;
  return [...lines, `target ${standard} ${codeText(options.target)}: ${outcomeText(time)}`];
}

function outcomeText({ minutes, heldUntil, slowestSize }: TimeToCode): string {
  if (minutes === null) return `never reached; ${slowestSize} µm prevents it`;
  const reached = minutes === 0 ? 'met from the start' : `reached after ${durationText(minutes)}`;
  return heldUntil === null ? reached : `${reached}, lost again after ${durationText(heldUntil)}`;
}

function checkMeasured(measured: readonly CleanUpPoint[], minutes: number): readonly CleanUpPoint[] {
  if (!Array.isArray(measured) || measured.length > 0) requireFilledArray(measured, 'options.measured');
  measured.forEach((point, i) => {
    requireObject(point, `options.measured[${i}]`, 'a point { minutes, counts }');
    requireNonNegative(point.minutes, `options.measured[${i}].minutes`);
    checkCounts(point.counts, `options.measured[${i}].counts`);
  });
  return measured.filter((point) => point.minutes <= minutes);
}

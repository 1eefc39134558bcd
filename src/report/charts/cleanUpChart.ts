/** A clean-up as a chart: the count at each size over the minutes of filtering, and when the target is reached. */
import { requireNonNegative, requireObject, requirePositive, requireWholeArray } from '../../checks.ts';
import { type ClassTable, type Code, limitsOf } from '../../codes/index.ts';
import { checkCounts } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/index.ts';
import { motescaleError } from '../../errors.ts';
import {
  type CleanUpPoint,
  cleanUpCurve,
  type TankBySize,
  type TimeToCode,
  timeToReachCode,
} from '../../filtration/index.ts';
import { atSize, type CodeAtSize, codeAtSizes, codeText, shortTitle, tableOr } from '../classSteps.ts';
import { requireLook } from '../look.ts';
import { countIn, particlesText, rangeOf, rangeText, type SizeRange, tableRanges } from '../sizeRange.ts';
import { durationText, figure, fill } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { spoken } from './alternatives.ts';
import { labelsOf, numberLabel } from './axisLabels.ts';
import {
  type ChartPart,
  type ChartSpec,
  chart,
  dashTexts,
  placedTexts,
  rim,
  type Spec,
  shapeTexts,
  tablePart,
} from './chartSpec.ts';
import {
  type CleanUpFrame,
  groundOf,
  lineLayers,
  lineNames,
  reachedLayer,
  targetLayers,
  targetNames,
  targetSize,
} from './cleanUpLayers.ts';
import { axisRoom, countAxis, countEncoding, countScale, decadesOf, type Span, spanOf } from './countScale.ts';
import { roundMarks } from './figureScale.ts';
import { widestOf } from './textWidth.ts';

/** What to draw. */
export interface CleanUpChartOptions {
  readonly title?: string | undefined;
  /** How long to draw, in minutes. */
  readonly minutes: number;
  /** The standard the target is written in; ISO 4406 where left out. Cumulative only. */
  readonly table?: ClassTable | undefined;
  /** The code to be reached. */
  readonly target?: string | Code | undefined;
  /** Counts measured on the way, to be held against the curve. */
  readonly measured?: readonly CleanUpPoint[] | undefined;
  /** Width of the whole picture in pixels, 240 to 1600; 640 where left out. */
  readonly width?: number | undefined;
  /** The words of another language; English where left out. */
  readonly texts?: Texts | undefined;
  /** The version of the grammar; 6 where left out. */
  readonly vegaLite?: 5 | 6 | undefined;
}

const height = 300;

/**
 * The clean-up of a tank as a Vega-Lite specification: counts per mL at each size, logarithmic, over minutes (hours
 * beyond four), as `cleanUpCurve` has them. Lines differ by dashes, measured counts by shapes. A target is drawn as a
 * thin line at each size up to a dot where it is reached, and an upright where all are; a table below says when.
 * Minutes are rounded up. A measured count of 0 stands as a triangle in a place of its own below the scale.
 *
 * It shows what a well-mixed tank would do; see `cleanUp` for what that assumes. Before a machine runs, a sample
 * decides.
 *
 * @throws as `cleanUpCurve` and `timeToReachCode`; `bad_code`; `sizing_not_convertible` for counts measured in another
 * sizing than the tank's.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { cleanUpChart } from 'motescale/report';
 * const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
 * const cart = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };
 * const spec = cleanUpChart(cart, { minutes: 60, target: '16/14/11' });
 * JSON.stringify(spec.title).indexOf('reached after 28 min') > 0; // => true
 * ```
 */
export function cleanUpChart(tank: TankBySize, options: CleanUpChartOptions): ChartSpec {
  requireObject(options, 'options', 'options { minutes }');
  const look = requireLook(options, 'cleanUp', 640, ['minutes', 'table', 'target', 'measured']);
  const { title, width, texts } = look;
  const { charts } = texts;
  const minutes = requirePositive(options.minutes, 'options.minutes', 'minutes of filtering, above 0');
  const curve = cleanUpCurve(tank, minutes, 120);
  const { sizing } = tank.counts;
  const table = tableOr(options.table, sizing);
  const targets = options.target === undefined ? [] : codeAtSizes(table, options.target, sizing, 'options.target');
  const time = options.target === undefined ? null : timeToReachCode(tank, limitsOf(table, options.target, sizing));
  const measured = checkMeasured(options.measured ?? [], minutes, sizing);
  const judged = tableRanges(table, sizing).filter((range) => countIn(tank.counts, range) !== null);
  const ranges = judged.length > 0 ? judged : tank.counts.sizes.map((from) => ({ from, to: null }));
  const none = measured.some(({ counts }) => ranges.some((range) => countIn(counts, range) === 0));
  const scale = countScale(spanFor(ranges, curve, targets, measured), height, none);
  const hours = minutes > 240;
  const left = axisRoom([scale], texts);
  // a line may end far below its name: the name shows how it is drawn
  const lineTexts = ranges.map((range, i) => {
    const shape = measured.length > 0 ? shapeTexts[i % shapeTexts.length] : '';
    return `${shape}${dashTexts[i % dashTexts.length]} ${rangeText(range, sizing, texts)}`;
  });
  const right = Math.ceil(widestOf(lineTexts)) + 7 + rim;
  const plot = width - left - right;
  const frame: CleanUpFrame = { ranges, curve, measured, time, scale, minutes, unit: hours ? 60 : 1, plot };
  const notes = [particlesText(ranges, texts), charts.cleanUp.assumes];
  if (measured.length > 0) notes.push(charts.cleanUp.marks);
  if (none) notes.push(charts.cleanUp.zero);
  if (options.target !== undefined && time !== null) {
    notes.push(charts.cleanUp.targetMarks);
    const outcome = outcomeText(time, sizing, texts);
    notes.push(fill(charts.cleanUp.target, { standard: shortTitle(table), code: codeText(options.target), outcome }));
  }
  // what stands later lies above
  const layer = [...reachedLayer(frame), ...targetLayers(frame)];
  const ofSizes = ranges.map((range, i) => lineLayers(range, i, frame, texts));
  for (const [line] of ofSizes) layer.push(line as Spec);
  const namesOf = (range: SizeRange) => {
    const size = rangeText(range, sizing, texts);
    return [fill(charts.cleanUp.targetAt, { size }), size];
  };
  const targetTexts = targetNames(namesOf, frame);
  // a line that has to run through a name is broken there, a mark is not
  layer.push(groundOf(targetTexts));
  for (const [, ...marks] of ofSizes) layer.push(...marks);
  layer.push(placedTexts(targetTexts, { fontSize: targetSize }));
  layer.push(placedTexts(lineNames(lineTexts, frame)));
  const axisTitle = hours ? charts.cleanUp.hours : charts.cleanUp.minutes;
  const parts: ChartPart[] = [{ height, spec: { layer, encoding: axesOf(frame, axisTitle, texts) } }];
  if (time !== null) parts.push(tablePart(timeRows(time, targets, sizing, texts), width, left, 3));
  return chart({
    look,
    notes,
    description: spoken(title, notes, curveSentences(frame, sizing, texts), texts),
    left,
    right,
    above: 14,
    overhang: 0,
    between: 44,
    below: time === null ? 44 : 0,
    parts,
  });
}

/** Minutes or hours along, counts up. */
function axesOf({ scale, minutes, unit, plot }: CleanUpFrame, title: string, texts: Texts): Spec {
  const end = minutes / unit;
  const values = roundMarks(end, Math.max(3, Math.floor(plot / 60)));
  return {
    x: {
      field: 'time',
      type: 'quantitative',
      scale: { domain: [0, end], nice: false },
      axis: {
        title,
        grid: false,
        values,
        labelExpr: labelsOf(values, (value) => numberLabel(value, texts)),
        labelOverlap: true,
        labelFlush: false,
      },
    },
    y: countEncoding('perMl', scale, { ...countAxis(scale, decadesOf(scale.span), texts), grid: true }),
  };
}

/** When each size is reached, row by row, below a head. */
function timeRows(time: TimeToCode, targets: readonly CodeAtSize[], sizing: Sizing, texts: Texts): string[][] {
  const { headSize, headTarget, headReached, notReached, metFromStart } = texts.charts.cleanUp;
  const rows = time.sizes.map(({ minutes, ...range }) => [
    rangeText(rangeOf(range), sizing, texts),
    atSize(targets, range.size)?.label ?? '',
    minutes === null ? notReached : minutes === 0 ? metFromStart : durationText(minutes, texts),
  ]);
  return [[headSize, headTarget, headReached], ...rows];
}

/** The curve of each size in words. */
function curveSentences({ ranges, curve, minutes }: CleanUpFrame, sizing: Sizing, texts: Texts): string[] {
  return ranges.map((range) => {
    const at = (point: CleanUpPoint | undefined) => figure((point && countIn(point.counts, range)) ?? 0, texts);
    const places = { size: rangeText(range, sizing, texts), from: at(curve[0]), to: at(curve[curve.length - 1]) };
    return fill(texts.charts.alternative.cleanUp, { ...places, duration: durationText(minutes, texts) });
  });
}

/**
 * From the start down to an eighth of the lowest target (three scale numbers of ISO 4406), or to what is reached, but
 * not lower than one particle in 100 mL, unless the line of a size would not show: an eighth of its highest count does.
 */
function spanFor(
  ranges: readonly SizeRange[],
  curve: readonly CleanUpPoint[],
  targets: readonly CodeAtSize[],
  measured: readonly CleanUpPoint[],
): Span {
  const counts: number[] = [];
  for (const point of [...curve, ...measured])
    for (const range of ranges) counts.push(countIn(point.counts, range) ?? 0);
  let floor = 0.01;
  // a limit of none has no place on the scale
  const limits = targets.map(({ upTo }) => upTo ?? 0).filter((upTo) => upTo > 0);
  const least = limits.length === 0 ? [] : [Math.min(...limits)];
  for (const limit of least) floor = Math.max(floor, limit / 8);
  for (const range of ranges) {
    const most = Math.max(...curve.map((point) => countIn(point.counts, range) ?? 0));
    if (most > 0) floor = Math.min(floor, most / 8);
  }
  return spanOf([...counts.map((count) => Math.max(count, floor)), ...least], []);
}

function outcomeText(time: TimeToCode, sizing: Sizing, texts: Texts): string {
  const { minutes, heldUntil, slowestSize, uncertain, sizes } = time;
  const { never, metFromStart, reached, lostAgain, unsure } = texts.charts.cleanUp;
  const named = (asked: (size: number) => boolean) =>
    sizes.filter(({ size }) => asked(size)).map((range) => rangeText(rangeOf(range), sizing, texts));
  let outcome = minutes === 0 ? metFromStart : fill(reached, { duration: durationText(minutes ?? 0, texts) });
  if (minutes === null) outcome = fill(never, { size: named((size) => size === slowestSize).join('') });
  else if (heldUntil !== null)
    outcome = fill(lostAgain, { reached: outcome, duration: durationText(heldUntil, texts, 'down') });
  const few = named((size) => uncertain.indexOf(size) >= 0);
  return few.length === 0 ? outcome : fill(unsure, { outcome, sizes: few.join(', ') });
}

function checkMeasured(measured: readonly CleanUpPoint[], minutes: number, sizing: Sizing): readonly CleanUpPoint[] {
  requireWholeArray(measured, 'options.measured');
  measured.forEach((point, i) => {
    const path = `options.measured[${i}]`;
    requireObject(point, path, 'a point { minutes, counts }', ['minutes', 'counts']);
    requireNonNegative(point.minutes, `${path}.minutes`);
    checkCounts(point.counts, `${path}.counts`);
    const own = point.counts.sizing;
    if (own !== sizing)
      throw motescaleError('sizing_not_convertible', `${path}.counts.sizing`, own, `'${sizing}', as in the tank`);
  });
  return measured.filter((point) => point.minutes <= minutes);
}

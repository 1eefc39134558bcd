/** One sample as a chart: its size distribution, and the interval of counts that each number of its code stands for. */
import { type ClassTable, type Code, classify, type MeasurementErrors } from '../../codes/index.ts';
import { checkCounts } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/index.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import { atSize, type CodeAtSize, codeAtSizes, codeText, shortTitle, stepsAt, tableOr } from '../classSteps.ts';
import { requireLook } from '../look.ts';
import { unitOf } from '../reportReading.ts';
import { isAmong, particlesText, rangeOf, rangeText, tableRanges } from '../sizeRange.ts';
import { codeIn, figure, fill } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { spoken } from './alternatives.ts';
import { labelsOf, numberLabel } from './axisLabels.ts';
import { type ChartSpec, chart, rim, type Spec, tablePart } from './chartSpec.ts';
import { axisRoom, type CountScale, countAxis, countEncoding, countScale, decadesOf, spanOf } from './countScale.ts';
import {
  type CountingLimit,
  countingLimits,
  curveLayer,
  type DrawnCount,
  drawnCounts,
  errorLimits,
  intervalLayer,
  levelLayer,
  limitLayer,
  pointLayers,
  type Reach,
  targetLayer,
} from './sizeLayers.ts';
import { textWidth } from './textWidth.ts';

/** What to draw beside the counts. */
export interface SizeChartOptions {
  readonly title?: string | undefined;
  /** The standard whose code is drawn; ISO 4406 where left out. Of a table of ranges the counts of these are drawn. */
  readonly table?: ClassTable | undefined;
  /** The code to be kept. */
  readonly target?: string | Code | undefined;
  /**
   * Errors beside the counting, `{}` for the usual ones: upright lines are then limits as `codeUncertainty` has them,
   * of each count drawn.
   */
  readonly errors?: MeasurementErrors | undefined;
  /** Width of the whole picture in pixels, 240 to 1600; 560 where left out. */
  readonly width?: number | undefined;
  /** The words of another language; English where left out. */
  readonly texts?: Texts | undefined;
  /** The version of the grammar; 6 where left out. */
  readonly vegaLite?: 5 | 6 | undefined;
}

const height = 300;

/**
 * The size distribution of a sample as a Vega-Lite specification: counts per mL against size, both logarithmic, joined
 * by the `monotone` curve of `countAt`. At each size that the table judges a grey bar spans the counts that share the
 * sample's class; a heavy line marks the target. Raw counts (`counted`, `volumeMl`) get their 95 % limits of counting
 * as upright lines, or with `errors` those of all errors (as in `codeUncertainty`), at each size. The figures stand in
 * a table below.
 *
 * A count of 0 stands as a triangle in a place of its own below the scale. Sources: the table; Garwood (1936) for the
 * limits of counting.
 *
 * With a table that counts between two sizes, as NAS 1638 does, each of its ranges whose ends were counted is drawn
 * over its whole width instead: a level line at its count, its bar and its target, with the mark in the middle. The
 * open range reaches to the edge.
 *
 * @throws `sizing_not_convertible`, `missing_size` where no size is judged by the table; `bad_code`; `out_of_range` for
 * a width; `unknown_option`.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { sizeChart } from 'motescale/report';
 * const spec = sizeChart(cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }), { target: '17/15/12' });
 * JSON.stringify(spec.title).indexOf('18/16/12') > 0; // => true
 * ```
 */
export function sizeChart(counts: CumulativeCounts, options: SizeChartOptions = {}): ChartSpec {
  checkCounts(counts);
  const look = requireLook(options, 'size', 560, ['table', 'target', 'errors']);
  const { title, width, texts } = look;
  const { charts } = texts;
  const { sizing } = counts;
  const table = tableOr(options.table, sizing);
  const ranges = table.counting === 'cumulative' ? null : tableRanges(table, sizing);
  const drawn = drawnCounts(counts, ranges);
  const code = classify(table, counts);
  const isDrawn = (at: CodeAtSize) => ranges === null || isAmong(drawn, rangeOf(at));
  const asked = options.target === undefined ? [] : codeAtSizes(table, options.target, sizing, 'options.target');
  const target = asked.filter(isDrawn);
  const intervals = codeAtSizes(table, code, sizing).filter(isDrawn);
  const limits =
    options.errors === undefined ? countingLimits(counts, drawn) : errorLimits(counts, drawn, options.errors);
  const sample: Sample = { table, sizing, drawn, intervals, target, limits };
  const scale = scaleOf(sample);

  const notes = [`${shortTitle(table)} ${codeIn(code.text, texts)}`, particlesText(drawn, texts), charts.size.bar];
  if (options.target !== undefined) notes.push(fill(charts.size.target, { code: codeText(options.target) }));
  if (limits.length > 0) notes.push(options.errors === undefined ? charts.size.counting : charts.size.errors);
  if (drawn.some(({ perMl }) => perMl === 0)) notes.push(charts.zeroMark);

  const rows = rowsOf(sample, texts);
  const left = axisRoom([scale], texts);
  const plot = width - left - rim - 4;
  const sizes = sizeScale(drawn, plot);
  const reach: Reach = ranges === null ? null : { end: sizes.domain[1] };
  const layer = [
    intervalLayer(intervals, scale, reach),
    ranges === null ? curveLayer(counts, scale) : levelLayer(drawn, scale, reach),
    limitLayer(limits, scale, reach),
    targetLayer(target, scale, reach),
    ...pointLayers(drawn, scale, reach),
  ];
  return chart({
    look,
    notes,
    description: spoken(title, notes, countSentences(sample, texts), texts),
    left,
    right: rim + 4,
    above: 14,
    overhang: 0,
    between: 44,
    below: 0,
    parts: [{ height, spec: { layer, encoding: axes(sample, scale, sizes, texts) } }, tablePart(rows, width, left, 1)],
  });
}

/** What is drawn. */
interface Sample {
  readonly table: ClassTable;
  readonly sizing: Sizing;
  readonly drawn: readonly DrawnCount[];
  readonly intervals: readonly CodeAtSize[];
  readonly target: readonly CodeAtSize[];
  readonly limits: readonly CountingLimit[];
}

/** The axis of counts, with room for all that is drawn. */
function scaleOf({ table, sizing, drawn, intervals, target, limits }: Sample): CountScale {
  const counts = drawn.map(({ perMl }) => perMl);
  for (const { above, upTo } of intervals) counts.push(above, upTo ?? 0);
  for (const { upTo } of target) counts.push(upTo ?? 0);
  for (const { low, high } of limits) counts.push(low, high);
  const steps = stepsAt(table, sizing, (intervals[0] as CodeAtSize).size);
  const none = drawn.some(({ perMl }) => perMl === 0) || limits.some(({ low }) => low === 0);
  return countScale(spanOf(counts, steps), height, none);
}

/** Size or range, count, class and target, row by row, below a head. */
function rowsOf({ drawn, sizing, intervals, target }: Sample, texts: Texts): string[][] {
  const { sizeHead, perMlHead, classHead, targetHead } = texts.charts.size;
  const rows = drawn.map((one) => [
    rangeText(one, sizing, texts),
    figure(one.perMl, texts),
    atSize(intervals, one.from)?.label ?? '',
    atSize(target, one.from)?.label ?? '',
  ]);
  return [[sizeHead, perMlHead, classHead, target.length > 0 ? targetHead : ''], ...rows];
}

function countSentences({ drawn, sizing, intervals }: Sample, texts: Texts): string[] {
  return drawn.map((one) => {
    const label = atSize(intervals, one.from)?.label ?? '-';
    const places = { size: rangeText(one, sizing, texts), perMl: figure(one.perMl, texts), class: label };
    return fill(texts.charts.alternative.sample, places);
  });
}

/** The ends of the axis of sizes, and the sizes that have room to be written below it. */
interface SizeScale {
  readonly domain: readonly [number, number];
  readonly values: readonly number[];
}

function sizeScale(drawn: readonly DrawnCount[], plot: number): SizeScale {
  const sizes = endsOf(drawn);
  const smallest = sizes[0] as number;
  const largest = sizes[sizes.length - 1] as number;
  // a share of the span of sizes, so that the outer bars stand within
  const room = Math.max(1.25, exp(0.12 * log(largest / smallest)));
  const domain: [number, number] = [smallest / room, largest * room];
  const values: number[] = [];
  let end = -Infinity;
  for (const size of sizes) {
    const x = (plot * log(size / domain[0])) / log(domain[1] / domain[0]);
    const half = textWidth(String(size)) / 2;
    if (x - half < end + 5) continue;
    values.push(size);
    end = x + half;
  }
  return { domain, values };
}

/** The sizes at which what is drawn begins or ends, upwards. */
function endsOf(drawn: readonly DrawnCount[]): number[] {
  const ends: number[] = [];
  for (const { from, to } of drawn) {
    if (ends[ends.length - 1] !== from) ends.push(from);
    if (to !== null) ends.push(to);
  }
  return ends;
}

/** Powers of ten; of one size alone the ends of its bar too, which are those of its class, and come first. */
function marksOf({ span }: CountScale, intervals: readonly CodeAtSize[]): number[] {
  const { above, upTo } = intervals[0] as CodeAtSize;
  const ends = intervals.length > 1 ? [] : [above, upTo ?? 0];
  return [...decadesOf(span), ...ends.filter((end) => end >= span.low && end <= span.high)];
}

function axes({ sizing, intervals }: Sample, scale: CountScale, sizes: SizeScale, texts: Texts): Spec {
  return {
    x: {
      field: 'size',
      type: 'quantitative',
      scale: { type: 'log', domain: sizes.domain, nice: false },
      axis: {
        title: fill(texts.charts.size.axis, { unit: unitOf(sizing) }),
        values: sizes.values,
        grid: false,
        labelExpr: labelsOf(sizes.values, (size) => numberLabel(size, texts)),
        labelOverlap: false,
      },
    },
    y: countEncoding('perMl', scale, { ...countAxis(scale, marksOf(scale, intervals), texts), grid: true }),
  };
}

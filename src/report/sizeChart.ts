/**
 * One sample as a chart: its size distribution, and the interval of counts that each number of its code stands for.
 */
import { requireMembers, requireObject, requirePositive } from '../checks.ts';
import { type ClassTable, type Code, classify, type MeasurementErrors } from '../codes/index.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { type ChartSpec, chart } from './chartSpec.ts';
import { type CodeAtSize, chartTable, codeAtSizes, codeText, shortTitle, stepsAt } from './classSteps.ts';
import { decadesOf, type Span, spanOf } from './countScale.ts';
import { unitOf } from './reportReading.ts';
import {
  countingLimits,
  curveLayer,
  errorLimits,
  intervalLayers,
  limitLayer,
  pointLayers,
  targetLayers,
} from './sizeLayers.ts';

/** What to draw beside the counts. */
export interface SizeChartOptions {
  readonly title?: string;
  /** The standard whose code is drawn; ISO 4406 where left out. Cumulative only. */
  readonly table?: ClassTable;
  /** The code to be kept. */
  readonly target?: string | Code;
  /** Errors beside the counting, `{}` for the usual ones: the thin lines are then the limits of `codeUncertainty`. */
  readonly errors?: MeasurementErrors;
  /** Width in pixels; 480 where left out. */
  readonly width?: number;
}

/**
 * The size distribution of a sample as a Vega-Lite specification: counts per mL against size, both logarithmic, joined by the `monotone`
 * curve of `countAt`. At each size that the table judges a grey bar spans the counts that share the sample's class, with the class beside
 * it; a heavy line marks the target. Raw counts (`counted`, `volumeMl`) get their 95 % limits of counting as
 * thin lines, or with `errors` those of `codeUncertainty`.
 *
 * A count of 0 stands as a triangle at the lower edge. Sources: the table; Garwood (1936) for the limits of counting.
 *
 * @throws `sizing_not_convertible`, `missing_size` where no size is judged by the table; `not_convertible` for a table of ranges;
 * `bad_code`.
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
  requireMembers(requireObject(options, 'options'), 'options', ['title', 'table', 'target', 'errors', 'width']);
  const width = requirePositive(options.width ?? 480, 'options.width');
  const table = chartTable(options.table, counts.sizing);
  const code = classify(table, counts);
  const target = options.target === undefined ? [] : codeAtSizes(table, options.target, counts.sizing);
  const intervals = codeAtSizes(table, code, counts.sizing);
  const limits = options.errors === undefined ? countingLimits(counts) : errorLimits(table, counts, options.errors);
  const ends = intervals.map(({ upTo }) => upTo ?? 0);
  const starts = intervals.map(({ above }) => above);
  const targets = target.map(({ upTo }) => upTo ?? 0);
  const steps = stepsAt(table, counts.sizing, (intervals[0] as CodeAtSize).size);
  const span = spanOf([...counts.perMl, ...starts, ...ends, ...targets, ...limits.map(({ high }) => high)], steps);
  const subtitle = [`${shortTitle(table)}: ${code.text}`, 'grey bar: counts that share this class'];
  if (options.target !== undefined) subtitle.push(`heavy line: target ${codeText(options.target)}`);
  if (limits.length > 0) {
    subtitle.push(`thin line: 95 % limits of ${options.errors === undefined ? 'counting' : 'all errors together'}`);
  }
  return chart(options.title ?? 'Size distribution', subtitle, {
    width,
    height: 340,
    layer: [
      ...intervalLayers(intervals, limits, span),
      curveLayer(counts, span),
      limitLayer(limits, span),
      ...targetLayers(target, counts, span),
      ...pointLayers(counts, span),
    ],
    encoding: axes(counts, span),
  });
}

function axes(counts: CumulativeCounts, span: Span): ChartSpec {
  const smallest = counts.sizes[0] as number;
  const largest = counts.sizes[counts.sizes.length - 1] as number;
  // a share of the span of sizes, for what is written beside the outer ones
  const room = (share: number) => Math.max(1.25, exp(share * log(largest / smallest)));
  return {
    x: {
      field: 'size',
      type: 'quantitative',
      scale: { type: 'log', domain: [smallest / room(0.22), largest * room(0.12)], nice: false },
      axis: { title: `size, ${unitOf(counts.sizing)}`, values: counts.sizes, grid: false, labelExpr: 'datum.value' },
    },
    y: {
      field: 'perMl',
      type: 'quantitative',
      scale: { type: 'log', domain: [span.low, span.high], nice: false },
      axis: { title: 'particles of a size and larger, per mL', values: decadesOf(span), labelExpr: 'datum.value' },
    },
  };
}

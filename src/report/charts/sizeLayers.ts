/**
 * The layers of a size chart: the intervals of the code, the curve, the limits of counting, the target, and the counts
 * themselves. What is of a range lies over the whole of it, with its mark in the middle.
 */
import type { MeasurementErrors } from '../../codes/index.ts';
import { unsureColumns } from '../../codes/uncertainty/budget.ts';
import { checkErrors } from '../../codes/uncertainty/errors.ts';
import { quantile } from '../../codes/uncertainty/spread.ts';
import { type CumulativeCounts, countAt, countInterval, type Sizing } from '../../counts/index.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import type { CodeAtSize } from '../classSteps.ts';
import { countIn, rangeOf, type SizeRange } from '../sizeRange.ts';
import { ink, layerOf, type Spec } from './chartSpec.ts';
import { type CountScale, drawnAt, held, type Span } from './countScale.ts';

/** A count that is drawn: of a size and larger, or of a range. */
export interface DrawnCount extends SizeRange {
  readonly perMl: number;
}

/** The counts to draw: of each size, or of each of the ranges whose ends were counted. */
export function drawnCounts(counts: CumulativeCounts, ranges: readonly SizeRange[] | null): DrawnCount[] {
  const drawn: DrawnCount[] = [];
  for (const range of ranges ?? counts.sizes.map((from) => ({ from, to: null }))) {
    const perMl = countIn(counts, range);
    if (perMl !== null) drawn.push({ ...range, perMl });
  }
  return drawn;
}

/** From where to where ranges reach on the axis of sizes: an open one to its end. Null where sizes are drawn. */
export type Reach = { readonly end: number } | null;

/** Over the whole of a range; at a size. */
function across({ from, to }: SizeRange, reach: Reach): { readonly size: number; readonly right?: number } {
  return reach === null ? { size: from } : { size: from, right: to ?? reach.end };
}

/** The middle of a range, as it is drawn; a size. */
function middle(range: SizeRange, reach: Reach): number {
  const { size, right } = across(range, reach);
  return right === undefined ? size : size * exp(log(right / size) / 2);
}

/** A bar over the counts of each class. */
export function intervalLayer(intervals: readonly CodeAtSize[], scale: CountScale, reach: Reach): Spec {
  const values = intervals.map((interval) => ({
    ...across(rangeOf(interval), reach),
    label: interval.label,
    perMl: interval.above === 0 ? scale.domain[0] : held(interval.above, scale.span),
    high: interval.upTo === null ? scale.span.high : interval.upTo,
  }));
  const look = { color: ink.bar, opacity: 1 };
  if (reach === null) {
    return layerOf(values, { type: 'rule', strokeWidth: 16, strokeCap: 'butt', ...look }, { y2: { field: 'high' } });
  }
  // a white rim tells a range from the next of the same class
  const mark = { type: 'rect', stroke: 'white', strokeWidth: 1, ...look };
  return layerOf(values, mark, { x2: { field: 'right' }, y2: { field: 'high' } });
}

/** A level line over each range. */
export function levelLayer(drawn: readonly DrawnCount[], scale: CountScale, reach: Reach): Spec {
  const values = drawn.map((one) => ({ ...across(one, reach), perMl: drawnAt(one.perMl, scale) }));
  return layerOf(values, { type: 'rule', color: ink.data, strokeWidth: 1.6 }, { x2: { field: 'right' } });
}

/** The curve between the sizes counted, as far as particles were counted. */
export function curveLayer(counts: CumulativeCounts, scale: CountScale): Spec {
  const positive = counts.perMl.filter((perMl) => perMl > 0).length;
  const values: { size: number; perMl: number }[] = [];
  for (let i = 0; i + 1 < positive; i += 1) {
    const from = counts.sizes[i] as number;
    const to = counts.sizes[i + 1] as number;
    for (let part = 0; part <= 16; part += 1) {
      const size = part === 0 ? from : part === 16 ? to : from * exp((log(to / from) * part) / 16);
      values.push({ size, perMl: held(countAt(counts, size).perMl, scale.span) });
    }
  }
  return layerOf(values, { type: 'line', color: ink.data, strokeWidth: 1.6 });
}

/** 95 % limits of the expected count of a size or range, per mL. */
export type CountingLimit = SizeRange & Span;

/** 95 % limits of the expected count per mL, where raw counts are known. */
export function countingLimits(counts: CumulativeCounts, drawn: readonly DrawnCount[]): CountingLimit[] {
  const { counted, volumeMl, dilution = 1, sizes } = counts;
  if (counted === undefined || volumeMl === undefined) return [];
  const of = (size: number | null) => (size === null ? 0 : (counted[sizes.indexOf(size)] as number));
  return drawn.map(({ from, to }) => {
    const { low, high } = countInterval(of(from) - of(to));
    return { from, to, low: (low * dilution) / volumeMl, high: (high * dilution) / volumeMl };
  });
}

/** 95 % limits of the true count per mL with all errors, as `codeUncertainty` has them, of each count drawn. */
export function errorLimits(
  counts: CumulativeCounts,
  drawn: readonly DrawnCount[],
  errors: MeasurementErrors,
): CountingLimit[] {
  const at = (size: number): { [sizing in Sizing]?: number } => ({ [counts.sizing]: size });
  const columns = drawn.map(({ from, to }) => ({
    label: String(from),
    from: at(from),
    ...(to !== null && { to: at(to) }),
  }));
  const tail = (1 - 0.95) / 2;
  const parameter = 'options.errors';
  return unsureColumns(columns, counts, checkErrors(errors, parameter), parameter).map(({ index, spread }) => {
    const { from, to, perMl } = drawn[index] as DrawnCount;
    // of none counted the line begins at 0, as that of counting alone does: it holds its own mark
    return { from, to, low: perMl === 0 ? 0 : quantile(tail, spread), high: quantile(1 - tail, spread) };
  });
}

/** The limits of counting, or of all errors, as thin lines. */
export function limitLayer(limits: readonly CountingLimit[], scale: CountScale, reach: Reach): Spec {
  const at = (count: number) => drawnAt(count, scale);
  const values = limits.map((limit) => ({ size: middle(limit, reach), perMl: at(limit.low), high: at(limit.high) }));
  return layerOf(values, { type: 'rule', color: ink.data, strokeWidth: 1.2 }, { y2: { field: 'high' } });
}

/** The limits of the target as heavy lines. */
export function targetLayer(target: readonly CodeAtSize[], scale: CountScale, reach: Reach): Spec {
  const values = target
    .filter(({ upTo }) => upTo !== null)
    .map((one) => ({ ...across(rangeOf(one), reach), perMl: held(one.upTo as number, scale.span), label: one.label }));
  const look = { color: ink.text, opacity: 1 };
  if (reach === null) return layerOf(values, { type: 'tick', orient: 'horizontal', size: 30, thickness: 3, ...look });
  return layerOf(values, { type: 'rule', strokeWidth: 3, ...look }, { x2: { field: 'right' } });
}

export function pointLayers(drawn: readonly DrawnCount[], scale: CountScale, reach: Reach): Spec[] {
  const values = drawn.map((one) => ({
    size: middle(one, reach),
    perMl: drawnAt(one.perMl, scale),
    none: one.perMl === 0,
  }));
  const points = (isNone: boolean, style: Spec) => {
    const rows = values.filter(({ none }) => none === isNone);
    return layerOf(rows, { type: 'point', opacity: 1, stroke: ink.data, strokeWidth: 1.4, ...style });
  };
  return [
    points(false, { shape: 'circle', fill: ink.data, size: 42 }),
    points(true, { shape: 'triangle-down', fill: 'white', size: 60 }),
  ];
}

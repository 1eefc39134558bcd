/**
 * The layers of a size chart: the intervals of the code, the curve, the limits of counting, the target, and the counts
 * themselves.
 */
import type { MeasurementErrors } from '../../codes/index.ts';
import { unsureColumns } from '../../codes/uncertainty/budget.ts';
import { checkErrors } from '../../codes/uncertainty/errors.ts';
import { quantile } from '../../codes/uncertainty/spread.ts';
import { type CumulativeCounts, countAt, countInterval } from '../../counts/index.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import type { CodeAtSize } from '../classSteps.ts';
import { ink, layerOf, type Spec } from './chartSpec.ts';
import { type CountScale, drawnAt, held } from './countScale.ts';

/** A bar over the counts of each class. */
export function intervalLayer(intervals: readonly CodeAtSize[], scale: CountScale): Spec {
  const values = intervals.map(({ size, label, above, upTo }) => ({
    size,
    label,
    perMl: above === 0 ? scale.domain[0] : held(above, scale.span),
    high: upTo === null ? scale.span.high : upTo,
  }));
  const mark = { type: 'rule', strokeWidth: 16, strokeCap: 'butt', color: ink.bar, opacity: 1 };
  return layerOf(values, mark, { y2: { field: 'high' } });
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

/** 95 % limits of the expected count at a size, per mL. */
interface CountingLimit {
  readonly size: number;
  readonly low: number;
  readonly high: number;
}

/** 95 % limits of the expected count per mL, where raw counts are known. */
export function countingLimits(counts: CumulativeCounts): CountingLimit[] {
  const { counted, volumeMl, dilution = 1 } = counts;
  if (counted === undefined || volumeMl === undefined) return [];
  return counts.sizes.map((size, i) => {
    const { low, high } = countInterval(counted[i] as number);
    return { size, low: (low * dilution) / volumeMl, high: (high * dilution) / volumeMl };
  });
}

/** 95 % limits of the true count per mL with all errors, as `codeUncertainty` has them, at each size counted. */
export function errorLimits(counts: CumulativeCounts, errors: MeasurementErrors): CountingLimit[] {
  const columns = counts.sizes.map((size) => ({ label: String(size), from: { [counts.sizing]: size } }));
  const tail = (1 - 0.95) / 2;
  return unsureColumns(columns, counts, checkErrors(errors, 'options.errors')).map(({ from, spread }) => ({
    size: from,
    low: quantile(tail, spread),
    high: quantile(1 - tail, spread),
  }));
}

/** The limits of counting, or of all errors, as thin lines. */
export function limitLayer(limits: readonly CountingLimit[], scale: CountScale): Spec {
  const at = (count: number) => drawnAt(count, scale);
  const values = limits.map(({ size, low, high }) => ({ size, perMl: at(low), high: at(high) }));
  return layerOf(values, { type: 'rule', color: ink.data, strokeWidth: 1.2 }, { y2: { field: 'high' } });
}

/** The limits of the target as heavy lines. */
export function targetLayer(target: readonly CodeAtSize[], scale: CountScale): Spec {
  const values: { size: number; perMl: number; label: string }[] = [];
  for (const { size, label, upTo } of target) {
    if (upTo !== null) values.push({ size, perMl: held(upTo, scale.span), label });
  }
  const mark = { type: 'tick', orient: 'horizontal', size: 30, thickness: 3, color: ink.text, opacity: 1 };
  return layerOf(values, mark);
}

export function pointLayers(counts: CumulativeCounts, scale: CountScale): Spec[] {
  const values = counts.sizes.map((size, i) => {
    const count = counts.perMl[i] as number;
    return { size, perMl: drawnAt(count, scale), none: count === 0 };
  });
  const points = (isNone: boolean, style: Spec) => {
    const rows = values.filter(({ none }) => none === isNone);
    return layerOf(rows, { type: 'point', opacity: 1, stroke: ink.data, strokeWidth: 1.4, ...style });
  };
  return [
    points(false, { shape: 'circle', fill: ink.data, size: 42 }),
    points(true, { shape: 'triangle-down', fill: 'white', size: 60 }),
  ];
}

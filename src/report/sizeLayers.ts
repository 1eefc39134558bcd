/**
 * The layers of a size chart: the intervals of the code, the curve, the limits of counting, the target, and the counts themselves.
 */
import { type ClassTable, codeUncertainty, type MeasurementErrors } from '../codes/index.ts';
import { type CumulativeCounts, countAt, countInterval } from '../counts/index.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { type ChartSpec, ink, rimmedText } from './chartSpec.ts';
import type { CodeAtSize } from './classSteps.ts';
import { held, type Span } from './countScale.ts';
import { figureText } from './figures.ts';
import { countOf } from './reportReading.ts';

/** A bar over the counts of each class, with the class above it. */
export function intervalLayers(
  intervals: readonly CodeAtSize[],
  limits: readonly CountingLimit[],
  span: Span,
): ChartSpec[] {
  const values = intervals.map(({ size, label, above, upTo }) => {
    const low = held(above, span);
    const high = upTo === null ? span.high : upTo;
    let top = high;
    for (const limit of limits) if (limit.size === size) top = Math.max(top, held(limit.high, span));
    return { size, label, perMl: low, high, top };
  });
  return [
    {
      data: { values },
      mark: { type: 'rule', strokeWidth: 16, strokeCap: 'butt', color: ink.bar, opacity: 1 },
      encoding: { y2: { field: 'high' } },
    },
    ...rimmedText(values, { dy: -9, fontWeight: 'bold' }, { y: { field: 'top' }, text: { field: 'label' } }),
  ];
}

/** The curve between the sizes counted, as far as particles were counted. */
export function curveLayer(counts: CumulativeCounts, span: Span): ChartSpec {
  const positive = counts.perMl.filter((perMl) => perMl > 0).length;
  const values: { size: number; perMl: number }[] = [];
  for (let i = 0; i + 1 < positive; i += 1) {
    const from = counts.sizes[i] as number;
    const to = counts.sizes[i + 1] as number;
    for (let part = 0; part <= 16; part += 1) {
      const size = part === 0 ? from : part === 16 ? to : from * exp((log(to / from) * part) / 16);
      values.push({ size, perMl: held(countAt(counts, size).perMl, span) });
    }
  }
  return { data: { values }, mark: { type: 'line', color: ink.data, strokeWidth: 1.6 } };
}

/** 95 % limits of the expected count at a size, per mL. */
export interface CountingLimit {
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

/** 95 % limits of the true count per mL with all errors, at the sizes that the table judges. */
export function errorLimits(table: ClassTable, counts: CumulativeCounts, errors: MeasurementErrors): CountingLimit[] {
  return codeUncertainty(table, counts, errors).columns.map(({ column, low, high }) => {
    const { from } = table.columns.filter(({ label }) => label === column)[0] as ClassTable['columns'][number];
    return { size: from[counts.sizing] as number, low, high };
  });
}

/** The limits of counting, or of all errors, as thin lines. */
export function limitLayer(limits: readonly CountingLimit[], span: Span): ChartSpec {
  const values = limits.map(({ size, low, high }) => ({ size, perMl: held(low, span), high: held(high, span) }));
  return {
    data: { values },
    mark: { type: 'rule', color: ink.data, strokeWidth: 1.2 },
    encoding: { y2: { field: 'high' } },
  };
}

/** Named on the side where the curve does not run: left of a limit that is exceeded, right of one that is kept. */
export function targetLayers(target: readonly CodeAtSize[], counts: CumulativeCounts, span: Span): ChartSpec[] {
  const values: { size: number; perMl: number; label: string; kept: boolean }[] = [];
  for (const { size, label, upTo } of target) {
    const kept = upTo !== null && (countOf(counts, size) ?? 0) <= upTo;
    if (upTo !== null) values.push({ size, perMl: held(upTo, span), label: `target ${label}`, kept });
  }
  const named = (rows: unknown, align: string, dx: number) =>
    rimmedText(rows, { align, dx }, { text: { field: 'label' } });
  return [
    {
      data: { values },
      mark: { type: 'tick', orient: 'horizontal', size: 30, thickness: 3, color: ink.text, opacity: 1 },
    },
    ...named(
      values.filter(({ kept }) => kept),
      'left',
      19,
    ),
    ...named(
      values.filter(({ kept }) => !kept),
      'right',
      -19,
    ),
  ];
}

/** The counts, with their figures. */
export function pointLayers(counts: CumulativeCounts, span: Span): ChartSpec[] {
  const values = counts.sizes.map((size, i) => {
    const count = counts.perMl[i] as number;
    return { size, perMl: held(count, span), text: figureText(count), none: count === 0 };
  });
  const point = (rows: unknown, style: ChartSpec) => ({
    data: { values: rows },
    mark: { type: 'point', opacity: 1, stroke: ink.data, strokeWidth: 1.4, ...style },
  });
  return [
    point(
      values.filter(({ none }) => !none),
      { shape: 'circle', fill: ink.data, size: 42 },
    ),
    point(
      values.filter(({ none }) => none),
      { shape: 'triangle-down', fill: 'white', size: 60 },
    ),
    ...rimmedText(values, { align: 'left', dx: 12, dy: -9 }, { text: { field: 'text' } }),
  ];
}

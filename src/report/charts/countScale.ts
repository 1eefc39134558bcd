/** The scale of a panel: logarithmic of counts, how far it must reach, and where it is marked. */
import { powerOfTen } from '../../numeric/decimal.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import type { Step } from '../classSteps.ts';
import { writtenValue } from '../measured.ts';
import type { Texts } from '../texts/types.ts';
import { labelsOf, numberLabel } from './axisLabels.ts';
import { rim, type Spec } from './chartSpec.ts';
import { textWidth } from './textWidth.ts';
import type { TrendBand } from './trend/trendSeries.ts';

/** From where to where, in particles per mL. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

/** From the least of the values to the most; from Infinity to -Infinity without any. */
export function extentOf(values: readonly number[]): Span {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return { low, high };
}

/**
 * The span that shows all the counts above zero, with a limit of the table to spare at both ends, or, where it has
 * none, a power of ten. It does not reach below one particle in a million mL.
 */
export function spanOf(counts: readonly number[], steps: readonly Step[]): Span {
  let { low: least, high: most } = extentOf(counts.filter((count) => count > 0));
  if (least > most) least = most = steps[0]?.upTo ?? 1;
  let low = 0;
  let high = 0;
  for (const { upTo } of steps) {
    if (upTo < least) low = upTo;
    if (upTo > most && high === 0 && isFinite(upTo)) high = upTo;
  }
  let exponent = -6;
  while (powerOfTen(exponent + 1) < least) exponent += 1;
  if (low === 0) low = powerOfTen(exponent);
  while (powerOfTen(exponent) <= Math.max(most, low)) exponent += 1;
  if (high === 0) high = powerOfTen(exponent);
  return { low, high };
}

/** The steps that lie within the span, cut to it. */
export function stepsWithin(steps: readonly Step[], span: Span): Step[] {
  return steps
    .filter(({ above, upTo }) => upTo > span.low && above < span.high)
    .map(({ label, above, upTo }) => ({ label, above: Math.max(above, span.low), upTo: Math.min(upTo, span.high) }));
}

/** The whole powers of ten within the span. */
export function decadesOf(span: Span): number[] {
  const decades: number[] = [];
  for (let exponent = -6; powerOfTen(exponent) <= span.high; exponent += 1) {
    if (powerOfTen(exponent) >= span.low) decades.push(powerOfTen(exponent));
  }
  return decades;
}

/** A count within the span, for what lies beyond it and must still be drawn. */
export function held(count: number, span: Span): number {
  return Math.min(Math.max(count, span.low), span.high);
}

/** A span drawn over a height in pixels, with a place of its own for 0 below it where it is needed. */
export interface CountScale {
  readonly span: Span;
  readonly height: number;
  /** Where 0 is drawn, as a count; null without such a place. */
  readonly zero: number | null;
  /** What the axis spans: the span, and the place of 0. */
  readonly domain: readonly [number, number];
  /** Of a figure that is no count: the scale is linear, and marked at these. */
  readonly marks?: readonly number[];
  /** Shares, whose marks are written as percentages. */
  readonly percent?: boolean;
}

const zeroStrip = 27;
/** Above the span, for what was too many to count. */
export const tooManyStrip = 16;

export function countScale(span: Span, height: number, hasZero: boolean, hasTooMany = false): CountScale {
  const below = hasZero ? zeroStrip : 0;
  const above = hasTooMany ? tooManyStrip : 0;
  const perPixel = log(span.high / span.low) / (height - below - above);
  const low = hasZero ? span.low / exp(below * perPixel) : span.low;
  const high = hasTooMany ? span.high * exp(above * perPixel) : span.high;
  return { span, height, zero: hasZero ? span.low / exp((below / 2) * perPixel) : null, domain: [low, high] };
}

/** A count where it is drawn: 0 in its place, what lies beyond the span at its edge. */
export function drawnAt(count: number, { span, zero }: CountScale): number {
  return count === 0 && zero !== null ? zero : held(count, span);
}

/** Where the bar of a code ends on the scale, below and above. */
export function bandEdges({ low, high }: TrendBand, scale: CountScale): { low: number; high: number } {
  return {
    // a code of the cleanest class allows 0, and is drawn down to the edge
    low: low === 0 ? scale.domain[0] : drawnAt(low, scale),
    high: high === null ? scale.domain[1] : drawnAt(high, scale),
  };
}

/** Pixels from the top of the plot. */
export function pixelOf(count: number, { domain, height, marks }: CountScale): number {
  if (marks !== undefined) return (height * (domain[1] - count)) / (domain[1] - domain[0]);
  return (height * log(domain[1] / count)) / log(domain[1] / domain[0]);
}

/** The count that stands so many pixels above another, or below it where they are negative. */
export function countBeside(count: number, pixels: number, { domain, height }: CountScale): number {
  return count * exp((log(domain[1] / domain[0]) * pixels) / height);
}

/** The axis of counts: marked at those of the values that have room, and at 0. */
export function countAxis(scale: CountScale, values: readonly number[], texts: Texts): Spec {
  const wanted = [...(scale.zero === null ? [] : [scale.zero]), ...values.slice().reverse()];
  const places = wanted.map((count) => ({ count }));
  const marks = spaced(places, scale).map(({ count }) => count);
  marks.sort((a, b) => a - b);
  return {
    title: null,
    grid: false,
    values: marks,
    ...(scale.marks === undefined ? {} : { labelOverlap: false }),
    labelExpr: labelsOf(marks, (mark) => markText(mark, scale, texts)),
  };
}

export function countEncoding(field: string, scale: CountScale, axis: Spec): Spec {
  const { domain } = scale;
  // said of the linear one alone: what is on a log scale has no 0
  const form = scale.marks === undefined ? { type: 'log', domain } : { type: 'linear', domain, zero: false };
  return { field, type: 'quantitative', scale: { ...form, nice: false }, axis };
}

/** From name to name, in pixels. */
export const leastApart = 13;

/** Those of a list that stand apart by a line of small letters, the first ones first. */
export function spaced<T extends { readonly count: number }>(list: readonly T[], scale: CountScale): T[] {
  const kept: T[] = [];
  const places: number[] = [];
  for (const item of list) {
    const y = pixelOf(item.count, scale);
    if (places.some((place) => Math.abs(place - y) < leastApart)) continue;
    kept.push(item);
    places.push(y);
  }
  return kept;
}

/** A mark as it is written: the place of 0 as 0, a share as a percentage. */
function markText(mark: number, { zero, percent }: CountScale, texts: Texts): string {
  if (mark === zero) return '0';
  const power = /^1(0{10,}|e\+\d+)$/.exec(String(mark))?.[1];
  if (power !== undefined) return `10${raised(power.charAt(0) === '0' ? power.length : Number(power.slice(2)))}`;
  return numberLabel(percent === true ? writtenValue('waterSaturation', mark) : mark, texts);
}

/** An exponent in small digits: a broken counter may give counts that no axis has room for. */
function raised(exponent: number): string {
  return String(exponent).replace(/\d/g, (digit) => '⁰¹²³⁴⁵⁶⁷⁸⁹'.charAt(Number(digit)));
}

/** Room on the left for the counts written on the axes, from the edge of the picture to the plot, in pixels. */
export function axisRoom(scales: readonly CountScale[], texts: Texts): number {
  let widest = 34;
  for (const scale of scales) {
    const { span, marks } = scale;
    for (const count of marks ?? [span.low, span.high, ...decadesOf(span)])
      widest = Math.max(widest, textWidth(markText(count, scale, texts)));
  }
  return Math.ceil(Math.min(130, widest)) + rim + 8;
}

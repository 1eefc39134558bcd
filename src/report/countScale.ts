/**
 * The logarithmic scale of counts: how far it must reach, and where it is marked.
 */
import { powerOfTen } from '../numeric/decimal.ts';
import type { Step } from './classSteps.ts';

/** From where to where, in particles per mL. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

/**
 * The span that shows all the counts above zero, with a limit of the table to spare at both ends, or, where it has none, a power of ten. It
 * does not reach below one particle in a million mL.
 */
export function spanOf(counts: readonly number[], steps: readonly Step[]): Span {
  let least = 0;
  let most = 0;
  for (const count of counts) {
    if (count > 0 && (least === 0 || count < least)) least = count;
    most = Math.max(most, count);
  }
  if (most === 0) least = most = steps.length > 0 ? (steps[0] as Step).upTo : 1;
  let low = 0;
  let high = 0;
  for (const { upTo } of steps) {
    if (upTo < least) low = upTo;
    if (upTo > most && high === 0 && isFinite(upTo)) high = upTo;
  }
  let exponent = -6;
  while (decade(exponent + 1) < least) exponent += 1;
  if (low === 0) low = decade(exponent);
  while (decade(exponent) <= Math.max(most, low)) exponent += 1;
  if (high === 0) high = decade(exponent);
  return { low, high };
}

/** The steps that lie within the span, cut to it. */
export function stepsWithin(steps: readonly Step[], span: Span): Step[] {
  return steps
    .filter(({ above, upTo }) => upTo > span.low && above < span.high)
    .map(({ label, above, upTo }) => ({
      label,
      above: Math.max(above, span.low),
      upTo: Math.min(upTo, span.high),
    }));
}

/** The whole powers of ten within the span. */
export function decadesOf(span: Span): number[] {
  const decades: number[] = [];
  for (let exponent = -6; decade(exponent) <= span.high; exponent += 1) {
    if (decade(exponent) >= span.low) decades.push(decade(exponent));
  }
  return decades;
}

/** A count within the span, for what lies beyond it and must still be drawn. */
export function held(count: number, span: Span): number {
  return Math.min(Math.max(count, span.low), span.high);
}

/** Every so many of a list, so that no more than `most` are left; the last is kept. */
export function thinned<T>(list: readonly T[], most: number): T[] {
  const every = Math.max(1, Math.ceil(list.length / most));
  return list.filter((_item, i) => (list.length - 1 - i) % every === 0);
}

function decade(exponent: number): number {
  return exponent < 0 ? 1 / powerOfTen(-exponent) : powerOfTen(exponent);
}

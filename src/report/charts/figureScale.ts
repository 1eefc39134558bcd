/**
 * The linear scale of a figure that is no count, such as a temperature: it reaches from one round number to another.
 */
import { powerOfTen } from '../../numeric/decimal.ts';
import { type CountScale, extentOf } from './countScale.ts';

/** At most so many steps between marks. */
const mostSteps = 4;
/** The mantissas of a round step. */
const roundSteps: readonly number[] = [1, 2, 2.5, 5, 10];
/** Up to this a multiple of any of them is a double, and so is the next one. */
const mostMultiple = 1e15;

/** A scale on which all the values lie; from 0 to 1 without any. */
export function figureScale(values: readonly number[], height: number): CountScale {
  let { low, high } = extentOf(values);
  if (low > high) [low, high] = [0, 1];
  // one value alone stands in the middle of a step to each side
  if (low === high) {
    const half = low === 0 ? 1 : Math.abs(low) / 20;
    [low, high] = [low - half, high + half];
  }
  const marks = marksBetween(low, high);
  const domain = [marks[0] as number, marks[marks.length - 1] as number] as const;
  return { span: { low: domain[0], high: domain[1] }, height, zero: null, domain, marks };
}

/** Multiples of a round number, from the last not above the least to the first not below the most. */
function marksBetween(low: number, high: number): number[] {
  // the span of doubles is too wide for a multiple of it to be exact, and a picture needs no more than this
  for (let exponent = -12; exponent <= 13; exponent += 1) {
    for (const mantissa of roundSteps) {
      const step = Number(`${mantissa}e${exponent}`);
      const first = Math.floor(low / step);
      const last = Math.ceil(high / step);
      if (last - first > mostSteps || last === first || Math.max(-first, last) > mostMultiple) continue;
      const marks: number[] = [];
      // written as a decimal, so that no mark is 0.30000000000000004
      for (let multiple = first; multiple <= last; multiple += 1)
        marks.push(Number(`${multiple * mantissa}e${exponent}`));
      return marks;
    }
  }
  return [low, high];
}

/** Round marks from 0 to an end, at steps of 1, 2 or 5 and a power of ten: about as many as asked for. */
export function roundMarks(end: number, about: number): number[] {
  const wanted = end / about;
  for (let exponent = -15; ; exponent += 1) {
    for (const mantissa of [1, 2, 5]) {
      // the nearest of the round steps, by ratio
      const above = mantissa === 1 ? 2 : mantissa === 2 ? 5 : 10;
      if (wanted >= Math.sqrt(mantissa * above) * powerOfTen(exponent)) continue;
      const marks: number[] = [];
      for (let mark = 0; mark <= end; mark = Number(`${marks.length * mantissa}e${exponent}`)) marks.push(mark);
      return marks;
    }
  }
}

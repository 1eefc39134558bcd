/** The inner loops of `classifyColumns`. */
import { type ColumnBounds, low20, topHalf } from './columnBounds.ts';

/** The class of each count. A count of a binade has a first class it can have; from there limits are passed. */
export function fillClasses(
  classes: Int16Array,
  counts: Float64Array,
  { limits, firsts, carries }: ColumnBounds,
): void {
  const { length } = classes;
  const halves = new Int32Array(counts.buffer, counts.byteOffset, 2 * length);
  const top = topHalf();
  if (carries !== null) {
    // no branch: which side of a limit a count lies on, no processor can guess
    for (let k = 0; k < length; k += 1) {
      const half = halves[2 * k + top] as number;
      const sum = (carries[half >>> 20] as number) + (half & low20);
      let index = sum >>> 20;
      if ((sum & low20) === low20) index += Number((counts[k] as number) > (limits[index] as number));
      classes[k] = index;
    }
    return;
  }
  for (let k = 0; k < length; k += 1) {
    const count = counts[k] as number;
    let index = firsts[(halves[2 * k + top] as number) >>> 20] as number;
    while (count > (limits[index] as number)) index += 1;
    classes[k] = index;
  }
}

/** The same of differences; one that a rounding could carry over a limit is decided as a decimal. */
export function fillBetween(
  classes: Int16Array,
  lower: Float64Array,
  upper: Float64Array,
  { limits, firsts, carries }: ColumnBounds,
  exact: (from: number, to: number) => number,
): void {
  const { length } = classes;
  const top = topHalf();
  const one = new Float64Array(1);
  const half = new Int32Array(one.buffer);
  for (let k = 0; k < length; k += 1) {
    const from = lower[k] as number;
    const to = upper[k] as number;
    if (!(from >= to)) continue;
    const room = from * nearby;
    const least = from - to - room;
    one[0] = Math.max(least, 0);
    const bits = half[top] as number;
    let index: number;
    if (carries === null) {
      index = firsts[bits >>> 20] as number;
      while (least > (limits[index] as number)) index += 1;
    } else {
      // a limit passed within the last bits is near enough to be decided below
      index = ((carries[bits >>> 20] as number) + (bits & low20)) >>> 20;
    }
    classes[k] = least + 2 * room > (limits[index] as number) ? exact(from, to) : index;
  }
}

/** Far more than one rounding can take. */
const nearby = 1e-12;

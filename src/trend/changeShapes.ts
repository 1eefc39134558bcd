/** A level and one change upon it, by least squares: a step to another level, or a bend into a straight slope. */
import { doubles, type NumberList } from '../numeric/lists.ts';
import { square, sumOf } from './dependence/layout.ts';
import { reachOf } from './dependence/robustLine.ts';

/** Values in order of time. */
export interface Series {
  readonly times: NumberList;
  readonly values: NumberList;
}

/** One shape at its best place. */
interface ShapeFit {
  readonly kind: 'step' | 'slope';
  /** The place of the first value of the new level; of a slope that of the last value of the old one. */
  readonly at: number;
  readonly base: number;
  /** Of the step, or of the slope over one unit of time. */
  readonly size: number;
  /** The sum of squares that it leaves, and those with the change at each other place; infinite near the ends. */
  readonly loss: number;
  readonly losses: NumberList;
}

/** What the change alone adds to the value at a place. */
export function addedAt({ kind, at, size }: ShapeFit, times: NumberList, i: number): number {
  if (kind === 'step') return i < at ? 0 : size;
  return size * Math.max(0, (times[i] as number) - (times[at] as number));
}

/** So small a share of the largest value is rounding. */
const rounding = 1e-12;

/** What a fit leaves of the values: nothing but rounding is nothing. */
export function leftBy(fit: ShapeFit, { times, values }: Series): NumberList {
  const left = doubles(values.length);
  let [largest, size] = [0, 0];
  for (let i = 0; i < values.length; i += 1) {
    left[i] = (values[i] as number) - fit.base - addedAt(fit, times, i);
    largest = Math.max(largest, Math.abs(left[i] as number));
    size = Math.max(size, Math.abs(values[i] as number));
  }
  return largest > rounding * size ? left : doubles(values.length);
}

/** The better one of both shapes, with at least so many values on each side; of a slope only after it. */
export function bestShape(series: Series, least: number): ShapeFit {
  const step = fitOf('step', series, least);
  const slope = fitOf('slope', series, least);
  return step.loss <= slope.loss ? step : slope;
}

/** Every place at which the change may begin is tried, from the end backwards. */
function fitOf(kind: ShapeFit['kind'], { times, values }: Series, least: number): ShapeFit {
  const n = values.length;
  const losses = doubles(n);
  const mean = sumOf(values, (value) => value) / n;
  const whole = sumOf(values, (value) => square(value - mean));
  let best: Omit<ShapeFit, 'losses'> = { kind, at: 0, base: mean, size: 0, loss: Infinity };
  // over the values from the place on: their number and sum; the sum of the shape, of its squares, and of its products
  let [count, sum, x, xx, xy] = [0, 0, 0, 0, 0];
  for (let i = n - 1; i >= 0; i -= 1) {
    if (kind === 'slope' && i < n - 1) {
      const gap = (times[i + 1] as number) - (times[i] as number);
      xx += gap * (2 * x + gap * count);
      xy += gap * sum;
      x += gap * count;
    }
    count += 1;
    sum += (values[i] as number) - mean;
    if (kind === 'step') {
      x = count;
      xx = count;
      xy = sum;
    }
    const squares = xx - (x * x) / n;
    const isInside = i <= n - least && (kind === 'slope' || i >= least);
    losses[i] = isInside ? whole - (xy * xy) / squares : Infinity;
    if (!((losses[i] as number) < best.loss)) continue;
    best = { kind, at: i, base: mean - ((xy / squares) * x) / n, size: xy / squares, loss: losses[i] as number };
  }
  return { ...best, losses };
}

/** The values with those pulled in that lie farther off a fit than three standard deviations. */
export function pulledIn(series: Series, fit: ShapeFit): Series {
  const { times, values } = series;
  const left = leftBy(fit, series);
  const distances = doubles(values.length);
  let size = 0;
  for (let i = 0; i < values.length; i += 1) {
    distances[i] = Math.abs(left[i] as number);
    size = Math.max(size, Math.abs(values[i] as number));
  }
  const reach = reachOf(distances);
  // where most lie on the fit, nothing tells how wild the others are
  if (reach <= rounding * size) return series;
  const pulled = doubles(values.length);
  for (let i = 0; i < values.length; i += 1) {
    const off = left[i] as number;
    pulled[i] = (values[i] as number) - off + Math.max(-reach, Math.min(reach, off));
  }
  return { times, values: pulled };
}

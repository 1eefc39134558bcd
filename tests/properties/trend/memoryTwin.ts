/**
 * The line through points that remember each other, once more and plainly: every pair looked at, every variance from
 * the whole matrix of correlations. In doubles; the constants are those of the library, and no document prints them.
 */
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;
const total = (list: readonly number[]) => list.reduce((all, one) => all + one, 0);
const dot = (a: readonly number[], b: readonly number[]) => total(a.map((one, i) => one * at(b, i)));
const clip = (memory: number) => Math.min(0.99, Math.max(0, memory));
const ascending = (list: readonly number[]) => [...list].sort((a, b) => a - b);

function median(list: readonly number[]): number {
  const sorted = ascending(list);
  return (at(sorted, Math.floor((list.length - 1) / 2)) + at(sorted, Math.floor(list.length / 2))) / 2;
}

/** Student's t that chance passes, either way, with this risk. */
export function studentTwin(risk: number, freedom: number): number {
  const x = betaQuantile(risk, freedom / 2, 0.5);
  return Math.sqrt((freedom * (1 - x)) / x);
}

/** Places in time: from their mean, and in units of the usual distance of two neighbours. */
export interface Times {
  readonly mean: number;
  readonly spacing: number;
  readonly fromMean: readonly number[];
  /** From the first to the last, in spacings. */
  readonly span: number;
}

export function timesOf(times: readonly number[]): Times {
  const mean = total(times) / times.length;
  const gaps = ascending(times.slice(1).map((time, i) => time - at(times, i))).filter((gap) => gap > 0);
  const spacing = at(gaps, Math.floor((gaps.length + 1) / 2) - 1);
  const span = (at(times, times.length - 1) - at(times, 0)) / spacing;
  return { mean, spacing, fromMean: times.map((time) => time - mean), span };
}

export interface Shape {
  readonly memory: number;
  readonly share: number;
}

/** The variance of a weighted sum of points of variance 1. */
export function varianceOf(weights: readonly number[], { fromMean, spacing }: Times, { memory, share }: Shape): number {
  const left: Record<number, number> = {};
  const kept = (i: number, j: number) => {
    const apart = Math.abs(at(fromMean, i) - at(fromMean, j)) / spacing;
    const distance = Math.abs(apart - Math.round(apart)) < 1e-9 ? Math.round(apart) : apart;
    left[distance] ??= share * memory ** distance;
    return left[distance];
  };
  let sum = 0;
  weights.forEach((one, i) => {
    weights.forEach((other, j) => {
      sum += one * other * (i === j ? 1 : kept(i, j));
    });
  });
  return sum;
}

/** What a shape of memory does to slope, mean and independent points. */
export interface Effect extends Shape {
  readonly slope: number;
  readonly mean: number;
  readonly taken: number;
  readonly effective: number;
}

export interface Dependence extends Effect {
  /** Which share of the errors added to the memory fits below the strongest there can be. */
  readonly room: number;
}

function effectOf(times: Times, shape: Shape, contrast: readonly number[] | null, most = 0.9): Effect {
  const n = times.fromMean.length;
  const grown = (weights: readonly number[]) => varianceOf(weights, times, shape) / dot(weights, weights);
  const [slope, mean] = [grown(times.fromMean), grown(times.fromMean.map(() => 1))];
  const taken = Math.min(most, (slope + mean + (contrast === null ? 0 : grown(contrast))) / n);
  const effective = n / Math.max(1, slope / Math.max(0.05, 1 - mean / n));
  return { ...shape, slope: Math.max(1, slope), mean: Math.max(1, mean), taken, effective };
}

/** Correlations of ranks up to some spacings, over pairs that exist. */
function correlationsOf({ fromMean, spacing, span }: Times, residuals: readonly number[]) {
  const n = residuals.length;
  const edge = 1e-9 * Math.max(...residuals.map(Math.abs));
  const ranks = residuals.map(
    (one) =>
      (residuals.filter((other) => other < one - edge).length -
        residuals.filter((other) => other > one + edge).length) /
      2,
  );
  const variance = dot(ranks, ranks) / n;
  const most = Math.min(12, Math.max(4, Math.floor(n / 24)));
  return Array.from({ length: most }, (_, i) => i + 1).flatMap((lag) => {
    const pairs: { distance: number; product: number }[] = [];
    for (let i = 0; i < n; i += 1) {
      for (let j = i + 1; j < n; j += 1) {
        const distance = (at(fromMean, j) - at(fromMean, i)) / spacing;
        if (Math.round(distance) === lag) pairs.push({ distance, product: at(ranks, i) * at(ranks, j) });
      }
    }
    if (pairs.length < 0.2 * n || pairs.length === 0) return [];
    const meanOf = (list: readonly number[]) => total(list) / list.length;
    const whole = Math.max(0, (span + 1 - lag) / (span + 1));
    const correlation = variance === 0 ? 0 : (meanOf(pairs.map(({ product }) => product)) / variance) * whole;
    return [{ lag, distance: meanOf(pairs.map(({ distance }) => distance)), pairs: pairs.length, correlation }];
  });
}

type Lags = ReturnType<typeof correlationsOf>;

/** The memory and share nearest to the correlations. */
function nearestShape(lags: Lags, taken: number): Shape {
  const grid = Array.from({ length: 52 }, (_, i) => (i < 40 ? (i + 1) / 50 : 0.8 + (i - 39) / 64));
  const freed = lags.map(({ correlation }) => correlation * (1 - taken) + taken);
  const shapes = grid.map((memory) => {
    const model = lags.map(({ distance }) => memory ** distance);
    const weighted = (a: readonly number[], b: readonly number[]) =>
      total(lags.map(({ pairs, lag }, i) => (lag > 4 ? 16 / lag ** 2 : 1) * pairs * at(a, i) * at(b, i)));
    const share = Math.min(1, Math.max(0, weighted(freed, model) / weighted(model, model)));
    const rest = freed.map((one, i) => one - share * at(model, i));
    return { memory, share, off: weighted(rest, rest) };
  });
  const least = Math.min(...shapes.map(({ off }) => off));
  return shapes.find(({ off }) => off <= least * (1 + 1e-12)) as Shape;
}

export function dependenceOf(
  times: Times,
  residuals: readonly number[],
  least: number,
  contrast: readonly number[] | null = null,
  longest = false,
): Dependence | null {
  const n = residuals.length;
  if (n < 10 || n < 0.25 * (times.span + 1)) return null;
  const lags = correlationsOf(times, residuals);
  const first = lags[0];
  if (first === undefined || first.lag > 1) return null;
  let [taken, memory, freed] = [2 / n, 0, 0];
  for (let round = 0; round < 12; round += 1) {
    freed = first.correlation * (1 - taken) + taken;
    memory = clip(freed <= 0 ? 0 : freed ** (1 / first.distance));
    taken = effectOf(times, { memory, share: 1 }, contrast).taken;
  }
  const told = ((first.pairs + 1) * n) / (times.span + 1);
  const error = (value: number, caution: number) =>
    (longest ? 4 : caution + (15 * memory * memory) / told) * Math.sqrt((1 - value * value) / told);
  const read = longest && freed < 0 ? freed : memory;
  const longer = longest || memory > 1 / Math.sqrt(n) ? clip(read + error(memory, 0.85)) : memory;
  const room = (longer - read) / error(memory, 0.85);
  const most = longest ? 0.99 : 0.9;
  const plain = { ...effectOf(times, { memory: Math.max(least, longer), share: 1 }, contrast, most), room };
  const lasts = total(lags.map(({ correlation }) => correlation + 2 / n)) > 0.5 * Math.sqrt(lags.length / n);
  if (lags.length < 3 || (memory <= 1.64 / Math.sqrt(n) && !lasts)) return plain;
  let shape: Shape = { memory: 0, share: 0 };
  taken = 2 / n;
  for (let round = 0; round < 6; round += 1) {
    shape = nearestShape(lags, taken);
    taken = effectOf(times, shape, contrast).taken;
  }
  const untold = told <= 64 ? 0.12 : 0.12 * (8 / Math.sqrt(told));
  if (shape.share <= 0 || 1 - shape.share < untold) return plain;
  const wider = clip(shape.memory + error(shape.memory, 1) / Math.max(shape.share, 0.3));
  const noisy = { ...effectOf(times, { memory: Math.max(least, wider), share: shape.share }, contrast, most), room };
  return noisy.effective < plain.effective ? noisy : plain;
}

/** What a memory does to a line. */
export interface MemoryTwin extends Dependence {
  readonly slopeVariance: number;
  readonly centreVariance: number;
  readonly freedom: number;
}

/** A line with its memory, and with the longest that its residuals may hide; null where they do not tell. */
export interface LineTwin {
  readonly n: number;
  readonly s: number;
  readonly slope: number;
  readonly centre: number;
  readonly times: Times;
  readonly left: readonly number[];
  readonly plain: MemoryTwin | null;
  readonly longest: MemoryTwin | null;
}

/** Sen's slope, a centre that wild readings hardly move, and the variance of both. */
export function lineTwin(moments: readonly number[], values: readonly number[], least = 0): LineTwin {
  const n = moments.length;
  const times = timesOf(moments);
  const { fromMean } = times;
  const slopes: number[] = [];
  let s = 0;
  for (let i = 0; i < n; i += 1) {
    for (let j = i + 1; j < n; j += 1) {
      if (moments[j] === moments[i]) continue;
      slopes.push((at(values, j) - at(values, i)) / (at(moments, j) - at(moments, i)));
      s += Math.sign(at(values, j) - at(values, i));
    }
  }
  const slope = median(slopes);
  const base = median(values);
  const off = values.map((value, i) => value - base - slope * at(fromMean, i));
  const middle = median(off);
  const residuals = off.map((one) => one - middle);
  const reach = 3 * 1.4826 * median(residuals.map(Math.abs));
  const held = residuals.map((one) => (reach > 0 ? Math.min(reach, Math.max(-reach, one)) : one));
  const shift = total(held) / n;
  const left = held.map((one) => one - shift);
  const of = (longest: boolean): MemoryTwin | null => {
    const dependence = dependenceOf(times, residuals, longest ? 0 : least, null, longest);
    if (dependence === null) return null;
    const variance = dot(left, left) / (n * (1 - dependence.taken));
    return {
      ...dependence,
      slopeVariance: (variance * dependence.slope) / dot(fromMean, fromMean),
      centreVariance: (variance * dependence.mean) / n,
      freedom: Math.max(1, dependence.effective - 2),
    };
  };
  return { n, s, slope, centre: base + middle + shift, times, left, plain: of(false), longest: of(true) };
}

/** A list less its own line of least squares. */
function besideLine({ fromMean }: Times, list: readonly number[]): number[] {
  const mean = total(list) / list.length;
  const slope = dot(fromMean, list) / dot(fromMean, fromMean);
  return list.map((one, i) => one - mean - slope * at(fromMean, i));
}

/** Flags whose chance is far enough from the risk that no rounding decides. */
export function flagsTwin({ times, left }: LineTwin): { flags: string[]; isClose: boolean } {
  const { fromMean } = times;
  const n = fromMean.length;
  const knot = at(fromMean, 0) + 0.7 * (at(fromMean, n - 1) - at(fromMean, 0));
  const strength = (shape: (time: number) => number) => {
    const weights = besideLine(times, fromMean.map(shape));
    const rest = besideLine(times, left);
    const own = dot(weights, weights);
    const size = dot(weights, rest) / own;
    const beside = rest.map((one, i) => one - size * at(weights, i));
    const dependence = dependenceOf(times, beside, 0, weights);
    if (dependence === null) return { size, ratio: 0 };
    const variance = dot(beside, beside) / (n * (1 - dependence.taken));
    const error = Math.sqrt(variance * varianceOf(weights, times, dependence)) / own;
    return { size, ratio: Math.abs(size / error) / studentTwin(0.02, Math.max(1, dependence.effective - 3)) };
  };
  const curve = strength((time) => time * time);
  const late = strength((time) => Math.max(0, time - knot));
  const flags: string[] = curve.ratio > 1 ? ['curved'] : [];
  if (late.ratio > 1) flags.push(late.size > 0 ? 'late_rise' : 'late_fall');
  return { flags, isClose: [curve, late].some(({ ratio }) => Math.abs(ratio - 1) < 1e-6) };
}

/**
 * The memory of a series: how much less its points tell than as many independent ones would.
 *
 * Two shapes are fitted to the correlations of what a line leaves: one that fades by the same share from point to point
 * (AR(1)), and the same with scatter of single points upon it. The one that leaves fewer independent points holds.
 */
import { power } from '../../numeric/exponential.ts';
import { doubles, type NumberList } from '../../numeric/lists.ts';
import { centredRanks, type LagCorrelation, lagCorrelations } from './correlations.ts';
import { dependentSum, fadings, type Layout, square, sumOf } from './layout.ts';

/** A shape of dependence: two points a spacing k apart have the correlation share x memory^k. */
interface Shape {
  readonly memory: number;
  readonly share: number;
}

/** A shape, and what it does to the variance of sums. */
export interface Dependence extends Shape {
  readonly kept: NumberList;
  /** How many times the variance of independent points: of the slope, and of the mean. */
  readonly slope: number;
  readonly mean: number;
  /** The share of the variance that the fitted line takes away. */
  readonly taken: number;
  /** As many independent points would tell as much about the slope. */
  readonly effective: number;
  /** Which share of the standard errors added to the memory fits below the strongest there can be. */
  readonly room: number;
}

/** Correlations are read up to this many spacings: 4, and more where there are points enough to tell them. */
function lagsFor(n: number): number {
  return Math.min(12, Math.max(nearLags, Math.floor(n / 24)));
}

/** Farther ones weigh less, by the square: they are less sure, and tell no small scatter from none. */
const nearLags = 4;

/**
 * A scatter of single points of a smaller share is not told from none. The error of a share falls with the square root
 * of the points: of fits to series with a memory of 0.9 and no scatter, about 1 in 20 shows more than this.
 */
function leastScatter(told: number): number {
  return 0.12 * Math.sqrt(Math.min(1, 64 / told));
}

const fewestPoints = 10;
const strongest = 0.99;
const rounds = 12;
/** Fewer: with a memory as long as the series, each round gives back more than was taken, without end. */
const noisyRounds = 6;
/**
 * How many standard errors the correlation is taken for higher than it seems, since an estimate too low costs more;
 * and under scatter of single points.
 */
const caution = 0.85;
const noisyCaution = 1;
/** And more for short series with a long memory, which is read too short more often. */
const shortCaution = 15;
/** The longest memory that residuals may hide: so many standard errors more than it seems. */
const longestErrors = 4;
/** No line is taken to leave less than a tenth of the variance; beside the longest memory, a hundredth. */
const mostTaken = 0.9;
const mostTakenByLongest = 0.99;

/**
 * The dependence of residuals, or null where they cannot tell it: too few of them, or no two neighbours often enough.
 * `contrast`: weights, which add up to 0, of a further sum that was fitted and taken away beside mean and slope. With
 * `longest`, the longest memory they may hide.
 */
export function dependenceOf(
  layout: Layout,
  residuals: NumberList,
  least = 0,
  contrast: NumberList | null = null,
  longest = false,
): Dependence | null {
  const { n, span } = layout;
  if (n < fewestPoints || n < 0.25 * (span + 1)) return null;
  const lags = lagCorrelations(layout, centredRanks(residuals), lagsFor(n)).filter(({ pairs }) => pairs >= 0.2 * n);
  const first = lags[0];
  if (first === undefined || first.lag > 1) return null;
  const sums = sumsOf(layout, contrast);

  let taken = 2 / n;
  let memory = 0;
  let freed = 0;
  for (let round = 0; round < rounds; round += 1) {
    freed = first.correlation * (1 - taken) + taken;
    memory = clip(perSpacing(freed, first.distance));
    taken = effectOf(layout, { memory, share: 1 }, sums).taken;
  }
  // gaps leave fewer pairs to read the correlation from
  const told = ((first.pairs + 1) * n) / (span + 1);
  const further = (shortCaution * memory * memory) / told;
  const error = (value: number, least: number) =>
    (longest ? longestErrors : least + further) * Math.sqrt((1 - value * value) / told);
  const read = longest && freed < 0 ? freed : memory;
  const wide = error(memory, caution);
  const longer = longest || memory > 1 / Math.sqrt(n) ? clip(read + wide) : memory;
  const room = (longer - read) / wide;
  const most = longest ? mostTakenByLongest : mostTaken;
  const plain = { ...effectOf(layout, { memory: Math.max(least, longer), share: 1 }, sums, most), room };
  if (lags.length < 3 || (memory <= 1.64 / Math.sqrt(n) && !lasting(lags, n))) return plain;

  const models = modelsOf(lags);
  let shape: Shape = { memory: 0, share: 0 };
  taken = 2 / n;
  for (let round = 0; round < noisyRounds; round += 1) {
    shape = fitShape(lags, models, taken);
    taken = effectOf(layout, shape, sums).taken;
  }
  if (shape.share <= 0 || shape.share > 1 - leastScatter(told)) return plain;
  const wider = clip(shape.memory + error(shape.memory, noisyCaution) / Math.max(shape.share, 0.3));
  const noisy = { ...effectOf(layout, { memory: Math.max(least, wider), share: shape.share }, sums, most), room };
  return noisy.effective < plain.effective ? noisy : plain;
}

/** Whether all lags together are more than chance: a memory under much scatter shows so, not at the first lag. */
function lasting(lags: readonly LagCorrelation[], n: number): boolean {
  let sum = 0;
  for (const { correlation } of lags) sum += correlation + 2 / n;
  return sum > 0.5 * Math.sqrt(lags.length / n);
}

/** Weights of sums of points that are taken away, and for each what its variance is were the points independent. */
type Sums = readonly { readonly weights: NumberList; readonly alone: number }[];

/** Those of the slope, of the mean and of the contrast. */
function sumsOf({ n, fromMean, squares }: Layout, contrast: NumberList | null): Sums {
  const ones = doubles(n);
  for (let i = 0; i < n; i += 1) ones[i] = 1;
  const line = [
    { weights: fromMean, alone: squares },
    { weights: ones, alone: n },
  ];
  return contrast === null ? line : [...line, { weights: contrast, alone: sumOf(contrast, square) }];
}

function effectOf(layout: Layout, shape: Shape, sums: Sums, most = mostTaken): Omit<Dependence, 'room'> {
  const { n } = layout;
  const kept = fadings(layout, shape.memory);
  const [slope, mean, extra = 0] = sums.map(
    ({ weights, alone }) => dependentSum(kept, weights, shape.share) / alone,
  ) as [number, number, number?];
  const inflation = Math.max(1, slope / Math.max(0.05, 1 - mean / n));
  return {
    ...shape,
    kept,
    slope: Math.max(1, slope),
    mean: Math.max(1, mean),
    taken: Math.min(most, (slope + mean + extra) / n),
    effective: n / inflation,
  };
}

/** What each memory on a grid leaves of a correlation at each lag. */
function modelsOf(lags: readonly LagCorrelation[]): { memory: number; left: number[] }[] {
  const models: { memory: number; left: number[] }[] = [];
  for (let step = 1; step <= 52; step += 1) {
    const memory = step <= 40 ? step / 50 : 0.8 + (step - 40) / 64;
    models.push({ memory, left: lags.map(({ distance }) => power(memory, distance)) });
  }
  return models;
}

/**
 * The memory and share nearest to the correlations, each freed of what the line took, in least squares weighted by
 * pairs, those far apart less.
 */
function fitShape(lags: readonly LagCorrelation[], models: ReturnType<typeof modelsOf>, taken: number): Shape {
  const weights = lags.map(({ lag, pairs }) => pairs * square(Math.min(1, nearLags / lag)));
  let best: Shape = { memory: 0, share: 0 };
  let least = Infinity;
  for (const { memory, left } of models) {
    let xy = 0;
    let xx = 0;
    for (let i = 0; i < lags.length; i += 1) {
      const weight = weights[i] as number;
      const { correlation } = lags[i] as LagCorrelation;
      const freed = correlation * (1 - taken) + taken;
      const model = left[i] as number;
      xy += weight * freed * model;
      xx += weight * model * model;
    }
    const share = Math.min(1, Math.max(0, xy / xx));
    // the squares of what is left, less those of the correlations themselves, which are the same for all
    const off = share * (share * xx - 2 * xy);
    if (off < least) {
      least = off;
      best = { memory, share };
    }
  }
  return best;
}

function perSpacing(correlation: number, distance: number): number {
  return distance === 1 ? correlation : power(Math.max(0, correlation), 1 / distance);
}

function clip(memory: number): number {
  return Math.min(strongest, Math.max(0, memory));
}

/**
 * The memory of a series: how much less its points tell than as many independent ones would.
 *
 * Two shapes are fitted to the correlations of what a line leaves: one that fades by the same share from point to
 * point (AR(1)), and the same
 * with scatter of single points upon it. The one that leaves fewer independent points holds.
 */
import { power } from '../../numeric/exponential.ts';
import type { NumberList } from '../../numeric/lists.ts';
import { centredRanks, type LagCorrelation, lagCorrelations } from './correlations.ts';
import { dependentSum, fadings, type Layout } from './layout.ts';

/** A shape of dependence: two points a spacing k apart have the correlation share x memory^k. */
export interface Shape {
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
  /** The correlation of neighbours as the residuals show it. */
  readonly seen: number;
  /** Which share of the standard errors added to the memory fits below the strongest there can be. */
  readonly room: number;
}

type Effect = Pick<Dependence, 'memory' | 'share' | 'kept' | 'slope' | 'mean' | 'taken' | 'effective'>;

/** A further sum that was fitted and taken away beside mean and slope, with weights that add up to 0. */
export type Contrast = NumberList;

/** Correlations are read up to this many spacings: 4, and more where there are points enough to tell them. */
function lagsFor(n: number): number {
  return Math.min(12, Math.max(4, Math.floor(n / 15)));
}

const fewestPoints = 10;
const strongest = 0.99;
const rounds = 12;
/** Fewer: with a memory as long as the series, each round gives back more than was taken, without end. */
const noisyRounds = 6;
/**
 * A share of a standard error by which the correlation is taken for higher than it seems: one, since an estimate too
 * low costs more.
 */
const caution = 1;
/** And more for short series, whose correlations are read too low more often. */
const shortCaution = 10;
/** The longest memory that residuals may hide: so many standard errors more than it seems. */
const longestErrors = 3.5;
/** No line is taken to leave less than a tenth of the variance; beside the longest memory, a hundredth. */
const mostTaken = 0.9;
const mostTakenByLongest = 0.99;

/**
 * The dependence of residuals, or null where they cannot tell it: too few of them, or no two neighbours often enough.
 * With `longest`, the longest memory they may hide.
 */
export function dependenceOf(
  layout: Layout,
  residuals: NumberList,
  least = 0,
  contrast: Contrast | null = null,
  longest = false,
): Dependence | null {
  const { n, span } = layout;
  if (n < fewestPoints || n < 0.25 * (span + 1)) return null;
  const lags = lagCorrelations(layout, centredRanks(residuals), lagsFor(n)).filter(({ pairs }) => pairs >= 0.2 * n);
  const first = lags[0];
  if (first === undefined || first.lag > 1) return null;
  const effect = (shape: Shape, most = mostTaken) => effectOf(layout, shape, contrast, most);

  let taken = 2 / n;
  let memory = 0;
  let freed = 0;
  for (let round = 0; round < rounds; round += 1) {
    freed = first.correlation * (1 - taken) + taken;
    memory = clip(perSpacing(freed, first.distance));
    taken = effect({ memory, share: 1 }).taken;
  }
  const errors = longest ? longestErrors : caution + shortCaution / n;
  const error = (value: number) => errors * Math.sqrt((1 - value * value) / n);
  const read = longest && freed < 0 ? freed : memory;
  const longer = longest || memory > 1 / Math.sqrt(n) ? clip(read + error(memory)) : memory;
  const said = { seen: first.correlation, room: (longer - read) / error(memory) };
  const most = longest ? mostTakenByLongest : mostTaken;
  const plain = { ...effect({ memory: Math.max(least, longer), share: 1 }, most), ...said };
  if (lags.length < 3 || (memory <= 1.64 / Math.sqrt(n) && !lasting(lags, n))) return plain;

  const models = modelsOf(lags);
  let shape: Shape = { memory: 0, share: 0 };
  taken = 2 / n;
  for (let round = 0; round < noisyRounds; round += 1) {
    shape = fitShape(lags, models, taken);
    taken = effect(shape).taken;
  }
  if (shape.share <= 0 || shape.memory <= 0) return plain;
  const wider = clip(shape.memory + error(shape.memory) / Math.max(shape.share, 0.3));
  const noisy = { ...effect({ memory: Math.max(least, wider), share: shape.share }, most), ...said };
  return noisy.effective < plain.effective ? noisy : plain;
}

/**
 * Whether the correlations of all lags together are more than chance: a memory under much scatter shows so, and not at
 * the first lag.
 */
function lasting(lags: readonly LagCorrelation[], n: number): boolean {
  let sum = 0;
  for (const { correlation } of lags) sum += correlation + 2 / n;
  return sum > 0.5 * Math.sqrt(lags.length / n);
}

function effectOf(layout: Layout, shape: Shape, contrast: Contrast | null, most: number): Effect {
  const { n, fromMean, squares } = layout;
  const kept = fadings(layout, shape.memory);
  const slope = dependentSum(kept, fromMean, shape.share) / squares;
  const mean = dependentSum(kept, ones(n), shape.share) / n;
  let extra = 0;
  if (contrast !== null) {
    let own = 0;
    for (let i = 0; i < n; i += 1) own += (contrast[i] as number) * (contrast[i] as number);
    extra = dependentSum(kept, contrast, shape.share) / own;
  }
  const taken = Math.min(most, (slope + mean + extra) / n);
  const inflation = Math.max(1, slope / Math.max(0.05, 1 - mean / n));
  return {
    ...shape,
    kept,
    slope: Math.max(1, slope),
    mean: Math.max(1, mean),
    taken,
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
 * pairs.
 */
function fitShape(lags: readonly LagCorrelation[], models: ReturnType<typeof modelsOf>, taken: number): Shape {
  let best: Shape = { memory: 0, share: 0 };
  let least = Infinity;
  for (const { memory, left } of models) {
    let xy = 0;
    let xx = 0;
    let yy = 0;
    for (let i = 0; i < lags.length; i += 1) {
      const { correlation, pairs } = lags[i] as LagCorrelation;
      const freed = correlation * (1 - taken) + taken;
      const model = left[i] as number;
      xy += pairs * freed * model;
      xx += pairs * model * model;
      yy += pairs * freed * freed;
    }
    const share = Math.min(1, Math.max(0, xy / xx));
    const off = yy - 2 * share * xy + share * share * xx;
    if (off < least) {
      least = off;
      best = { memory, share };
    }
  }
  return best;
}

function perSpacing(correlation: number, distance: number): number {
  if (correlation <= 0) return 0;
  return distance === 1 ? correlation : power(correlation, 1 / distance);
}

function clip(memory: number): number {
  return Math.min(strongest, Math.max(0, memory));
}

function ones(n: number): number[] {
  const list: number[] = [];
  for (let i = 0; i < n; i += 1) list.push(1);
  return list;
}

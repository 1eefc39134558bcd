/** Slow changes: means of weeks against each other, with the memory of the days known. */
import { doubles, meanOf } from '../../numeric/lists.ts';
import { type Dependence, dependenceOf } from '../dependence/dependence.ts';
import { dependentSum, layoutOf } from '../dependence/layout.ts';
import { present, type Ring, steadyDeviation, steadyMean, valuesAt } from './ring.ts';

export const slowDays = 14;
const skippedDays = 7;
const fewestLate = 6;
const fewestEarly = 14;

/** Two windows of days, and how far the later lies above the earlier. */
export interface Contrast {
  readonly late: readonly number[];
  readonly early: readonly number[];
  readonly before: number;
  readonly after: number;
  /** Days between the middles of both. */
  readonly apart: number;
}

/** The last two weeks against what came a week or more before them since the place `since`. */
export function slowContrast(ring: Ring, since: number, floor: number): Contrast | null {
  const end = ring.length;
  const late = present(ring, Math.max(since, end - slowDays));
  const early = present(ring, since, end - slowDays - skippedDays);
  if (late.length < fewestLate || early.length < fewestEarly) return null;
  const before = steadyMean(valuesAt(ring, early), floor);
  const after = steadyMean(valuesAt(ring, late), floor);
  return { late, early, before, after, apart: meanOf(late) - meanOf(early) };
}

/** Standard deviations of the difference of both windows and of the mean of the later one alone. */
export interface ContrastErrors {
  readonly difference: number;
  readonly late: number;
}

/**
 * What memory and scatter of the days since `since` make of the windows. Both are read from what a line that bends
 * leaves, or two levels, whichever leaves less, so that neither a step nor a rise that began of late hides itself.
 */
export function contrastErrors(ring: Ring, since: number, contrast: Contrast, floor: number): ContrastErrors {
  const places = present(ring, since);
  const lastEarly = contrast.early[contrast.early.length - 1] as number;
  const firstLate = contrast.late[0] as number;
  const deviations = leastLeft(ring, places, contrast);
  // so many days in both windows always tell how alike neighbours are
  const dependence = dependenceOf(layoutOf(places), deviations) as Dependence;
  const scatter = Math.max(floor, steadyDeviation(deviations, floor) / Math.sqrt(1 - dependence.taken));
  const error = (early: boolean) => {
    const weights = doubles(places.length);
    places.forEach((place, i) => {
      if (place >= firstLate) weights[i] = 1 / contrast.late.length;
      else if (early && place <= lastEarly) weights[i] = -1 / contrast.early.length;
    });
    return scatter * Math.sqrt(Math.max(0, dependentSum(dependence.kept, weights, dependence.share)));
  };
  return { difference: error(true), late: error(false) };
}

/** Days from one bend that is tried to the next. */
const bendStep = 7;

/**
 * What is left of the days beside a line that bends once, from level to rising, or beside two levels that change
 * between the windows: the least of all. The first bend tried makes one straight line.
 */
function leastLeft(ring: Ring, places: readonly number[], contrast: Contrast): number[] {
  const values = valuesAt(ring, places);
  const mean = meanOf(values);
  const last = contrast.late[0] as number;
  let best: number[] = [];
  let least = Infinity;
  const offer = (left: number[]) => {
    const deviation = steadyDeviation(left, 0);
    if (deviation >= least) return;
    least = deviation;
    best = left;
  };
  for (let bend = places[0] as number; bend <= last; bend += bendStep) {
    const since = places.map((place) => Math.max(0, place - bend));
    const middle = meanOf(since);
    let xy = 0;
    let xx = 0;
    since.forEach((days, i) => {
      xy += (days - middle) * ((values[i] as number) - mean);
      xx += (days - middle) * (days - middle);
    });
    offer(since.map((days, i) => (values[i] as number) - mean - (xy / xx) * (days - middle)));
  }
  for (let split = (contrast.early[contrast.early.length - 1] as number) + 1; split <= last; split += 1) {
    offer(places.map((place, i) => (values[i] as number) - (place < split ? contrast.before : contrast.after)));
  }
  return best;
}

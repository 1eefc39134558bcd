/**
 * The same clean-up at every size a counter counts: each size has its own filtration ratio, its own ingression and its
 * own pace.
 */
import { requireNonNegative, requirePositive, requireWithin } from '../checks.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { requireCount } from '../counts/ranges.ts';
import { countAfter, settledCount } from './cleanUp.ts';
import { type Tank, type TankBySize, tanksOf } from './tank.ts';

/** Counts in the tank at one moment of the run. */
export interface CleanUpPoint {
  readonly minutes: number;
  readonly counts: CumulativeCounts;
}

/**
 * The counts in the tank after some minutes of filtering, at each size on its own: `cleanUp` size by size, with its
 * assumptions.
 *
 * Since larger particles are held back at least as well, and no more of them come in, the counts stay in order.
 *
 * @throws `length_mismatch` where ratios or ingression are not one for each size; `out_of_range` where a ratio falls
 * with size; `counts_rise_with_size` where ingression rises with size.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { cleanUpCounts } from 'motescale/filtration';
 * const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
 * const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };
 * cleanUpCounts(tank, 60).perMl.map(Math.round); // => [30, 6, 0]
 * ```
 */
export function cleanUpCounts(tank: TankBySize, minutes: number): CumulativeCounts {
  const time = requireNonNegative(minutes, 'minutes', 'minutes of filtering, 0 or more');
  return countsOf(tank, tanksOf(tank), (single) => countAfter(single, time));
}

/**
 * The counts at which what comes in equals what the filter takes, at each size. Assumptions as for `cleanUp`.
 *
 * @throws as `cleanUpCounts`; `no_answer` for a ratio of 1 with ingression.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { steadyStateCounts } from 'motescale/filtration';
 * const counts = cumulativeCounts({ 4: 9000, 6: 2400 });
 * const tank = { litres: 400, litresPerMin: 50, counts, beta: [2, 5], ingressionPerMin: [5000000, 800000] };
 * steadyStateCounts(tank).perMl; // => [200, 20]
 * ```
 */
export function steadyStateCounts(tank: TankBySize): CumulativeCounts {
  return countsOf(tank, tanksOf(tank), (single, i) => settledCount(single, `tank.beta[${i}]`));
}

/** More points than any chart or table can show. */
const mostSteps = 100000;

/**
 * The run as points for a table or a chart: `steps` equal steps (60 where left out, 100,000 at most) from the start to
 * `minutes`.
 *
 * @throws as `cleanUpCounts`; `out_of_range` for no minutes or no steps.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { cleanUpCurve } from 'motescale/filtration';
 * const tank = { litres: 400, litresPerMin: 40, counts: cumulativeCounts({ 4: 9000 }), beta: [2] };
 * cleanUpCurve(tank, 60, 2).map((point) => point.minutes); // => [0, 30, 60]
 * ```
 */
export function cleanUpCurve(tank: TankBySize, minutes: number, steps = 60): CleanUpPoint[] {
  const end = requirePositive(minutes, 'minutes', 'minutes of filtering, above 0');
  const parts = requireWithin(requireCount(steps, 'steps'), 'steps', 1, mostSteps);
  const tanks = tanksOf(tank);
  const points: CleanUpPoint[] = [];
  for (let step = 0; step <= parts; step += 1) {
    const time = (end * step) / parts;
    points.push({ minutes: time, counts: countsOf(tank, tanks, (single) => countAfter(single, time)) });
  }
  return points;
}

/** Counts in the sizes of the tank; equal figures that rounding has put out of order are put in order again. */
function countsOf(
  tank: TankBySize,
  tanks: readonly Required<Tank>[],
  countOf: (single: Required<Tank>, i: number) => number,
): CumulativeCounts {
  const perMl: number[] = [];
  tanks.forEach((single, i) => {
    const count = countOf(single, i);
    perMl.push(i === 0 ? count : Math.min(count, perMl[i - 1] as number));
  });
  return { sizing: tank.counts.sizing, sizes: tank.counts.sizes, perMl };
}

/**
 * How often a count comes again by chance, at most: by the law of Poisson for the particles between its size and the
 * next, and by the digits that are shown.
 *
 * Of n particles between two sizes the very same number comes again with a chance of at most 1 / sqrt(2 pi n), whatever
 * the mean. Where the count is shown in steps of h particles, it stays within its step with a chance of at most P(|z| <
 * h / (2 sqrt n)). The counts between sizes are independent, so the chances of the sizes multiply, and the product
 * holds also where the counts shown are sums.
 */
import { iso4406 } from '../../codes/tables/iso4406.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { decimalScale, powerOfTen } from '../../numeric/decimal.ts';
import { normalBelow } from '../../numeric/normal.ts';
import { oilCounted } from '../counted.ts';
import type { Reading } from '../reading.ts';

/**
 * Where the volume is not known: from the least to the most that a count rests on, in mL, whichever repeats more often
 * (our choice).
 */
const volumes = [1, 100];

/** For each size, how often its count comes again at most; 1 where it says nothing. */
export function repeatChances(reading: Reading, counts: CumulativeCounts): number[] {
  const { perMl, counted } = counts;
  const steps = stepsShown(perMl);
  const oil = oilCounted(reading, counts);
  if (counted !== undefined) {
    // particles that are a figure per mL in few digits, times the volume, repeat as that figure does
    return counted.map((count, i) => chanceOf(between(counted, i), (steps[i] as number) * (oil ?? 0), count));
  }
  if (areClassLimits(counts)) return perMl.map(() => 1);
  return perMl.map((count, i) => {
    let most = 0;
    for (const volume of oil === null ? volumes : [oil]) {
      const chance = chanceOf(between(perMl, i) * volume, (steps[i] as number) * volume, count * volume);
      if (chance > most) most = chance;
    }
    return most;
  });
}

function between(cumulative: readonly number[], i: number): number {
  const beyond = i + 1 < cumulative.length ? (cumulative[i + 1] as number) : 0;
  const own = cumulative[i] as number;
  // below a larger size one of the two is wrong, and the count is all there is
  return own < beyond ? own : own - beyond;
}

/** Of so many particles between sizes, shown in steps of so many. */
function chanceOf(particles: number, step: number, shown: number): number {
  if (shown === 0) return 1;
  const width = Math.max(step, 1);
  // the true mean may lie a step lower, and scatter less
  const mean = width > 1 ? particles - width : particles;
  if (mean < 1) return 1;
  const deviation = Math.sqrt(mean);
  if (width === 1) return 1 / (deviation * Math.sqrt(2 * Math.PI));
  return 1 - 2 * normalBelow(-width / (2 * deviation));
}

/** Counts that are all limits of ISO 4406 are a code written out, with nothing between its classes. */
function areClassLimits({ perMl }: CumulativeCounts): boolean {
  for (const count of perMl) {
    if (count !== 0 && !iso4406.limits.some((row) => row[0] === count)) return false;
  }
  return true;
}

/**
 * The step in which each count is shown: as many significant digits as the longest of them has, and no finer than the
 * finest decimal place. So 1900, 402 and 33 are shown in steps of 10, 1 and 1; 0 where a count is no short decimal.
 * Zeros alone are taken to be shown as whole numbers (our choice).
 */
export function stepsShown(perMl: readonly number[]): number[] {
  let digits = 1;
  let finest = Infinity;
  for (const count of perMl) {
    const scale = decimalScale(count);
    if (scale === 0) return perMl.map(() => 0);
    if (count === 0) continue;
    let whole = Math.floor(count * scale + 0.5);
    let place = 0;
    for (let one = 1; one < scale; one *= 10) place -= 1;
    while (whole % 10 === 0) {
      whole /= 10;
      place += 1;
    }
    digits = Math.max(digits, `${whole}`.length);
    finest = Math.min(finest, place);
  }
  if (finest === Infinity) return perMl.map(() => 1);
  return perMl.map((count) => {
    let first = -9;
    while (first < 12 && count >= powerOfTen(first + 1)) first += 1;
    return powerOfTen(Math.max(first - digits + 1, finest));
  });
}

/**
 * A flat size distribution: counts that fall off with size more slowly than those of fine dirt. Air bubbles, water
 * droplets and coarse wear make one, and the counts alone do not tell them apart.
 *
 * Of the published distributions of solid particles, that of MIL-STD-1246C is the flattest: log N = c - 0.926 (log
 * size)². Between two sizes the slope of log N on log size is then 0.926 (log s1 + log s2): 1.62 from 4 to 14 µm,
 * where ISO medium test dust has 2.86. A slope below that is not fine dirt. In an ISO 4406 code it shows as fewer
 * than three numbers between 4 and 14 µm, as in 20/19/18.
 *
 * Looked at from the smallest size of 4 µm(c) or more to each larger one at which 20 particles were counted (or 20
 * per mL, where it is not known how many), 100 where it is not twice as large. And from 10 to 15 µm to the next size
 * and to the largest so counted: little air among much dirt shows at the large sizes first. There the slope must
 * also be flatter than the one below: solids fall off no more slowly the larger they are, and oil that falls as a
 * power law is judged from its smallest size alone.
 *
 * The counts scatter, and so does the slope between them. Of N particles of the smaller size n are larger than the
 * other; by the law of Poisson the roots of n and N - n scatter by 1/2 each. Were p the share that the limit leaves,
 * sqrt((1 - p) n) - sqrt(p (N - n)) would be 0, give or take 1/2. Counts whose volume is not known are taken for
 * those of one mL.
 *
 * Sizes by microscope are not judged: another quantity, whose class limits can be flatter (NAS 1638: 1.57 from 5 to
 * 15 µm), and no bubble stays on a membrane. What it cannot see: bubbles among so many solids that the sum still
 * falls fast enough, and bubbles that fall as fast as solids do.
 */
import { converted } from '../../counts/convertSizing.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { log10, power } from '../../numeric/exponential.ts';
import { chordLog2 } from '../../numeric/powersOfTwo.ts';
import { particlesCounted } from '../counted.ts';
import type { Reading } from '../reading.ts';
import { type Check, nothing } from './check.ts';

export const smallest = 4;
/** Fewer particles of the larger size are not looked at; `near` where it is not twice as large (our choice). */
const enough = { apart: 20, near: 100 };
const apart = 2;
/**
 * From a size of these the slopes to the next and to the largest size are looked at too, µm(c). Below, many oils in
 * service have a code with two numbers from 6 to 14 µm; from 21 µm on published dusts come near the limit (our choice).
 */
const tail = { from: 10, upTo: 15 };
/** So many standard deviations of the counting a slope must be too flat (our choice). */
const deviations = 4;

/** The flattest pair of sizes against the flattest distribution of solids. */
export const flatDistribution: Check = {
  codes: ['flat_size_distribution'],
  find: ({ reading, limits: { flattestSteepness } }) => {
    const { counts } = reading;
    if (counts === undefined || flattestSteepness === null || counts.sizing === 'microscope') return null;
    const scale = scaleOf(counts);
    const first = firstOf(scale);
    const particles = particlesCounted(reading, counts) ?? counts.perMl;
    const { perMl } = counts;
    const told: number[] = [];
    let looked = false;
    let found: Flat | null = null;
    const look = (from: number, to: number) => {
      if (isTooFew(scale, particles, from, to)) return;
      looked = true;
      const one = flatBetween(scale, perMl, particles, from, to, flattestSteepness, first);
      if (one !== null && (found === null || one.figure / one.limit < found.figure / found.limit)) found = one;
    };
    for (let i = first + 1; i < scale.length; i += 1) {
      const count = perMl[i] as number;
      // a rise has its own finding
      if (count === 0 || count > (perMl[first] as number) || (particles[i] as number) < enough.apart) continue;
      told.push(i);
      look(first, i);
    }
    const last = told[told.length - 1] ?? first;
    for (let i = first + 1; i < last && (scale[i] as number) <= tail.upTo; i += 1) {
      if ((scale[i] as number) < tail.from) continue;
      look(i, last);
      if (told.indexOf(i + 1) >= 0) look(i, i + 1);
    }
    if (!looked) return null;
    if (found === null) return nothing;
    const { figure, limit, from, to } = found as Flat;
    const sizes = [counts.sizes[from] as number, counts.sizes[to] as number];
    return [{ code: 'flat_size_distribution', value: figure, limit, sizes, sizing: counts.sizing }];
  },
};

/**
 * Whether two neighbouring sizes with one count each lie too high for dirt, as bubbles larger than both let them. Where
 * one channel shows the other, one of the two is right, and falls as dirt does.
 */
export function areBothFlat(reading: Reading, counts: CumulativeCounts, i: number, flattest: number): boolean {
  if (counts.sizing === 'microscope') return false;
  const scale = scaleOf(counts);
  const first = firstOf(scale);
  if (first > i - 1) return false;
  const particles = particlesCounted(reading, counts) ?? counts.perMl;
  const isFlat = (from: number, to: number) =>
    !isTooFew(scale, particles, from, to) &&
    flatBetween(scale, counts.perMl, particles, from, to, flattest, from) !== null;
  if (first < i - 1) return isFlat(first, i - 1) && isFlat(first, i);
  // below the smallest there is none to compare with: those above
  for (let to = i + 1; to < scale.length; to += 1) if (isFlat(i - 1, to) && isFlat(i, to)) return true;
  return false;
}

/** Whether there are too few particles to look at the slope between two sizes. */
export function isTooFew(scale: readonly number[], particles: readonly number[], from: number, to: number): boolean {
  const isNear = (scale[to] as number) < apart * (scale[from] as number);
  return (particles[to] as number) < (isNear ? enough.near : enough.apart);
}

/** A slope that is too flat, and between which sizes. */
interface Flat {
  readonly figure: number;
  readonly limit: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The slope between two sizes, where it is flatter than any dirt, and than from `first` to the smaller of them; null
 * where it is not.
 */
export function flatBetween(
  scale: readonly number[],
  perMl: readonly number[],
  particles: readonly number[],
  from: number,
  to: number,
  flattest: number,
  first: number,
): Flat | null {
  const [smaller, larger] = [scale[from] as number, scale[to] as number];
  const ratio = (perMl[from] as number) / (perMl[to] as number);
  if (ratio < 1 || isPlainlySteep(ratio, smaller, larger, flattest)) return null;
  const figure = slope(scale, perMl, from, to);
  const below = first < from ? slope(scale, perMl, first, from) : Infinity;
  const limit = Math.min(flattest * (log10(smaller) + log10(larger)), below);
  if (figure >= limit) return null;
  const share = power(smaller / larger, limit);
  const beyond = particles[to] as number;
  const between = Math.max((particles[from] as number) - beyond, 0);
  const off = 2 * (Math.sqrt((1 - share) * beyond) - Math.sqrt(share * between));
  return off > deviations ? { figure, limit, from, to } : null;
}

function slope(scale: readonly number[], perMl: readonly number[], from: number, to: number): number {
  return (
    log10((perMl[from] as number) / (perMl[to] as number)) / log10((scale[to] as number) / (scale[from] as number))
  );
}

/** Whether a slope is steep enough by bounds alone, which take no logarithm: most are. */
function isPlainlySteep(ratio: number, from: number, to: number, flattest: number): boolean {
  const width = chordLog2(to / from) + chordWidth;
  const limit = flattest * log10Of2 * (chordLog2(from) + chordLog2(to) + 2 * chordWidth);
  return chordLog2(ratio) > 1.000001 * limit * width;
}

const log10Of2 = 0.30103;
/** So much less than the logarithm to base 2 may its chord be. */
const chordWidth = 0.0861;

function scaleOf(counts: CumulativeCounts): readonly number[] {
  return counts.sizing === 'iso11171' ? counts.sizes : counts.sizes.map((size) => micrometresC(size, counts));
}

/** The place of the smallest size that is looked at. */
function firstOf(scale: readonly number[]): number {
  let i = 0;
  while (i < scale.length && (scale[i] as number) < smallest) i += 1;
  return i;
}

/** A size in µm(c); where the published pairs end, the size as it is. */
function micrometresC(size: number, { sizing }: CumulativeCounts): number {
  const isBeyond = sizing === 'iso4402' && (size < 0.8 || size > 100);
  return isBeyond ? size : converted(size, sizing, 'iso11171', 'size');
}

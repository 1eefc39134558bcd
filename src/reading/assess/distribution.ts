/**
 * A flat size distribution: counts that fall off with size more slowly than those of fine dirt. Air bubbles, water
 * droplets and coarse wear make one, and the counts alone do not tell them apart.
 *
 * Of the published distributions of solid particles, that of MIL-STD-1246C is the flattest: log N = c - 0.926 (log
 * size)². Between two sizes the slope of log N on log size is then 0.926 (log s1 + log s2): 1.62 from 4 to 14 µm, where
 * ISO medium test dust has 2.86. A slope below that is not fine dirt. In an ISO 4406 code it shows as fewer than three
 * numbers between 4 and 14 µm, as in 20/19/18.
 *
 * Looked at from the smallest size of 4 µm(c) or more to each size at least twice as large at which 20 particles were
 * counted (or 20 per mL, where it is not known how many): between nearer sizes or fewer particles chance makes slopes.
 * And from 10 to 15 µm to the largest size so counted: little air among much dirt shows at the large sizes first.
 * Sizes by microscope are not judged: another quantity, whose class limits can be flatter (NAS 1638: 1.57 from 5 to 15
 * µm), and no bubble stays on a membrane. What it cannot see: bubbles among so many solids that the sum still falls
 * fast enough.
 */
import { converted } from '../../counts/convertSizing.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { log10 } from '../../numeric/exponential.ts';
import { chordLog2 } from '../../numeric/powersOfTwo.ts';
import { particlesCounted } from '../counted.ts';
import type { Reading } from '../reading.ts';
import { type Check, nothing } from './check.ts';

export const smallest = 4;
export const apart = 2;
export const enough = 20;
/**
 * From a size of these the slope to the largest size is looked at too, µm(c). Below, many oils in service have a code
 * with two numbers from 6 to 14 µm; from 21 µm on published dusts come near the limit (our choice).
 */
const tail = { from: 10, upTo: 15 };
/** Of fewer, a slope must lie so many standard deviations of the counting statistics below the flattest one. */
const many = 400;
const deviations = 4;
const ln10 = 2.302585092994046;

/** The flattest pair of sizes against the flattest distribution of solids. */
export const flatDistribution: Check = {
  codes: ['flat_size_distribution'],
  find: ({ reading, limits: { flattestSteepness } }) => {
    const { counts } = reading;
    if (counts === undefined || flattestSteepness === null || counts.sizing === 'microscope') return null;
    const scale = scaleOf(counts);
    const first = firstFrom(scale, smallest);
    const particles = particlesCounted(reading, counts) ?? counts.perMl;
    const { perMl } = counts;
    let last = first;
    let looked = false;
    let found: Flat | null = null;
    const look = (from: number, to: number) => {
      const one = flatBetween(scale, perMl, particles, from, to, flattestSteepness);
      if (one !== null && (found === null || one.figure / one.limit < found.figure / found.limit)) found = one;
    };
    for (let i = first + 1; i < scale.length; i += 1) {
      const count = perMl[i] as number;
      // a rise has its own finding
      if (count === 0 || count > (perMl[first] as number) || (particles[i] as number) < enough) continue;
      last = i;
      if ((scale[i] as number) < apart * (scale[first] as number)) continue;
      looked = true;
      look(first, i);
    }
    for (let i = first + 1; (scale[i] as number) <= tail.upTo; i += 1)
      if ((scale[i] as number) >= tail.from && (scale[last] as number) >= apart * (scale[i] as number)) look(i, last);
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
  const first = firstFrom(scale, smallest);
  if (first > i - 1) return false;
  const particles = particlesCounted(reading, counts) ?? counts.perMl;
  const isFlat = (from: number, to: number) =>
    (particles[to] as number) >= enough && flatBetween(scale, counts.perMl, particles, from, to, flattest) !== null;
  if (first < i - 1) return isFlat(first, i - 1) && isFlat(first, i);
  // below the smallest there is none to compare with: those above
  for (let to = i + 1; to < scale.length; to += 1) if (isFlat(i - 1, to) && isFlat(i, to)) return true;
  return false;
}

/** A slope that is too flat, and between which sizes. */
interface Flat {
  readonly figure: number;
  readonly limit: number;
  readonly from: number;
  readonly to: number;
}

/** The slope between two sizes, where it is flatter than any dirt; null where it is not. */
export function flatBetween(
  scale: readonly number[],
  perMl: readonly number[],
  particles: readonly number[],
  from: number,
  to: number,
  flattest: number,
): Flat | null {
  const [smaller, larger] = [scale[from] as number, scale[to] as number];
  const ratio = (perMl[from] as number) / (perMl[to] as number);
  if (ratio < 1) return null;
  if (isPlainlySteep(ratio, smaller, larger, flattest)) return null;
  const width = log10(larger / smaller);
  const figure = log10(ratio) / width;
  const limit = flattest * (log10(smaller) + log10(larger));
  // the counts scatter, and so does the slope between them: chance alone makes none of these flat
  const few = (particles[to] as number) < many;
  const share = 1 / (particles[to] as number) - 1 / Math.max(particles[from] as number, 1);
  const scatter = few ? Math.sqrt(Math.max(share, 0)) / ln10 : 0;
  return figure + deviations * (scatter / width) >= limit ? null : { figure, limit, from, to };
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

function firstFrom(scale: readonly number[], least: number): number {
  let i = 0;
  while (i < scale.length && (scale[i] as number) < least) i += 1;
  return i;
}

/** A size in µm(c); where the published pairs end, the size as it is. */
function micrometresC(size: number, { sizing }: CumulativeCounts): number {
  const isBeyond = sizing === 'iso4402' && (size < 0.8 || size > 100);
  return isBeyond ? size : converted(size, sizing, 'iso11171', 'size');
}

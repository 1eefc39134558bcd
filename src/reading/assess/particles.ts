/** The counts by themselves: enough particles, a possible order, few enough to be told apart. */
import { sizings } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/index.ts';
import { particlesCounted } from '../counted.ts';
import { type Check, type Found, type Needed, nothing } from './check.ts';

/** The sizes an ISO 4406 code is made of, for each sizing. */
const codeSizes: Readonly<Record<Sizing, readonly number[]>> = {
  iso11171: [4, 6, 14],
  iso11171b: [],
  iso4402: [5, 15],
  microscope: [5, 15],
};

/**
 * Too few particles at a size of the code: chance decides the scale number, and ISO 4406 marks it with >=. Not judged
 * without flow, where counting longer would not help.
 */
export const fewParticles: Check = {
  codes: ['few_particles'],
  find: ({ reading, limits: { particles, particleSizes } }) => {
    const { counts } = reading;
    if (counts === undefined || particles === null || reading.mlPerMin === 0) return null;
    const counted = particlesCounted(reading, counts);
    if (counted === null) return null;
    const { sizes, sizing } = counts;
    const asked = sizesAsked(counts, particleSizes);
    let fewest = -1;
    const few: number[] = [];
    for (let i = 0; i < sizes.length; i += 1) {
      if (asked.indexOf(sizes[i] as number) < 0 || (counted[i] as number) >= particles) continue;
      few.push(sizes[i] as number);
      if (fewest < 0 || (counted[i] as number) <= (counted[fewest] as number)) fewest = i;
    }
    // what was asked for and is not there is not known to be enough
    if (fewest < 0) return (particleSizes ?? []).every((size) => sizes.indexOf(size) >= 0) ? nothing : null;
    const value = counted[fewest] as number;
    const fewestSize = sizes[fewest] as number;
    // the one with the fewest is told last
    const told = few.filter((size) => size !== fewestSize).concat([fewestSize]);
    return [{ code: 'few_particles', value, limit: particles, sizes: told, sizing }];
  },
};

function sizesAsked(counts: CumulativeCounts, own: readonly number[] | null): readonly number[] {
  if (own !== null) return own;
  const wanted = codeSizes[counts.sizing];
  for (let i = 0; i < counts.sizes.length; i += 1) if (wanted.indexOf(counts.sizes[i] as number) >= 0) return wanted;
  return counts.sizes;
}

/** More particles of a size and larger than of a smaller size and larger: not possible, so a channel is wrong. */
export const countsRise: Check = {
  codes: ['counts_rise_with_size'],
  find: ({ reading: { counts } }) => (counts === undefined ? null : risenIn(counts)),
};

/** The first pair of sizes of which the larger has more. */
export function risenIn({ sizes, perMl, sizing }: CumulativeCounts): readonly Found[] {
  for (let i = 1; i < sizes.length; i += 1) {
    const value = perMl[i] as number;
    const limit = perMl[i - 1] as number;
    if (value <= limit) continue;
    const pair = [sizes[i - 1] as number, sizes[i] as number];
    return [{ code: 'counts_rise_with_size', value, limit, sizes: pair, sizing }];
  }
  return nothing;
}

/** So many particles that several pass at once and count as one larger: the true count is higher. */
export const coincidence: Check = {
  codes: ['above_coincidence_limit'],
  find: ({ reading: { counts }, limits: { coincidencePerMl } }) => {
    if (counts === undefined || coincidencePerMl === null) return null;
    if (!isBeyond(counts, 0, coincidencePerMl)) return nothing;
    return [{ code: 'above_coincidence_limit', value: undiluted(counts, 0), limit: coincidencePerMl }];
  },
};

/**
 * Whether a count lies beyond the coincidence limit. A counter that full can stand there, at several sizes: no channel
 * is broken.
 */
export function isBeyond(counts: CumulativeCounts, i: number, coincidencePerMl: number | null): boolean {
  return coincidencePerMl !== null && undiluted(counts, i) > coincidencePerMl;
}

function undiluted({ perMl, dilution = 1 }: CumulativeCounts, i: number): number {
  return (perMl[i] as number) / dilution;
}

/**
 * A size that a target, an alarm or a followed figure needs and that was not counted: told at once, and not only when
 * an alarm has waited for it. Where none of the columns needed has sizes in this sizing, all of them are missing, each
 * at its size in the first sizing that it has.
 */
export const countMissing: Check = {
  codes: [],
  find: ({ reading: { counts }, needed }) => {
    if (counts === undefined) return nothing;
    const { sizes } = counts;
    const known = (sizing: Sizing) => needed.some((one) => typeof one !== 'number' && one.from[sizing] !== undefined);
    const own = known(counts.sizing) ? undefined : sizings.filter(known)[0];
    const sizing = own ?? counts.sizing;
    const lacking: number[] = [];
    const need = (size: number | undefined) => {
      if (size !== undefined && (own !== undefined || sizes.indexOf(size) < 0)) lacking.push(size);
    };
    for (let i = 0; i < needed.length; i += 1) {
      const one = needed[i] as Needed;
      if (typeof one !== 'number') {
        need(one.from[sizing]);
        need(one.to?.[sizing]);
      } else if (own === undefined) need(one);
    }
    if (lacking.length === 0) return nothing;
    const missing = lacking.sort((a, b) => a - b).filter((size, i) => size !== lacking[i - 1]);
    return [{ code: 'count_missing', value: missing.length, limit: 0, sizes: missing, sizing }];
  },
};

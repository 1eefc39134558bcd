/**
 * The counts by themselves: enough particles, a possible order, few enough to be told apart.
 */
import type { CumulativeCounts, Sizing } from '../../counts/index.ts';
import { shown } from '../../numeric/shown.ts';
import type { Reading } from '../reading.ts';
import type { Check } from './check.ts';

/** The sizes an ISO 4406 code is made of, for each sizing. */
const codeSizes: Readonly<Record<Sizing, readonly number[]>> = {
  iso11171: [4, 6, 14],
  iso11171b: [],
  iso4402: [5, 15],
  microscope: [5, 15],
};

const unitOfSize: Readonly<Record<Sizing, string>> = {
  iso11171: 'µm(c)',
  iso11171b: 'µm(b)',
  iso4402: 'µm',
  microscope: 'µm',
};

/** A size as a sentence shows it. */
export function sizeText(size: number, sizing: Sizing): string {
  return `${size} ${unitOfSize[sizing]}`;
}

/** Particles counted at each size: as given, else from the volume counted, else from flow and time; null where none is known. */
export function particlesCounted(reading: Reading): readonly number[] | null {
  const { counts, mlPerMin, measuringSeconds } = reading;
  if (counts.counted !== undefined) return counts.counted;
  let volume = counts.volumeMl;
  if (volume === undefined && mlPerMin !== undefined && measuringSeconds !== undefined) {
    volume = (mlPerMin * measuringSeconds) / 60;
  }
  if (volume === undefined) return null;
  const undiluted = volume / (counts.dilution ?? 1);
  return counts.perMl.map((count) => count * undiluted);
}

/**
 * Too few particles at a size of the code: chance decides the scale number, and ISO 4406 marks it with >=. Not judged without flow, where counting
 * longer would not help.
 */
export const fewParticles: Check = {
  codes: ['few_particles'],
  find: ({ reading, limits: { particles, particleSizes } }) => {
    const counted = particlesCounted(reading);
    if (counted === null || particles === null || reading.mlPerMin === 0) return null;
    const { sizes, sizing } = reading.counts;
    const asked = sizesAsked(reading.counts, particleSizes);
    let fewest = -1;
    const few: number[] = [];
    for (let i = 0; i < sizes.length; i += 1) {
      if (asked.indexOf(sizes[i] as number) < 0 || (counted[i] as number) >= particles) continue;
      few.push(sizes[i] as number);
      if (fewest < 0 || (counted[i] as number) < (counted[fewest] as number)) fewest = i;
    }
    // what was asked for and is not there is not known to be enough
    if (fewest < 0) return (particleSizes ?? []).every((size) => sizes.indexOf(size) >= 0) ? [] : null;
    const figure = counted[fewest] as number;
    const text = `At ${few.map((size) => sizeText(size, sizing)).join(' and ')} fewer than ${shown(particles, figure)} particles were counted (${shown(figure, particles)} at ${sizeText(sizes[fewest] as number, sizing)}): count longer, or mark the scale number with >=.`;
    return [{ code: 'few_particles', figure, limit: particles, text }];
  },
};

function sizesAsked(counts: CumulativeCounts, own: readonly number[] | null): readonly number[] {
  const wanted = own ?? codeSizes[counts.sizing];
  const there = counts.sizes.filter((size) => wanted.indexOf(size) >= 0);
  return own === null && there.length === 0 ? counts.sizes : there;
}

/** More particles of a size and larger than of a smaller size and larger: not possible, so a channel is wrong. */
export const countsRise: Check = {
  codes: ['counts_rise_with_size'],
  find: ({ reading: { counts } }) => {
    const { sizes, perMl, sizing } = counts;
    for (let i = 1; i < sizes.length; i += 1) {
      const figure = perMl[i] as number;
      const limit = perMl[i - 1] as number;
      if (figure <= limit) continue;
      const text = `${shown(figure, limit)} particles per mL of ${sizeText(sizes[i] as number, sizing)} and larger, but only ${shown(limit, figure)} of ${sizeText(sizes[i - 1] as number, sizing)} and larger, which include them: a channel of the counter is wrong.`;
      return [{ code: 'counts_rise_with_size', figure, limit, text }];
    }
    return [];
  },
};

/** So many particles that several pass at once and count as one larger: the true count is higher. */
export const coincidence: Check = {
  codes: ['above_coincidence_limit'],
  find: ({ reading: { counts }, limits: { coincidencePerMl } }) => {
    if (coincidencePerMl === null) return null;
    const figure = counts.perMl[0] as number;
    const undiluted = figure / (counts.dilution ?? 1);
    if (undiluted <= coincidencePerMl) return [];
    const text = `The counter saw ${shown(undiluted, coincidencePerMl)} particles per mL, above its coincidence limit of ${shown(coincidencePerMl, undiluted)}: the oil is at least this dirty, and the sizes are not right; dilute the sample.`;
    return [{ code: 'above_coincidence_limit', figure: undiluted, limit: coincidencePerMl, text }];
  },
};

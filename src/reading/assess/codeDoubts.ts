/**
 * What a code without counts says against itself. Found is only what the code proves:
 *
 * - `>=` before a number: fewer than 20 particles were counted at that size (ISO 4406:2021, from memory). So it is
 *   `few_particles` where 20 or more are asked for; where fewer are, it proves nothing. So is 0 at the smallest size:
 *   at most 0.01 per mL, 20 particles are in 2 litres.
 * - `*`: too many to count (ISO 4406:2021, from memory). So it is `above_coincidence_limit`, also where that limit is
 *   not known. So is a class whose fewest particles are more than the limit: `>28` is nothing by itself, since a sample
 *   may have been diluted, and is found where `coincidencePerMl` is set.
 * - Numbers so near each other that no counts within them fall as dirt does, 18/18/18: `flat_size_distribution`, by the
 *   steepest fall that they allow, held against what it is in counts.
 *
 * The code is uncertain by it, and not bad: `*` and `>=` are no upper bound, and still prove an alarm.
 */
import type { Sizing } from '../../counts/types.ts';
import type { ReadingLimits } from '../readingLimits.ts';
import type { Band, Check, Found } from './check.ts';
import { inCode } from './codeBands.ts';
import { flatBetween, flatDistribution, isTooFew, smallest } from './distribution.ts';
import { coincidence, fewParticles } from './particles.ts';

/** In counts, else in a code. */
export const few: Check = {
  codes: fewParticles.codes,
  find: (context) => (context.reading.mlPerMin === 0 ? null : (fewParticles.find(context) ?? inCode(context, fewIn))),
};

/** In counts, else in a code. */
export const tooMany: Check = {
  codes: coincidence.codes,
  find: (context) => coincidence.find(context) ?? inCode(context, tooManyIn),
};

/** In counts, else in a code. */
export const flat: Check = {
  codes: flatDistribution.codes,
  find: (context) => flatDistribution.find(context) ?? inCode(context, flatIn),
};

/** ISO 4406 marks a number with `>=` where fewer than so many particles were counted. */
const marked = 20;

/** No counter counts more oil for one code, in mL (our choice). */
const mostCounted = 1000;

function fewIn(bands: readonly Band[], { particles, particleSizes }: ReadingLimits): Found | null {
  if (particles === null || particles < marked) return null;
  const counted = bands.filter(({ mark }) => mark !== 'not_counted');
  const most = counted.length === 0 ? null : (counted[0] as Band).upTo;
  const isEmpty = most !== null && most * mostCounted < marked;
  const sizes = (isEmpty ? counted.map(({ size }) => size) : sizesOf(bands, 'few_counted')).filter(
    (size) => particleSizes === null || particleSizes.indexOf(size) >= 0,
  );
  return sizes.length === 0 ? null : { code: 'few_particles', value: marked - 1, limit: particles, sizes };
}

function tooManyIn(bands: readonly Band[], { coincidencePerMl }: ReadingLimits): Found | null {
  const sizes = sizesOf(bands, 'too_many');
  const limit = coincidencePerMl ?? 0;
  if (sizes.length > 0) return { code: 'above_coincidence_limit', value: limit, limit, sizes };
  if (coincidencePerMl === null) return null;
  for (const { size, mark, moreThan } of bands) {
    if (moreThan === null || moreThan < limit || mark === 'few_counted') continue;
    return { code: 'above_coincidence_limit', value: moreThan, limit, sizes: [size] };
  }
  return null;
}

function sizesOf(bands: readonly Band[], wanted: Band['mark']): number[] {
  return bands.filter(({ mark }) => mark === wanted).map(({ size }) => size);
}

/**
 * As of counts in µm(c), between the most at the smallest size and the fewest at a larger one: the steepest that can
 * be.
 */
function flatIn(bands: readonly Band[], { flattestSteepness }: ReadingLimits, sizing: Sizing): Found | null {
  if (flattestSteepness === null || sizing !== 'iso11171') return null;
  const counted = bands.filter(({ size, mark }) => size >= smallest && mark !== 'not_counted');
  for (const { size, mark, moreThan } of counted) {
    const { size: first, upTo } = counted[0] as Band;
    // of few the number is not known; and where the larger has more, the code rises
    if (size === first || upTo === null || moreThan === null || mark === 'few_counted' || moreThan >= upTo) continue;
    const perMl = [upTo, moreThan];
    if (isTooFew([first, size], perMl, 0, 1)) continue;
    const found = flatBetween([first, size], perMl, perMl, 0, 1, flattestSteepness, 0);
    if (found === null) continue;
    return { code: 'flat_size_distribution', value: found.figure, limit: found.limit, sizes: [first, size] };
  }
  return null;
}

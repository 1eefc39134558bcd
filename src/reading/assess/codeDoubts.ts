/**
 * What a code without counts says against itself. Found is only what the code proves:
 *
 * - `>=` before a number: fewer than 20 particles were counted at that size (ISO 4406:2021, from memory). So it is
 *   `few_particles` where 20 or more are asked for; where fewer are, it proves nothing.
 * - `*`: too many to count (ISO 4406:2021, from memory). So it is `above_coincidence_limit`, also where that limit is
 *   not known. So is a class whose fewest particles are more than the limit: `>28` is nothing by itself, since a sample
 *   may have been diluted, and is found where `coincidencePerMl` is set.
 * - Numbers so near each other that no counts within them fall as dirt does, 18/18/18: `flat_size_distribution`, by the
 *   steepest fall that they allow, held against what it is in counts.
 *
 * The code is uncertain by it, and not bad: `*` and `>=` are no upper bound, and still prove an alarm.
 */
import { usualSizing } from '../../codes/columnSizes.ts';
import type { Sizing } from '../../counts/types.ts';
import type { ReadingLimits } from '../readingLimits.ts';
import type { Check, Context, Found } from './check.ts';
import { knownTables } from './code.ts';
import { type Band, bandsOf } from './codeBands.ts';
import { enough, type Flat, flatBetween, flatDistribution, mayBeFlat, scaleOf } from './distribution.ts';
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

type Look = (bands: readonly Band[], limits: ReadingLimits, sizing: Sizing) => Found | null;

/** What is found in the first code in which it is; null where none shows it, or where there are counts. */
function inCode({ reading: { counts, codes }, limits, tables }: Context, look: Look): readonly Found[] | null {
  if (counts !== undefined || codes === undefined) return null;
  for (const { table } of tables.concat(knownTables)) {
    // a range says nothing of the others
    if (table.counting !== 'cumulative' || Object.keys(codes).indexOf(table.id) < 0) continue;
    const received = codes[table.id] as string;
    const sizing = usualSizing(table);
    const found = look(bandsOf(table, received), limits, sizing);
    if (found !== null) return [{ ...found, sizing, received }];
  }
  return null;
}

/** ISO 4406 marks a number with `>=` where fewer than so many particles were counted. */
const marked = 20;

function fewIn(bands: readonly Band[], { particles, particleSizes }: ReadingLimits): Found | null {
  if (particles === null || particles < marked) return null;
  const sizes = sizesOf(bands, 'few_counted').filter(
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

/** As of counts, between the most at the smaller size and the fewest at the larger: the steepest that can be. */
function flatIn(bands: readonly Band[], { flattestSteepness }: ReadingLimits, sizing: Sizing): Found | null {
  if (flattestSteepness === null || sizing === 'microscope') return null;
  const counted = bands.filter(({ mark }) => mark !== 'not_counted');
  const scale = scaleOf({ sizing, sizes: counted.map(({ size }) => size) });
  let flattest: (Flat & { readonly sizes: readonly number[] }) | null = null;
  for (let i = 0; i < counted.length; i += 1)
    for (let k = i + 1; k < counted.length; k += 1) {
      const [from, to] = [counted[i] as Band, counted[k] as Band];
      if (!mayBeFlat(scale, i, k) || from.upTo === null || to.moreThan === null) continue;
      // where the larger has more, the code rises
      if (to.mark === 'few_counted' || to.moreThan < enough || to.moreThan >= from.upTo) continue;
      const perMl = [from.upTo, to.moreThan];
      const found = flatBetween([scale[i] as number, scale[k] as number], perMl, perMl, 0, 1, flattestSteepness);
      if (found === null || (flattest !== null && found.figure / found.limit >= flattest.figure / flattest.limit))
        continue;
      flattest = { ...found, sizes: [from.size, to.size] };
    }
  if (flattest === null) return null;
  return { code: 'flat_size_distribution', value: flattest.figure, limit: flattest.limit, sizes: flattest.sizes };
}

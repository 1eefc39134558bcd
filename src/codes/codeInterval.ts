/** How sure a code is: the codes that the counting statistics leave possible. */
import { confidenceOf } from '../checks.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import { requireFewEnough, requireRaw } from '../counts/ranges.ts';
import { countInterval } from '../counts/statistics.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { proportion } from '../numeric/decimal.ts';
import { codeOfClasses } from './assemble.ts';
import { classOfPerMl } from './classIndex.ts';
import { classifySound } from './classify.ts';
import { countedIn, placeAround } from './columnCount.ts';
import { requireSizingOf } from './columnSizes.ts';
import { requireTable } from './requireTable.ts';
import type { ClassTable, Code } from './types.ts';

/**
 * The lowest and the highest code compatible with the particles counted, size by size, at a confidence (0.95 where left
 * out): the scale numbers of the exact Poisson limits. Where both agree at a size, that number is settled; where they
 * differ, count longer. A class over several columns is the worst of their limits, and the level is that of each
 * column: where all five ranges of NAS 1638 lie at the limit of a class, the interval holds it in 89 to 90 % and not in
 * 95 (10 and 100 mL, 2000 samples each), at 0.9 of the limits in 98.7 %. What it misses so is nearly always too dirty a
 * class. A column of it that was not counted, and by the particles of the next smaller size cannot make it worse, has
 * the upper limit of these.
 *
 * It covers the chance of the draw only, not volume, size calibration, sampling, air or water: with many particles it
 * says far too much. `codeUncertainty` takes them together; its upper limits without other errors are the same, its
 * lower ones of few particles higher (1 particle in 10 mL: 0.024 and not 0.0025 per mL), for it reckons with one
 * particle more.
 *
 * @param counts raw counts (made with `volumeMl`)
 * @param options `confidence`: above 0 and below 1
 * @throws `missing_volume` if the counts carry no particles counted and volume; `missing_size` if they have no size of
 * the table; `out_of_range` above 1e9 particles.
 *
 * @example
 * ```ts
 * import { codeInterval, iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const { low, high } = codeInterval(iso4406, cumulativeCounts({ 4: 4500, 6: 240, 14: 6 }, { volumeMl: 10 }));
 * low.text; // => '16/12/5'
 * high.text; // => '16/12/8'
 * ```
 */
export function codeInterval(
  table: ClassTable,
  counts: CumulativeCounts,
  options: { readonly confidence?: number | undefined } = {},
): { low: Code; high: Code } {
  requireTable(table);
  checkCounts(counts);
  const confidence = confidenceOf(options);
  requireSizingOf(table, counts.sizing, 'counts.sizing');
  const { counted, volumeMl } = requireRaw(counts);
  const { parts } = classifySound(table, counts, 'counts', null);
  const codeAt = (limit: 'low' | 'high'): Code => {
    const classes = table.columns.map((column, i) => {
      const place = placeAround(table, column, counts);
      if (place === null || !(place.exact || parts[i]?.mark === 'no_dirtier')) return null;
      const between = countedIn(counted, place);
      requireFewEnough(between, `counts.counted[${place.from}]`);
      // of those that only bound a column there may be none in it
      const particles = place.exact || limit === 'high' ? countInterval(between, { confidence })[limit] : 0;
      return classOfPerMl(table, i, proportion(particles, counts.dilution ?? 1, volumeMl));
    });
    return codeOfClasses(table, classes, counts);
  };
  return { low: codeAt('low'), high: codeAt('high') };
}

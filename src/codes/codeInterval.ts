/**
 * How sure a code is: the codes that the counting statistics leave possible.
 */
import { requireMembers, requireObject, requireShare } from '../checks.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import { countInterval } from '../counts/statistics.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { proportion } from '../numeric/decimal.ts';
import { assemble, type Finding, type Unfilled } from './assemble.ts';
import { classIndex, limitPerMl } from './classIndex.ts';
import { columnPlace } from './columnCount.ts';
import { requireSizingOf } from './columnSizes.ts';
import { requireTable } from './requireTable.ts';
import { iso4406 } from './tables/iso4406.ts';
import type { ClassTable, Code } from './types.ts';

/**
 * The lowest and the highest code (ISO 4406 unless another table is named) compatible with the particles counted, size by size, at a confidence (0.95 where left out): the
 * scale numbers of the exact Poisson limits. Where both agree at a size, that number is settled; where they differ, count longer.
 *
 * It covers the chance of the draw only, not sampling, calibration, air or water.
 *
 * @param counts raw counts (made with `volumeMl`)
 * @param options `confidence`; `table`: another table instead of `iso4406`; a class over several columns is the worst of their limits
 * @throws `missing_volume` if the counts carry no particles counted and volume; `missing_size` if they have no size of the table;
 * `out_of_range` above 1e9 particles.
 *
 * @example
 * ```ts
 * import { codeInterval } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const { low, high } = codeInterval(cumulativeCounts({ 4: 4500, 6: 240, 14: 6 }, { volumeMl: 10 }));
 * low.text; // => '16/12/5'
 * high.text; // => '16/12/8'
 * ```
 */
export function codeInterval(
  counts: CumulativeCounts,
  options: { readonly confidence?: number; readonly table?: ClassTable } = {},
): { low: Code; high: Code } {
  checkCounts(counts);
  requireMembers(requireObject(options, 'options'), 'options', ['confidence', 'table']);
  const table = options.table ?? iso4406;
  requireTable(table, 'options.table');
  const confidence = requireShare(options.confidence ?? 0.95, 'options.confidence');
  requireSizingOf(table, counts.sizing, 'counts.sizing');
  const { counted, volumeMl } = counts;
  if (counted === undefined || volumeMl === undefined) {
    throw motescaleError(
      'missing_volume',
      'counts.volumeMl',
      volumeMl,
      'raw counts: cumulativeCounts({ ... }, { volumeMl })',
    );
  }
  const codeAt = (limit: 'low' | 'high'): Code => {
    const findings = table.columns.map((column, i): Finding | Unfilled => {
      const place = columnPlace(column, counts);
      if (place === null) return { atMost: Infinity };
      const above = place.toIndex === null ? 0 : (counted[place.toIndex] as number);
      const particles = countInterval((counted[place.fromIndex] as number) - above, { confidence })[limit];
      const perMl = proportion(particles, counts.dilution ?? 1, volumeMl);
      const index = classIndex(table, i, (printed) => perMl <= (limitPerMl(table, printed) as number));
      return { count: perMl * table.perVolumeMl, index };
    });
    const { parts, text } = assemble(table, findings, counts);
    return { table: table.id, parts, text };
  };
  return { low: codeAt('low'), high: codeAt('high') };
}

/** The main job: counts to a code or class in any table. */
import { requireObject } from '../checks.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { assemble, type Finding, missingSizes, notAsked } from './assemble.ts';
import { columnFinding } from './columnCount.ts';
import { requireSizingOf } from './columnSizes.ts';
import { requireLabels, requireTable } from './requireTable.ts';
import type { ClassColumn, Classification, ClassTable } from './types.ts';

/**
 * The code or class of counts, with what decided it. A class is decided by comparing with the printed limit, up to and
 * including.
 *
 * Sizes are taken as they are, never interpolated: a column whose size was not counted is written `-` and listed in
 * `missing` (`likelyClasses` estimates it, `possibleClasses` bounds it). Where the class is the worst over several
 * columns, only those are missing that could make it worse (with no particle of 25 µm, none of 50 µm need be counted),
 * and the text then reads `6 or dirtier`. Fibres, which a person counts under a microscope, and mass, which is weighed,
 * are no particle counts: they are listed as missing, and leave no class open. Beyond the last class stands `>28` or
 * `>12`. At a count below the first limit the first class stands, and its evidence says `end: 'first_class'`: the oil
 * may be cleaner than the table can tell.
 *
 * In ISO 4406 a scale number found from fewer than 20 counted particles is marked `>=`; that needs raw counts
 * (`volumeMl`).
 *
 * A code describes the sample counted. Whether a machine may run on it is the decision of those who answer for the
 * machine.
 *
 * @param table a class table, such as `iso4406`
 * @param counts cumulative counts in a sizing the table knows
 * @param options `columns`: the labels of the columns to judge, and no others; all where left out
 * @throws `sizing_not_convertible` if the table has no sizes for this sizing; `missing_size` if no column can be
 * filled, or one asked for by name cannot; any error of bad counts.
 *
 * @example
 * ```ts
 * import { classify, iso4406, nas1638 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const counts = cumulativeCounts({ 4: 2139776, 6: 385192, 14: 5404, 21: 612, 38: 68, 70: 16 }, { per: '100mL' });
 * classify(iso4406, counts).text; // => '22/19/13'
 * classify(nas1638, counts).text; // => '11'
 * ```
 */
export function classify(
  table: ClassTable,
  counts: CumulativeCounts,
  options?: { readonly columns?: readonly string[] | undefined },
): Classification {
  requireTable(table);
  const asked = columnsAsked(table, options);
  checkCounts(counts);
  return classifySound(table, counts, 'counts', asked);
}

/** The columns that the options of `classify` and `meets` ask for; null for all. */
export function columnsAsked(
  table: ClassTable,
  options: { readonly columns?: readonly string[] | undefined } | undefined,
): readonly string[] | null {
  if (options === undefined) return null;
  requireObject(options, 'options', undefined, ['columns']);
  return options.columns === undefined ? null : requireLabels(table, options.columns, 'options.columns');
}

/** The same for counts that have been checked. `asked`: labels of the table's columns; null for all. */
export function classifySound(
  table: ClassTable,
  counts: CumulativeCounts,
  parameter: string,
  asked: readonly string[] | null,
): Classification {
  requireSizingOf(table, counts.sizing, parameter, '.sizing');
  const findings: Finding[] = [];
  for (let i = 0; i < table.columns.length; i += 1) {
    const column = table.columns[i] as ClassColumn;
    if (asked !== null && asked.indexOf(column.label) < 0) {
      findings.push(notAsked);
      continue;
    }
    const finding = columnFinding(table, i, counts);
    if (asked !== null && finding.index < 0) throw missingSizes([column], counts, parameter);
    findings.push(finding);
  }
  return assemble(table, findings, counts, parameter);
}

/** What must hold of the class of a sample, given what is known of it: a proof, not an estimate. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { className, placeOf } from '../classIndex.ts';
import { requireTable } from '../requireTable.ts';
import type { ClassSpan, ClassTable, CountBands } from '../types.ts';
import { checkKnown, knowledgeOf } from './knowledge.ts';
import { spanOf } from './span.ts';
import { worstUnsized } from './unsized.ts';

/**
 * The lowest and the highest class of a table that any sample can have, given counts or a code as bands, since
 * cumulative counts never rise with size. No assumption on the size distribution: both ends are reached by some sample
 * (of any concentrations; a few particles in a small volume cannot be split so finely). But for one class over several
 * ranges (NAS 1638 `8`, `6B-F`): which range has it the bands do not say, so the lowest class may be lower than any
 * sample has; `compareCodes` knows it. `likelyClasses` is narrower, and less sure.
 *
 * It is of the sample as counted: what `>=` leaves open, it does not widen, and raw counts are taken as exact. Of few
 * particles the oil itself may lie outside: with 20 to 100 of 4 µm(c) and larger per mL, counted at three sizes in 1
 * mL, its NAS 1638 class did in 19 % of the oils of docs/comparison.md, in 10 mL in 4 %. `codeInterval` tells how
 * unsure a count is.
 *
 * `lowest` and `highest` are over all columns together (the worst class of the cleanest and of the dirtiest sample
 * possible). Columns that no particle counter fills (fibres, mass), or that the table does not size in the sizing
 * given, are left out and listed in `unseen`. One of those counts in `highest` all the same where the data have its
 * lower end: of 10 particles of 100 µm (70 µm(c)) and larger, GOST 17216 may have all of them from 100 to 200 µm.
 *
 * @param known counts, or `limitsOf(iso4406, '18/16/13')`
 * @throws `sizing_not_convertible`; `no_answer` if the bands contradict each other (a count that rises with size).
 *
 * @example
 * ```ts
 * import { iso4406, limitsOf, nas1638, possibleClasses } from 'motescale/codes';
 * const span = possibleClasses(nas1638, limitsOf(iso4406, '18/16/13'));
 * span.lowest; // => '7'
 * span.highest; // => '>12'
 * span.columns[0]; // => { column: '5-15', lowest: '7', highest: '8' }
 * ```
 */
export function possibleClasses(table: ClassTable, known: CumulativeCounts | CountBands): ClassSpan {
  requireTable(table);
  checkKnown(known, table);
  const span = spanOf(table, knowledgeOf(known, table));
  const worst = worstUnsized(table, known);
  return worst > placeOf(table, span.highest) ? { ...span, highest: className(table, worst) } : span;
}

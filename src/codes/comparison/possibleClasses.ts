/**
 * What must hold: the lowest and the highest class that any sample can have, given what is known of it. A proof, not an
 * estimate.
 */
import type { CumulativeCounts } from '../../counts/types.ts';
import { classIndex, className, limitAt } from '../classIndex.ts';
import { columnSizes } from '../columnSizes.ts';
import { requireTable } from '../requireTable.ts';
import type { ClassSpan, ClassTable, CountBands } from '../types.ts';
import { type Bound, isPossible, largestDifference, nothing } from './countSystem.ts';
import { checkKnown, type Knowledge, knowledgeOf } from './knowledge.ts';

/**
 * The lowest and the highest class of a table that any sample can have, given counts or a code as bands, since
 * cumulative counts never rise with size. No assumption on the size distribution: both ends are reached by some sample
 * (of any concentrations; a few particles in a small volume cannot be split so finely). It is of the sample as counted:
 * what `>=` leaves open, it does not widen. `likelyClasses` is narrower, and less sure.
 *
 * `lowest` and `highest` are over all columns together (the worst class of the cleanest and of the dirtiest sample
 * possible). Columns that no particle counter fills (fibres, mass), or that the table does not size in the sizing
 * given, are left out and listed in `unseen`.
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
  const knowledge = knowledgeOf(known, table);
  const places = knowledge.sizes.length + 1;
  const columns: { column: string; lowest: string; highest: string }[] = [];
  const unseen: string[] = [];
  let worst = 0;
  table.columns.forEach((column, i) => {
    const ends = columnEnds(table, i, knowledge);
    if (ends === null) {
      unseen.push(column.label);
      return;
    }
    const most = largestDifference(places, knowledge.differences, ends.from, ends.to);
    // never null: the count of larger particles is never above the count of smaller ones
    const least = largestDifference(places, knowledge.differences, ends.to, ends.from) as Bound;
    const low = classIndex(table, i, (limit) => {
      const room = knowledge.inUnit(limit) + least.value;
      return least.strict > 0 ? room > 0 : room >= 0;
    });
    const high = classIndex(table, i, (limit) => most !== null && most.value <= knowledge.inUnit(limit));
    if (most === null && least.value >= 0) unseen.push(column.label);
    worst = Math.max(worst, high);
    columns.push({ column: column.label, lowest: className(table, low), highest: className(table, high) });
  });
  return {
    lowest: className(table, lowestTogether(table, knowledge)),
    highest: className(table, worst),
    columns,
    unseen,
  };
}

/** The cleanest class whose limits one sample can keep in all columns at once. */
function lowestTogether(table: ClassTable, knowledge: Knowledge): number {
  let index = 0;
  while (index < table.classes.length) {
    const differences = knowledge.differences.slice();
    table.columns.forEach((_column, i) => {
      const ends = columnEnds(table, i, knowledge);
      const limit = limitAt(table, index, i);
      if (ends === null || limit === null) return;
      differences.push({ of: ends.from, minus: ends.to, bound: { value: knowledge.inUnit(limit), strict: 0 } });
    });
    if (isPossible(knowledge.sizes.length + 1, differences)) return index;
    index += 1;
  }
  return index;
}

function columnEnds(table: ClassTable, i: number, knowledge: Knowledge): { from: number; to: number } | null {
  const sizes = columnSizes(table.columns[i] as ClassTable['columns'][number], knowledge.sizing);
  if (sizes === null) return null;
  const to = sizes.to === null ? nothing : knowledge.sizes.indexOf(sizes.to) + 1;
  return { from: knowledge.sizes.indexOf(sizes.from) + 1, to };
}

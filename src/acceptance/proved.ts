/** What a record says of its table, and of the worst that its run has shown. */
import { className } from '../codes/classIndex.ts';
import type { CodePart } from '../codes/index.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import { formatAnyParts } from '../codes/written/formatParts.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import type { AcceptanceRecord, AcceptanceRun } from './types.ts';

/** The margins stand in the order of the columns judged, one for each. */
export function provedOf(
  { table, wanted }: CodePlan,
  margins: AcceptanceRun['margins'],
): Pick<AcceptanceRecord, 'table' | 'title' | 'edition' | 'leftOut' | 'worst'> {
  const leftOut: string[] = [];
  let judged = 0;
  const worst = table.columns.map(({ label }, i): CodePart => {
    const asked = (wanted as Wanted)[i] as number | null;
    if (asked === null) {
      leftOut.push(label);
      return { column: label, class: null, mark: 'not_counted' };
    }
    const { classes } = margins[judged] as AcceptanceRun['margins'][number];
    judged += 1;
    return { column: label, class: className(table, asked - classes) };
  });
  const { id, title, source } = table;
  // plain data may have no source, and an own table no edition
  const edition = source?.edition || null;
  return { table: id, title, edition, leftOut, worst: formatAnyParts(table, worst) };
}

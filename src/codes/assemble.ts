/** From decided columns to a whole classification, for counts in doubles and in decimal strings. */
import type { CumulativeCounts } from '../counts/types.ts';
import { type MotescaleError, motescaleError } from '../errors.ts';
import { className, limitAt } from './classIndex.ts';
import { columnSizes } from './columnSizes.ts';
import type { ClassColumn, Classification, ClassTable, Code, CodePart, Evidence } from './types.ts';
import { formatParts, notationOf } from './written/formatParts.ts';

/** What was found in one column. */
export interface Finding {
  /** Its count in the table's volume. */
  readonly count: number;
  /** Its class; -1 where its sizes are lacking: `count` is then the most there can be, Infinity where unbounded. */
  readonly index: number;
  /** How many particles were counted, if known. */
  readonly counted?: number | undefined;
}

/** Of a column that the counts cannot fill, and that nothing bounds. */
export const unbounded: Finding = { count: Infinity, index: -1 };
/** Of a column that nobody asked for: there is nothing in it that could be missed. */
export const notAsked: Finding = { count: -1, index: -1 };

/** The classification, from what was found in each column. Throws `missing_size` where no column is filled. */
export function assemble(
  table: ClassTable,
  findings: readonly Finding[],
  counts: Sizes,
  parameter: string,
  member?: string,
): Classification {
  const { columns } = table;
  const parts: CodePart[] = [];
  const evidence: Evidence[] = [];
  const missing: string[] = [];
  const worstColumns: string[] = [];
  let worstIndex = -1;
  for (let i = 0; i < findings.length; i += 1) worstIndex = Math.max(worstIndex, (findings[i] as Finding).index);
  if (worstIndex < 0) throw missingSizes(columns, counts, parameter, member);
  const worst = className(table, worstIndex);
  const single = notationOf(table) === 'single';
  for (let i = 0; i < findings.length; i += 1) {
    const { label, from } = columns[i] as ClassColumn;
    const finding = findings[i] as Finding;
    if (finding.index >= 0) {
      parts.push(partOf(table, label, finding));
      evidence.push(evidenceOf(table, i, label, finding));
      if (finding.index === worstIndex) worstColumns.push(label);
    } else {
      // in one class for all, a column is missed only if it could be worse than that
      const limit = single ? limitAt(table, worstIndex, i) : -1;
      const missed = limit !== null && finding.count > limit;
      if (missed) missing.push(label);
      // fibres and mass are no counter's, and leave no class open
      const judged = single && finding !== notAsked && Object.keys(from).length > 0;
      parts.push({ column: label, class: null, mark: !judged ? 'not_counted' : missed ? 'or_dirtier' : 'no_dirtier' });
    }
  }
  return { table: table.id, parts, text: formatParts(table, parts, worst), evidence, worst, worstColumns, missing };
}

/** The code alone of classes by column; null where the counts lack its sizes. */
export function codeOfClasses(table: ClassTable, classes: readonly (number | null)[], counts: Sizes): Code {
  // the count would be shown by the evidence, which is not kept
  const findings = classes.map((index): Finding => (index === null ? unbounded : { count: 0, index }));
  const { parts, text } = assemble(table, findings, counts, 'counts');
  return { table: table.id, parts, text };
}

/** How counts were measured, and where. */
export type Sizes = Pick<CumulativeCounts, 'sizing' | 'sizes'>;

/**
 * The error where the counts lack the sizes of all of these columns of a table. Counts of 5 µm, taken for µm(c), are
 * mostly those of a microscope or of a counter before ISO 11171, whose sizing was forgotten.
 */
export function missingSizes(
  columns: readonly ClassColumn[],
  { sizing, sizes }: Sizes,
  parameter: string,
  member = '.sizes',
): MotescaleError {
  const wanted: string[] = [];
  for (const column of columns) {
    const found = columnSizes(column, sizing);
    if (found !== null) wanted.push(`${column.label} (${[found.from].concat(found.to ?? []).join('-')})`);
  }
  const hint = sizing === 'iso11171' && sizes[0] === 5 ? 'microscope and ISO 4402 need sizing' : 'or likelyClasses';
  const expected = `sizes by ${sizing}: ${wanted.join(', ')}; ${hint}`;
  return motescaleError('missing_size', parameter + member, sizes, expected);
}

function partOf(table: ClassTable, column: string, { index, counted = Infinity }: Finding): CodePart {
  const part = { column, class: className(table, index) };
  if (index === table.classes.length) return { ...part, mark: 'beyond' };
  // where the table marks none, nothing is fewer
  return counted < (table.fewCounted as number) ? { ...part, mark: 'few_counted' } : part;
}

function evidenceOf(table: ClassTable, column: number, label: string, { count, index }: Finding): Evidence {
  const above = index === 0 ? 0 : (limitAt(table, index - 1, column) as number);
  const found = { column: label, count, above, upTo: limitAt(table, index, column) };
  if (index === table.classes.length) return { ...found, end: 'beyond' };
  return index === 0 ? { ...found, end: 'first_class' } : found;
}

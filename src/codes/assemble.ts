/**
 * From decided columns to a whole classification: parts, evidence, worst class, text. Shared by counts in doubles and
 * in decimal strings.
 */
import type { Sizing } from '../counts/types.ts';
import { type MotescaleError, motescaleError } from '../errors.ts';
import { className, limitAt } from './classIndex.ts';
import { columnSizes } from './columnSizes.ts';
import type { ClassColumn, Classification, ClassTable, CodePart, Evidence } from './types.ts';
import { formatParts, notationOf } from './written/formatParts.ts';

/**
 * What was found in one column: its count in the table's volume, its class, and how many particles were counted, if
 * known.
 */
export interface Finding {
  readonly count: number;
  readonly index: number;
  readonly counted?: number;
}

/** A column that the counts cannot fill, and what must hold of its count in the table's volume all the same. */
export interface Unfilled {
  /** Infinity where nothing bounds it. */
  readonly atMost: number;
}

/**
 * The classification, from what is known of each column (null for a column not asked for). Null where no column is
 * filled.
 */
export function assemble(table: ClassTable, findings: readonly (Finding | Unfilled | null)[]): Classification | null {
  const parts: CodePart[] = [];
  const evidence: Evidence[] = [];
  let worstIndex = -1;
  for (let column = 0; column < findings.length; column += 1) {
    const finding = findings[column] as Finding | Unfilled | null;
    const { label } = table.columns[column] as ClassColumn;
    if (finding === null || 'atMost' in finding) {
      parts.push({ column: label, class: null, mark: 'not_counted' });
      continue;
    }
    parts.push(partOf(table, label, finding));
    evidence.push(evidenceOf(table, column, label, finding));
    if (finding.index > worstIndex) worstIndex = finding.index;
  }
  if (worstIndex < 0) return null;
  const worst = className(table, worstIndex);
  const missing: string[] = [];
  const worstColumns: string[] = [];
  for (let i = 0; i < parts.length; i += 1) {
    const { class: named, column } = parts[i] as CodePart;
    const finding = findings[i] as Finding | Unfilled | null;
    if (named === worst) worstColumns.push(column);
    if (finding === null || !('atMost' in finding)) continue;
    if (notationOf(table) === 'single') {
      // missed only if it could be worse than the worst found
      const limit = limitAt(table, worstIndex, i);
      if (limit === null || finding.atMost <= limit) continue;
      const { from } = table.columns[i] as ClassColumn;
      // fibres and mass are no counter's, and leave no class open
      if (Object.keys(from).length > 0) parts[i] = { column, class: null, mark: 'or_dirtier' };
    }
    missing.push(column);
  }
  return {
    table: table.id,
    parts,
    text: formatParts(table, parts, worst),
    evidence,
    worst,
    worstColumns,
    missing,
  };
}

/** The error where the counts fill no column at all. */
export function noColumnFilled(
  { title, columns }: ClassTable,
  sizing: Sizing,
  sizes: readonly number[],
  parameter: string,
): MotescaleError {
  return missingSizes(`one column of ${title} at least`, columns, sizing, sizes, parameter);
}

/** The error where the counts lack the sizes of all of these columns; `what` they are, in words. */
export function missingSizes(
  what: string,
  columns: readonly ClassColumn[],
  sizing: Sizing,
  sizes: readonly number[],
  parameter: string,
): MotescaleError {
  const ranges: string[] = [];
  for (const column of columns) {
    const found = columnSizes(column, sizing);
    if (found !== null) ranges.push(found.to === null ? `${found.from}` : `${found.from} to ${found.to}`);
  }
  const expected = `the sizes of ${what}, in µm: ${ranges.join(', ')}; likelyClasses estimates between sizes`;
  return motescaleError('missing_size', parameter, sizes, expected);
}

function partOf(table: ClassTable, column: string, { index, counted = Infinity }: Finding): CodePart {
  const named = className(table, index);
  if (index === table.classes.length) return { column, class: named, mark: 'beyond' };
  return counted < (table.fewCounted ?? 0) ? { column, class: named, mark: 'few_counted' } : { column, class: named };
}

function evidenceOf(table: ClassTable, column: number, label: string, { count, index }: Finding): Evidence {
  const above = index === 0 ? 0 : (limitAt(table, index - 1, column) as number);
  const found = { column: label, count, above, upTo: limitAt(table, index, column) };
  if (index === table.classes.length) return { ...found, end: 'beyond' };
  return index === 0 ? { ...found, end: 'first_class' } : found;
}

/**
 * From decided columns to a whole classification: parts, evidence, worst class, text. Shared by counts in doubles and in decimal strings.
 */
import type { Sizing } from '../counts/types.ts';
import { type MotescaleError, motescaleError } from '../errors.ts';
import { className, limitAt } from './classIndex.ts';
import { columnSizes } from './columnSizes.ts';
import { formatParts, notationOf } from './formatParts.ts';
import type { Classification, ClassTable, CodePart, Evidence } from './types.ts';

/** What was found in one column: its count in the table's volume, its class, and how many particles were counted, if known. */
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
 * The classification, from what is known of each column (null for a column not asked for). Null where no column is filled.
 */
export function assemble(table: ClassTable, findings: readonly (Finding | Unfilled | null)[]): Classification | null {
  const parts: CodePart[] = [];
  const evidence: Evidence[] = [];
  let worstIndex = -1;
  for (let column = 0; column < findings.length; column += 1) {
    const finding = findings[column] as Finding | Unfilled | null;
    const { label } = table.columns[column] as ClassTable['columns'][number];
    parts.push(partOf(table, label, finding));
    if (finding === null || 'atMost' in finding) continue;
    evidence.push(evidenceOf(table, column, label, finding));
    worstIndex = Math.max(worstIndex, finding.index);
  }
  if (worstIndex < 0) return null;
  const worst = className(table, worstIndex);
  const single = notationOf(table) === 'single';
  const missing: string[] = [];
  const worstColumns: string[] = [];
  for (let i = 0; i < parts.length; i += 1) {
    const part = parts[i] as CodePart;
    if (part.class === worst) worstColumns.push(part.column);
    else if (isMissed(table, worstIndex, i, findings[i] ?? null)) {
      missing.push(part.column);
      if (single && isCountable(table, i)) parts[i] = { column: part.column, class: null, mark: 'or_dirtier' };
    }
  }
  return {
    table: table.id,
    parts,
    text: formatParts(table, parts),
    evidence,
    worst,
    worstColumns,
    missing,
  };
}

/** The error where the counts fill no column at all. */
export function noColumnFilled(
  table: ClassTable,
  sizing: Sizing,
  sizes: readonly number[],
  parameter: string,
): MotescaleError {
  const ranges = table.columns
    .map((column) => columnSizes(column, sizing))
    .map((sizes) => (sizes === null ? '' : sizes.to === null ? `${sizes.from}` : `${sizes.from} to ${sizes.to}`))
    .filter((range) => range !== '');
  const wanted = `the sizes of one column of ${table.title} at least, in µm: ${ranges.join(', ')}`;
  return motescaleError('missing_size', parameter, sizes, `${wanted}; likelyClasses estimates between sizes`);
}

function partOf(table: ClassTable, column: string, finding: Finding | Unfilled | null): CodePart {
  if (finding === null || 'atMost' in finding) return { column, class: null, mark: 'not_counted' };
  const named = className(table, finding.index);
  if (finding.index === table.classes.length) return { column, class: named, mark: 'beyond' };
  const few = table.fewCounted !== undefined && finding.counted !== undefined && finding.counted < table.fewCounted;
  return few ? { column, class: named, mark: 'few_counted' } : { column, class: named };
}

function evidenceOf(table: ClassTable, column: number, label: string, finding: Finding): Evidence {
  const { count, index } = finding;
  const beyond = index === table.classes.length;
  const above = index === 0 ? 0 : (limitAt(table, index - 1, column) as number);
  const upTo = beyond ? null : limitAt(table, index, column);
  if (beyond) return { column: label, count, above, upTo, end: 'beyond' };
  return index === 0
    ? { column: label, count, above, upTo, end: 'first_class' }
    : { column: label, count, above, upTo };
}

/** Whether an unfilled column is missed: where the class is the worst of all, only if it could be worse than the worst found. */
function isMissed(table: ClassTable, worstIndex: number, column: number, finding: Finding | Unfilled | null): boolean {
  if (finding === null || !('atMost' in finding)) return false;
  if (notationOf(table) !== 'single') return true;
  const limit = worstIndex === table.classes.length ? null : limitAt(table, worstIndex, column);
  return limit !== null && finding.atMost > limit;
}

function isCountable(table: ClassTable, column: number): boolean {
  return Object.keys((table.columns[column] as ClassTable['columns'][number]).from).length > 0;
}

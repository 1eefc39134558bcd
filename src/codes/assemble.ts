/**
 * From decided columns to a whole classification: parts, evidence, worst class, text. Shared by counts in doubles and in decimal strings.
 */
import { motescaleError } from '../errors.ts';
import { className, limitAt } from './classIndex.ts';
import { formatParts, notationOf } from './formatCode.ts';
import type { Classification, ClassTable, CodePart, Evidence } from './types.ts';

/** What was found in one column: its count in the table's volume, its class, and how many particles were counted, if known. */
export interface Finding {
  readonly count: number;
  readonly index: number;
  readonly counted?: number;
}

/** One finding for each column, null where the counts lack a size. */
export function assemble(table: ClassTable, findings: readonly (Finding | null)[]): Classification {
  const parts: CodePart[] = [];
  const evidence: Evidence[] = [];
  let worstIndex = -1;
  findings.forEach((finding, column) => {
    const { label } = table.columns[column] as ClassTable['columns'][number];
    parts.push(partOf(table, label, finding));
    if (finding === null) return;
    evidence.push(evidenceOf(table, column, label, finding));
    worstIndex = Math.max(worstIndex, finding.index);
  });
  if (worstIndex < 0) {
    throw motescaleError('missing_size', 'counts.sizes', null, `the sizes of at least one column of ${table.title}`);
  }
  const worst = className(table, worstIndex);
  const missing = table.columns
    .filter((_column, i) => findings[i] === null && hasSay(table, worstIndex, i))
    .map((column) => column.label);
  const single = notationOf(table) === 'single';
  const open = single && missing.some((label) => isCountable(table, label));
  return {
    table: table.id,
    parts,
    text: single ? `${worst}${open ? ' or dirtier' : ''}` : formatParts(table, parts),
    evidence,
    worst,
    worstColumns: parts.filter((part) => part.class === worst).map((part) => part.column),
    missing,
  };
}

function partOf(table: ClassTable, column: string, finding: Finding | null): CodePart {
  if (finding === null) return { column, class: null, mark: 'not counted' };
  const named = className(table, finding.index);
  if (finding.index === table.classes.length) return { column, class: named, mark: 'beyond' };
  const few = table.fewCounted !== undefined && finding.counted !== undefined && finding.counted < table.fewCounted;
  return few ? { column, class: named, mark: 'few counted' } : { column, class: named };
}

function evidenceOf(table: ClassTable, column: number, label: string, finding: Finding): Evidence {
  const { count, index } = finding;
  const beyond = index === table.classes.length;
  const base = {
    column: label,
    count,
    above: index === 0 ? 0 : (limitAt(table, index - 1, column) as number),
    upTo: beyond ? null : limitAt(table, index, column),
  };
  return beyond ? { ...base, end: 'beyond' } : index === 0 ? { ...base, end: 'first class' } : base;
}

/** Whether a column could still make the class worse: it sets a limit at the worst class found. */
function hasSay(table: ClassTable, worstIndex: number, column: number): boolean {
  return (
    notationOf(table) !== 'single' || worstIndex === table.classes.length || limitAt(table, worstIndex, column) !== null
  );
}

function isCountable(table: ClassTable, label: string): boolean {
  return table.columns.some((column) => column.label === label && Object.keys(column.from).length > 0);
}

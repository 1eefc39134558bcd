/**
 * A target or a setpoint on a code read once: which class each column asks for, so that a code is held against it without reading it again.
 */
import { limitAt } from '../codes/classIndex.ts';
import { partIndex } from '../codes/code.ts';
import type { ClassTable, Code, CodePart, TargetOutcome } from '../codes/index.ts';
import { requireTarget } from '../codes/meets.ts';

/** By column the place of the class asked for; null where nothing is asked. */
export type Wanted = readonly (number | null)[];

/** A table to write codes in, with its target read. */
export interface CodePlan {
  readonly table: ClassTable;
  /** Labels of the columns judged; null: all. */
  readonly columns: readonly string[] | null;
  readonly target: string | null;
  readonly wanted: Wanted | null;
}

/** The plan of a table and a target that have been checked. */
export function codePlan(table: ClassTable, target: string, columns: readonly string[] | null): CodePlan {
  return { table, columns, target, wanted: wantedOf(table, target, columns) };
}

/** Reads a code that has been checked to ask for something. */
export function wantedOf(table: ClassTable, text: string, columns: readonly string[] | null): Wanted {
  return requireTarget(table, text).map((part, i) => {
    if (part.class === null || (columns !== null && columns.indexOf(part.column) < 0)) return null;
    const asked = partIndex(table, part, 'target');
    return asked < table.classes.length && limitAt(table, asked, i) === null ? null : asked;
  });
}

/** The same answer as `meets` gives. */
export function outcomeOf(table: ClassTable, wanted: Wanted, code: Code): TargetOutcome {
  const margins: { column: string; classes: number }[] = [];
  const missing: string[] = [];
  const uncertain: string[] = [];
  let met = true;
  for (let i = 0; i < wanted.length; i += 1) {
    const asked = wanted[i] as number | null;
    if (asked === null) continue;
    const part = code.parts[i] as CodePart;
    const { column, mark } = part;
    if (part.class === null && mark !== 'too_many') {
      missing.push(column);
      met = false;
      continue;
    }
    const found = mark === 'too_many' || mark === 'beyond' ? table.classes.length : placeOf(table, part);
    if (asked < found) met = false;
    margins.push({ column, classes: asked - found });
    if (mark === 'few_counted') uncertain.push(column);
  }
  return { met: met && margins.length > 0, margins, missing, uncertain };
}

function placeOf(table: ClassTable, part: CodePart): number {
  const place = table.classes.indexOf(part.class as string);
  return place >= 0 ? place : partIndex(table, part, 'actual');
}

/** By how many classes the worst size is dirtier than asked, negative where all are cleaner; null where one not known could be. */
export function classesBeyond(outcome: TargetOutcome): number | null {
  const { margins, missing } = outcome;
  let worst: number | null = null;
  for (let i = 0; i < margins.length; i += 1) {
    const dirtier = 0 - (margins[i] as { readonly classes: number }).classes;
    if (worst === null || dirtier > worst) worst = dirtier;
  }
  return missing.length > 0 && (worst === null || worst <= 0) ? null : worst;
}

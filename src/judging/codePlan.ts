/**
 * A target or a setpoint on a code read once: which class each column asks for, so that a code is held against it
 * without reading it again.
 */
import { placeOf } from '../codes/classIndex.ts';
import type { ClassTable, Code, MeasurementErrors, TargetOutcome } from '../codes/index.ts';
import type { Wanted } from '../codes/targetOutcome.ts';

/** A table to write codes in, with its target read. */
export interface CodePlan {
  readonly table: ClassTable;
  /** Labels of the columns judged; null: all. */
  readonly columns: readonly string[] | null;
  readonly target: string | null;
  readonly wanted: Wanted | null;
  /** Where the verdict is to say with what probability the target is met. */
  readonly errors?: MeasurementErrors;
}

/**
 * By how many classes the worst size is dirtier than asked, negative where all are cleaner; null where one not known
 * could be. `margins`: with those, at least, of the sizes that were not counted.
 */
export function classesBeyond({ met, missing }: TargetOutcome, margins: TargetOutcome['margins']): number | null {
  let worst: number | null = null;
  for (let i = 0; i < margins.length; i += 1) {
    const dirtier = 0 - (margins[i] as { readonly classes: number }).classes;
    if (worst === null || dirtier > worst) worst = dirtier;
  }
  return met === null && missing.length > 0 && (worst === null || worst <= 0) ? null : worst;
}

/**
 * The same, as it has to be taken before oil is called clean again: a size of few particles may be one class dirtier,
 * which is why `meets` calls just the class asked for not shown.
 */
export function mostBeyond(table: ClassTable, wanted: Wanted, { parts }: Code, beyond: number): number {
  let most = beyond;
  for (let i = 0; i < wanted.length; i += 1) {
    const asked = wanted[i] as number | null;
    const { class: found, mark } = parts[i] as Code['parts'][number];
    if (asked !== null && mark === 'few_counted') most = Math.max(most, placeOf(table, found) - asked + 1);
  }
  return most;
}

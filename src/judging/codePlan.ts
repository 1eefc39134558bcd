/**
 * A target or a setpoint on a code read once: which class each column asks for, so that a code is held against it
 * without reading it again.
 */
import type { ClassTable, MeasurementErrors, TargetOutcome } from '../codes/index.ts';
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

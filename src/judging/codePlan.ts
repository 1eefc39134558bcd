/**
 * A target or a setpoint on a code read once: which class each column asks for, so that a code is held against it
 * without reading it again.
 */
import { placeOf } from '../codes/classIndex.ts';
import { leastClass } from '../codes/fewCounted.ts';
import type { ClassTable, Code, MeasurementErrors, TargetOutcome } from '../codes/index.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import type { CumulativeCounts } from '../counts/types.ts';

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

/**
 * The same, as it has to be taken before oil is called dirty: of a size of few particles no more than the lower limit
 * of their number shows.
 */
export function leastBeyond(
  table: ClassTable,
  wanted: Wanted,
  { parts }: Code,
  counts: CumulativeCounts | undefined,
  beyond: number,
): number {
  if (beyond <= 0 || counts === undefined) return beyond;
  let least = 0;
  for (let i = 0; i < wanted.length; i += 1) {
    const asked = wanted[i] as number | null;
    const { class: found, mark } = parts[i] as Code['parts'][number];
    // what is not known here is judged as it stands
    const shown = mark === 'few_counted' ? leastClass(table, i, counts) : null;
    if (asked !== null) least = Math.max(least, (shown ?? placeOf(table, found)) - asked);
  }
  return least;
}

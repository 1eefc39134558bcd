/**
 * A target or a setpoint on a code read once: which class each column asks for, so that a code is held against it
 * without reading it again.
 */
import { placeOf } from '../codes/classIndex.ts';
import { leastClass } from '../codes/fewCounted.ts';
import type { ClassTable, Code, MeasurementErrors, TargetOutcome } from '../codes/index.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import type { Quality } from '../reading/reading.ts';
import type { QualifiedFigure } from './types.ts';

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
 * It as the figure of an alarm: before oil is called clean again (`upTo`) a size of few particles may be one class
 * dirtier, which is why `meets` calls just the class asked for not shown; before it is called dirty (`downTo`) it is no
 * more than the lower limit of their number shows.
 */
export function figureBeyond(
  table: ClassTable,
  wanted: Wanted,
  { parts }: Code,
  counts: CumulativeCounts | undefined,
  value: number,
  quality: Quality,
): QualifiedFigure {
  const isDirty = value > 0 && counts !== undefined;
  let upTo = value;
  let least = 0;
  for (let i = 0; i < wanted.length; i += 1) {
    const asked = wanted[i] as number | null;
    const { class: found, mark } = parts[i] as Code['parts'][number];
    const isFew = mark === 'few_counted';
    if (asked === null || !(isFew || isDirty)) continue;
    const place = placeOf(table, found);
    if (isFew) upTo = Math.max(upTo, place - asked + 1);
    // what is not known here is judged as it stands
    const shown = isFew && isDirty ? leastClass(table, i, counts) : null;
    least = Math.max(least, (shown ?? place) - asked);
  }
  return { value, upTo, downTo: isDirty ? least : value, quality };
}

/** A target read once, and a code held against it: the one place that decides whether a target is met. */
import type { CumulativeCounts } from '../counts/types.ts';
import { limitAt, placeOf } from './classIndex.ts';
import { columnFinding } from './columnCount.ts';
import { exactly, isCounted, isTogether } from './comparison/claims.ts';
import { isUncertain } from './fewCounted.ts';
import type { ClassTable, CodePart } from './types.ts';
import { isAlike, notationOf, worstOf } from './written/formatParts.ts';

/** The outcome of comparing with a target. */
export interface TargetOutcome {
  /**
   * True: every size the target asks for keeps it as counted. False: one does not. Null: neither is shown, since a size
   * is not known, or has a dirtier class with others together (`6B-F`) that one of these may have decided, or is just
   * the class asked for and marked as of few particles (`>=13` against 13). Fibres and mass, which no particle counter
   * tells, decide nothing where they are missing.
   */
  readonly met: boolean | null;
  /** How many classes cleaner than asked, of the sizes counted; negative: dirtier. */
  readonly margins: readonly { readonly column: string; readonly classes: number }[];
  /** Columns the target asks for of which nothing is known that would show whether they keep it. */
  readonly missing: readonly string[];
  /**
   * Columns kept as counted, perhaps not in truth: those of fewer than 20 particles whose upper limit (`codeInterval`)
   * is beyond the class asked for, also where the column was not counted and is kept by those of the next smaller size.
   * Where that limit is not known, as of a code alone, those of a class marked `>=`; and these always where it is just
   * the class asked for, or one beyond it. The others are not certain: from 20 particles on nothing is listed, and of a
   * count on the limit the verdict is a coin (`targetProbability` says how likely). Of counts per mL without a volume
   * nothing is listed either, however few they were.
   */
  readonly uncertain: readonly string[];
}

/** By column the place of the class asked for; null where nothing is asked. */
export type Wanted = readonly (number | null)[];

/** Reads the parts of a target that has been checked to ask for something. */
export function wantedOf(table: ClassTable, target: readonly CodePart[], columns: readonly string[] | null): Wanted {
  return target.map((part, i) => {
    if (part.class === null || (columns !== null && columns.indexOf(part.column) < 0)) return null;
    const asked = placeOf(table, part.class);
    return asked < table.classes.length && limitAt(table, asked, i) === null ? null : asked;
  });
}

/** The parts of a code in which no size was counted. */
export function nothingCounted({ columns }: ClassTable): CodePart[] {
  return columns.map(({ label }) => ({ column: label, class: null, mark: 'not_counted' }));
}

/** By how many classes each column keeps its target. */
export type Margins = TargetOutcome['margins'][number][];

/**
 * How the parts of a code of the same table stand to it; `counts`: those the code was made of. `least` gets the margins
 * of all columns that are shown, in the table's order: at least those of the columns not counted.
 */
export function outcomeOf(
  table: ClassTable,
  wanted: Wanted,
  found: readonly CodePart[],
  counts?: CumulativeCounts,
  least: Margins = [],
): TargetOutcome {
  const margins: Margins = [];
  const missing: string[] = [];
  const uncertain: string[] = [];
  let failed = false;
  let open = false;
  for (let i = 0; i < wanted.length; i += 1) {
    const asked = wanted[i] as number | null;
    if (asked === null) continue;
    const part = found[i] as CodePart;
    const { column, mark } = part;
    // too many to count is as one class past the last, and so is beyond the last
    const classes = asked - placeOf(table, part.class);
    // a class "or dirtier" is shown to fail, and never shown to keep
    const isOpen = (part.class === null && mark !== 'too_many') || (mark === 'or_dirtier' && classes >= 0);
    const shownBy = isOpen ? leastMargin(table, i, asked, found, counts) : classes;
    if (shownBy < 0 && (isOpen || mayBeOther(table, wanted, found, i))) {
      missing.push(column);
      // an alarm and a proof take a class for several sizes as it stands
      if (!isOpen) least.push({ column, classes: shownBy });
      // fibres and mass are no counter's, and leave no target open
      if (isCounted(table, i)) open = true;
      continue;
    }
    const margin = { column, classes: shownBy };
    least.push(margin);
    if (isUncertain(table, i, asked, shownBy, mark, counts)) uncertain.push(column);
    if (isOpen) continue;
    margins.push(margin);
    if (classes < 0) failed = true;
    if (mark === 'few_counted' && classes === 0) open = true;
  }
  if (least.length === 0) open = true;
  return { met: failed ? false : open ? null : true, margins, missing, uncertain };
}

/**
 * Whether another of the columns that have a class together may have decided it, and keep the target all the same.
 * Fibres and mass leave no target open.
 */
function mayBeOther(table: ClassTable, wanted: Wanted, found: readonly CodePart[], column: number): boolean {
  const part = found[column] as CodePart;
  if (!isTogether(part)) return false;
  const index = placeOf(table, part.class);
  for (const step of [-1, 1])
    for (let i = column + step; isAlike(part, found[i]); i += step)
      if ((wanted[i] ?? index) >= index && isCounted(table, i) && exactly(table, index, i) !== null) return true;
  return false;
}

/**
 * By how many classes at least a column that was not counted keeps the one asked for; -1 where that is not shown. There
 * are no more particles in it than of the next smaller size counted. In a code of several numbers a size that was not
 * counted is not known all the same, unless there are none.
 */
function leastMargin(
  table: ClassTable,
  column: number,
  asked: number,
  found: readonly CodePart[],
  counts: CumulativeCounts | undefined,
): number {
  if (counts === undefined) {
    const { mark } = found[column] as CodePart;
    return mark === 'no_dirtier' ? Math.max(-1, asked - Math.max(0, worstOf(table, found))) : -1;
  }
  const { count, counted } = columnFinding(table, column, counts);
  if (count > 0 && notationOf(table) !== 'single') return -1;
  const keeps = (index: number) => {
    const limit = limitAt(table, index, column);
    return count === 0 || (limit !== null && count <= limit);
  };
  // of few particles, the class they stand in may be passed
  const few = counted !== undefined && counted < (table.fewCounted as number) ? 1 : 0;
  let least = -1;
  for (let index = asked - few; index >= 0 && keeps(index); index -= 1) least += 1;
  return least;
}

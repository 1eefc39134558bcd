/** What a check is, and what the simplest of them ask: one figure against one limit. */
import type { ClassColumn, ClassTable, CodePart } from '../../codes/types.ts';
import type { Sizing } from '../../counts/types.ts';
import type { Finding, FindingCode, Reading } from '../reading.ts';
import type { ReadingLimits } from '../readingLimits.ts';
import type { Repeats } from '../remembered/repeats.ts';

/** A table that codes are given in; a plan of a monitor is one. */
export interface HasTable {
  readonly table: ClassTable;
}

/** A size in µm, in whatever sizing the counts are; or the sizes of a column of a table. */
export type Needed = number | ClassColumn;

/** At one size, per mL of it and larger; null where the code says nothing. */
export interface Band {
  readonly size: number;
  readonly mark: CodePart['mark'];
  readonly moreThan: number | null;
  readonly upTo: number | null;
}

/** A code as it came, with its bands. */
export interface BandedCode {
  readonly sizing: Sizing;
  readonly received: string;
  readonly bands: readonly Band[];
}

/** All a check may look at. */
export interface Context {
  readonly reading: Reading;
  readonly limits: ReadingLimits;
  /** What is known of the readings before, this one taken in; null of a reading that came out of order. */
  readonly repeats: Repeats | null;
  /** Whose codes are compared with the counts, beside ISO 4406. */
  readonly tables: readonly HasTable[];
  /** The sizes that someone waits for. */
  readonly needed: readonly Needed[];
  /** The codes as several checks look at them, read once. */
  readonly banded?: readonly BandedCode[];
}

/**
 * What a check found; the limits say what quality that means, and the kind of finding what it touches, where it does
 * not itself.
 */
export type Found = Omit<Finding, 'affects' | 'quality'> & Partial<Pick<Finding, 'affects' | 'quality'>>;

/** A check: the findings it can make, and how. Null where the reading or the limits do not allow it. */
export interface Check {
  readonly codes: readonly FindingCode[];
  readonly find: (context: Context) => readonly Found[] | null;
}

export const nothing: readonly Found[] = [];

/** A finding where the figure lies above the limit; null where there is no figure or no limit. */
export function above(code: FindingCode, value: number | undefined, limit: number | null): readonly Found[] | null {
  if (value === undefined || limit === null) return null;
  return value > limit ? [{ code, value, limit }] : nothing;
}

/** A finding where it lies below. */
export function below(code: FindingCode, value: number | undefined, limit: number | null): readonly Found[] | null {
  if (value === undefined || limit === null) return null;
  return value < limit ? [{ code, value, limit }] : nothing;
}

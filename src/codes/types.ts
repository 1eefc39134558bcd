/** What a standard, a code and a classification are: plain data, so that a new standard is one new file of data. */
import type { Sizing } from '../counts/types.ts';
import type { Source } from '../source.ts';

/**
 * How a result is written.
 *
 * - `scale_numbers`: one for each size, `18/16/13`.
 * - `scale_numbers_after_dash`: the same with the first place empty, `-/16/13`, as ISO 4406 writes microscope counts.
 * - `lettered`: a class and a size letter for each size, `7B/6C/5D`; `6B-F` for the worst over a span of sizes.
 * - `single`: the worst class over all columns, `6`.
 */
export type Notation = 'scale_numbers' | 'scale_numbers_after_dash' | 'lettered' | 'single';

/** A size (cumulative) or a range of sizes (differential) that a standard judges. */
export interface ClassColumn {
  readonly label: string;
  /** The size, in µm, for each sizing the standard knows. Empty for what no particle counter counts: fibres, mass. */
  readonly from: Readonly<Partial<Record<Sizing, number>>>;
  /** The upper end of the range; left out in cumulative tables and in an open last range. */
  readonly to?: Readonly<Partial<Record<Sizing, number>>>;
}

/** A standard as data. */
export interface ClassTable {
  readonly id: string;
  /**
   * What a report calls its results, such as `ISO 4406`; the id where left out. Several tables of one standard may
   * share it.
   */
  readonly standard?: string;
  /** What an error calls the table. */
  readonly title: string;
  readonly source: Source;
  /** Particles of a size and larger, or particles between two sizes. */
  readonly counting: 'cumulative' | 'differential';
  /** The volume the limits are related to. */
  readonly perVolumeMl: 1 | 100;
  /** How a result is written; `single` where left out. */
  readonly notation?: Notation;
  /** Fewer particles counted than this are marked `>=`; only in ISO 4406, where it is 20. */
  readonly fewCounted?: number;
  readonly columns: readonly ClassColumn[];
  /** From clean to dirty. */
  readonly classes: readonly string[];
  /** limits[class][column], up to and including; null: the standard sets no limit there. */
  readonly limits: readonly (readonly (number | null)[])[];
  /** What is printed in a cell that holds no plain number, by class and column. */
  readonly wording?: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** Where counts of other sizings are coded; said when they are refused here. */
  readonly elsewhere?: string;
  /** What a reader should know before relying on the table. */
  readonly notes?: readonly string[];
}

/** A table before it is checked: `source` may be left out. */
export type OwnTable = Omit<ClassTable, 'source'> & Partial<Pick<ClassTable, 'source'>>;

/**
 * What a part says beyond its class.
 *
 * - `few_counted`: fewer than 20 particles counted, written `>=`; the true class may be higher.
 * - `too_many`: too many to count, written `*`.
 * - `not_counted`: nothing asked or counted at this size, written `-`.
 * - `beyond`: above the last class, written `>28`.
 * - `or_dirtier`: a size of a class over several that was not counted and could make it worse, or, in a code read from
 *   text, every size of such a class; the code is then written `8 or dirtier`.
 * - `no_dirtier`: a size of a class over several that was not counted and cannot make it worse: the class sets no limit
 *   there, or one that all particles of the next smaller size would keep.
 * - `at_most`: this class or cleaner, as a class for several sizes together says of each (`6B-F`, `6`). Beyond the last
 *   class (`>12`) it says that one of the sizes is beyond, and not which.
 */
export type CodeMark = 'few_counted' | 'too_many' | 'not_counted' | 'beyond' | 'at_most' | 'or_dirtier' | 'no_dirtier';

/** What a code says of one column. */
export interface CodePart {
  readonly column: string;
  readonly class: string | null;
  readonly mark?: CodeMark;
}

/** A code or class as written or read: one part for each column of its table. */
export interface Code {
  readonly table: string;
  readonly parts: readonly CodePart[];
  /** As written in the table's notation; `8 or dirtier` where a column not counted could make the class worse. */
  readonly text: string;
}

/** What decided one column. */
export interface Evidence {
  readonly column: string;
  /** The count, in the table's own volume. */
  readonly count: number;
  /** The limit of the next cleaner class, exceeded; 0 in the first class. */
  readonly above: number;
  /** The limit of this class, kept; null beyond the last class and where the class sets no limit. */
  readonly upTo: number | null;
  /** `first_class`: the table cannot tell how much cleaner the oil is. `beyond`: nor, here, how much dirtier. */
  readonly end?: 'first_class' | 'beyond';
}

/** A code with what decided it. */
export interface Classification extends Code {
  readonly evidence: readonly Evidence[];
  /** The dirtiest class over the columns filled: `>12` beyond the last class. */
  readonly worst: string;
  readonly worstColumns: readonly string[];
  /**
   * Columns asked for that the counts cannot fill; where the class is the worst of all, only those that could make it
   * worse.
   */
  readonly missing: readonly string[];
}

/** Counts per mL that a code allows, column by column. */
export interface CountBands {
  readonly sizing: Sizing;
  readonly bands: readonly CountBand[];
}

/**
 * More than `above` (where it is 0: or none), up to and including `upTo` (null: no bound) particles per mL from a size
 * up to another (null: and larger).
 */
export interface CountBand {
  readonly from: number;
  readonly to: number | null;
  readonly above: number;
  readonly upTo: number | null;
}

/** The lowest and the highest class, over all and for each column. */
export interface ClassSpan {
  readonly lowest: string;
  readonly highest: string;
  readonly columns: readonly { readonly column: string; readonly lowest: string; readonly highest: string }[];
  /** Columns of which the data say nothing at all. */
  readonly unseen: readonly string[];
}

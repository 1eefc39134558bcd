/** What goes into a roll-up and what comes out: plain data, so that parts can be kept and sent. */
import type { Quality } from '../reading/reading.ts';

/** What roll-ups need of a reading. */
export interface RollUpReading {
  /** Whole ms since 1970-01-01T00:00:00Z. */
  readonly time: number;
  /** The figure to roll up: counts per mL at a size, a continuous scale number, °C; null where there is none. */
  readonly value: number | null;
  /** `good` where left out. The figure of a `bad` reading is left aside; only its time is kept. */
  readonly quality?: Quality | undefined;
  /**
   * The scale numbers of the reading's code, column by column, 0 to 28, and 29 for `>28`; or what is known of them.
   * They count also where the reading has no figure; those of a `bad` one are left aside.
   */
  readonly scaleNumbers?: readonly KnownScaleNumber[] | undefined;
  /**
   * The particles counted, size by size, and their volume, mL: both or none. Those of a `bad` reading are left aside,
   * and of any reading those that rise with size (the finding `counts_rise_with_size`): a channel was wrong.
   */
  readonly counted?: readonly number[] | undefined;
  readonly volumeMl?: number | undefined;
}

/**
 * A scale number, the least or the most it can be (`>=13`, `<9`), or null where the size was not seen (`-`). Of `*`
 * (too many to count) give the least that it can be, by the most that the counter can count: null is in no `worst`.
 */
export type KnownScaleNumber = number | { readonly atLeast: number } | { readonly atMost: number } | null;

/** How to roll up; parts can only be merged that were rolled up alike. */
export type RollUpOptions = RollUpByWidth | RollUpByEdges;

/** What may be asked for beside the figures of every bucket. */
interface RollUpExtras {
  /** Whether buckets keep `levels`, for `bucketQuantile`; not where left out. */
  readonly levels?: boolean | undefined;
}

/** Buckets of one width. */
export interface RollUpByWidth extends RollUpExtras {
  /** Width of a bucket, whole ms; see `rollUpWidth`. */
  readonly widthMs: number;
  /**
   * How long a reading stands at most, whole ms: two or three times the usual distance of readings (common practice).
   */
  readonly holdMs: number;
  /** Where a bucket begins, whole ms; 0 where left out, so that days begin at midnight UTC. */
  readonly originMs?: number | undefined;
}

/**
 * Buckets between edges: local days, which have 23 or 25 hours where clocks are put forward and back, and calendar
 * months.
 */
export interface RollUpByEdges extends RollUpExtras {
  /** Where buckets begin, and where the last one ends, whole ms, ascending: 2 to 100,001. Every reading lies within. */
  readonly edges: readonly number[];
  /** As above. */
  readonly holdMs: number;
}

/** A stretch of time without a reading that could stand for it. */
export interface Gap {
  readonly from: number;
  readonly to: number;
}

/** One bucket: from `start` up to, not including, `start + widthMs`. Times are ms. */
export interface RollUpBucket {
  readonly start: number;
  readonly widthMs: number;
  /** How long a reading stood at most; a bucket of version 0.1 does not say. */
  readonly holdMs?: number;
  /** Readings taken in it, of whatever quality, and how many of them were good. */
  readonly count: number;
  readonly good: number;
  /** `good` over `count`; null without a reading. */
  readonly goodShare: number | null;
  /** Of all figures that stood in it, also one carried in from before; null where none did. */
  readonly min: number | null;
  readonly max: number | null;
  /** Weighted by the time each figure stood; null where none stood for any time. */
  readonly mean: number | null;
  /**
   * How long a figure stood; how long only a bad reading or one without a figure did; how long nothing did between two
   * readings. What these three lack to `widthMs` is open: before the first reading of all and after the last one
   * nothing is known yet, so that `gapMs` is no measure of a bucket that readings do not enclose.
   */
  readonly valuedMs: number;
  readonly badMs: number;
  readonly gapMs: number;
  /** The gaps that begin in it, each with its whole length. */
  readonly gaps: readonly Gap[];
  /**
   * Column by column, how long each scale number stood, ascending; `bound` where it was only known to be at least or
   * at most that.
   */
  readonly spent: readonly (readonly {
    readonly scaleNumber: number;
    readonly ms: number;
    readonly bound?: 'at_least' | 'at_most';
  }[])[];
  /** Column by column, how long a code stood that did not show it; left out where all codes showed all. */
  readonly unseenMs?: readonly number[];
  /**
   * Column by column, the highest scale number or bound that stood, null where none was seen; the columns may come
   * from different readings.
   */
  readonly worst: readonly (number | null)[];
  /**
   * How long the figure stood at each level, ascending, with the option `levels`: each doubling has 64, and `level` is
   * the end nearer to 0. A figure that stays within a factor of 2 has 64 at most, over six decades it has 1,300.
   */
  readonly levels?: readonly { readonly level: number; readonly ms: number }[];
  /** The sum of figure times ms, exact: doubles that add up to it, smallest first. */
  readonly weighted: readonly number[];
  /**
   * All particles its readings counted, size by size, and their volume, mL, but for those left aside; left out where
   * none did: `bucketCounts`.
   */
  readonly counted?: readonly number[];
  readonly volumeMl?: number;
  /** The volume again, exact: doubles that add up to it, smallest first. */
  readonly volumes?: readonly number[];
  /** The time of the first reading and the whole last one, from which the next part goes on; null without a reading. */
  readonly firstTime: number | null;
  readonly last: RollUpReading | null;
}

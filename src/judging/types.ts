/**
 * What a monitor and an acceptance have in common: the figure looked at, the table judged by, and how a code stands to
 * its target.
 */
import type { Classification, Code, TargetOutcome } from '../codes/index.ts';
import type { Quality } from '../reading/reading.ts';

/**
 * A figure of a reading. Counts are taken at sizes that were counted, in the sizing of the reading, and not
 * interpolated: elsewhere `judged` is false.
 */
export type MonitorFigure =
  | { readonly quantity: 'mlPerMin' | 'kPa' | 'celsius' | 'mm2PerS' | 'waterSaturation' }
  /** A figure of `others`. */
  | { readonly other: string }
  /**
   * The relative saturation with water, a share, that the oil of the reading would have at this temperature in °C, -50
   * to 150, with all its water: `saturationAfterCooling` by `limits.solubility`, from its `waterSaturation` and
   * `celsius`, and of the worse quality of the two. Above 1 water would be free. From `limits.freeWaterSaturation` on,
   * or 1, the sensor sees no more than that the oil is full: the figure is then a least, which raises a high alarm,
   * clears none, and is not followed. Beyond the points of the line an extrapolation.
   */
  | { readonly waterSaturationAt: number }
  | { readonly perMlAt: number }
  /**
   * The scale number of ISO 4406 at a size in µm, whole or on the continuous scale. `*`, too many to count, is beyond
   * every whole one for an alarm, and no figure of a trend. A reading without particles counts as -1 on the continuous
   * scale: followed, it is right from eight particles a reading on, and two to three too low where one is to be
   * expected (docs/monitor.md). An alarm of type `rise` or `fall` takes particles too few to show a change of its
   * setpoint for so many as can: 28 where that is 2, 150 where it is 1 (docs/monitor.md).
   */
  | { readonly scaleNumberAt: number }
  | { readonly continuousScaleNumberAt: number };

/** A code in one table, and how it stands to the target. */
export interface CodeVerdict {
  readonly table: string;
  /** What a report calls the code; the table's id where the table names no standard. */
  readonly standard: string;
  /** Null where there is no code; `reason` then says why. */
  readonly text: string | null;
  /** The code judged, and whence it came: worked out from the counts, or given by the instrument without counts. */
  readonly code: Code | null;
  readonly from: 'counts' | 'code' | null;
  /** With what decided it; null where the code was given, or there is none. */
  readonly classification: Classification | null;
  readonly reason?: string;
  readonly target?: string;
  /** Margins by size, and what is missing; null without a target or a code. */
  readonly outcome: TargetOutcome | null;
  /**
   * The probability that the target is met in truth, where the configuration gives `errors`; null without raw counts
   * and their volume, or where a size the target asks for was not counted.
   */
  readonly probability?: number | null;
}

/** A figure of a reading, and how far it can be relied on. */
export interface QualifiedFigure {
  readonly value: number;
  readonly quality: Quality;
  /**
   * Where it may be more than `value`, what it has to be taken for before an alarm returns: one class more of fewer
   * than 20 particles (`>=13`), anything of too many to count (`*`).
   */
  readonly upTo?: number;
  /** Where fewer than 20 particles show no more than this: it is what raises an alarm of type `high`. */
  readonly downTo?: number;
}

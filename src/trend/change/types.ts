/** What the change detector is told, what it remembers, and what it says. */

/** What is known beforehand. All in the unit of the values; where a member is left out, what is said there holds. */
export interface ChangeOptions {
  /** The smallest step worth telling: 0.5, half a scale number. A slow rise is told from half of it. */
  readonly least?: number | undefined;
  /** The half-swing over the year that is no change: 0.6 x `least`. */
  readonly season?: number | undefined;
  /**
   * The step in which values come: 1 where all values are whole numbers, as whole codes are, 0.5 where all are halves;
   * otherwise 0. Means of a few whole codes need it said: 1 (`advanceChange`).
   */
  readonly resolution?: number | undefined;
}

/** Checked options, filled up. */
export interface PreparedChange {
  readonly least: number;
  readonly season: number;
  /** Null: by what comes. */
  readonly resolution: number | null;
}

/** Everything remembered: plain data of bounded size. */
export interface ChangeState {
  /** The last day with a value; null before the first. */
  readonly last: number | null;
  /** The days up to the last one, null where there was no value. */
  readonly ring: readonly (number | null)[];
  /** The day from which the present level holds, as far as known. */
  readonly since: number | null;
  /**
   * Whether the level before a change is known, so that nothing need be learned before a further change can be told.
   */
  readonly settled: boolean;
  /** The level learned, for drift; null until it is learned. */
  readonly level: number | null;
  /** The scatter of steps that are none: how many days it was learned from, and its mean square. */
  readonly steps: { readonly count: number; readonly square: number };
}

/** One day: its value, or that the level is to be learned anew because work was done. */
export type ChangeInput =
  | { readonly day: number; readonly value: number }
  | { readonly day: number; readonly relearn: true };

/** A change found. */
export interface Change {
  /** `step`: from one day to the next. `slow`: over weeks. `drift`: away from the level learned. */
  readonly kind: 'step' | 'slow' | 'drift';
  readonly direction: 'up' | 'down';
  /**
   * Of a `step` its first day with a value; of `slow` and `drift` null: the level has crept, and when that began cannot
   * be told. How near it is, simulated: right to the day for 95 to 100 % of the steps told as one (scatter 0.15, memory
   * 1 to 7 days), for 93 to 97 % where 30 % of the days are missing, for 80 to 99 % on a scatter of 0.3. A rise of 0.2
   * a month is told as a drift 165 days after it began, one of 1 a month as slow after 27 (medians); one of 4 a month
   * passes for a step in three of four, with a day 2 to 8 days late.
   */
  readonly since: number | null;
  /** The usual level before; of a `drift` the level learned. */
  readonly before: number;
  /** Of a `step` the mean of its first two values, of `slow` that of the last 14 days, of `drift` of the last 28. */
  readonly after: number;
  /** From how large a difference this would have been told. */
  readonly limit: number;
}

/** What a day gave. */
export interface ChangeStep {
  readonly state: ChangeState;
  readonly change: Change | null;
  /** `learning`: too few days yet. `cannot_judge`: too many days without a value for anything to be told. */
  readonly standing: 'learning' | 'watching' | 'cannot_judge';
  /**
   * The smallest step that would be found by its third value, and the smallest rise in a month within three months, in
   * 19 of 20 cases; null while nothing can be, as of a step before there are two values after a gap of two weeks. Three
   * values are three days only where one comes every day: of Mondays, Wednesdays and Fridays it is found within three
   * days in 28 %, within a week in 90 %. Measured by the third value (docs/rates.md): 93 to 96 % where a value comes
   * every day, 90 to 95 % where up to four of seven are missing by a rule or a third by chance, 86 to 90 % where half
   * are missing by chance; of the rise 88 to 89 % there, else 93 to 100 %. Of days that are dirtier by turns (0.4) the
   * step is found in 86 %, of scatter that grew from 0.08 to 0.3 twenty days ago in 78 %.
   */
  readonly smallestStep: number | null;
  readonly smallestMonthlyRise: number | null;
}

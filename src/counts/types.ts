/** What a particle count is: how many particles of a size and larger per mL, and how the sizes were measured. */

/**
 * How a particle's size was measured. Sizes of different kinds are different quantities, even where the figures agree.
 *
 * - `iso11171`: µm(c), an automatic counter calibrated to ISO 11171.
 * - `iso11171b`: µm(b), the second designation that ISO 11171:2016 allowed; withdrawn in 2020.
 * - `iso4402`: an automatic counter calibrated with AC Fine Test Dust to ISO 4402:1991.
 * - `microscope`: longest dimension under a microscope, ISO 4407.
 */
export type Sizing = 'iso11171' | 'iso11171b' | 'iso4402' | 'microscope';

/** Particles of a size *and larger*, per mL. Sizes in µm, ascending; counts never rise with size. */
export interface CumulativeCounts {
  readonly sizing: Sizing;
  readonly sizes: readonly number[];
  readonly perMl: readonly number[];
  /** The particles actually counted, size by size, where that is known: it decides how far a count can be trusted. */
  readonly counted?: readonly number[];
  /** The volume counted, in mL, after dilution. */
  readonly volumeMl?: number;
  /** How many times the sample was diluted: 2 for one part oil in two parts of mixture. 1 where left out. */
  readonly dilution?: number;
}

/** Particles between two sizes, per mL; `to` is null in the last range, which has no upper end. */
export interface DifferentialCounts {
  readonly sizing: Sizing;
  readonly ranges: readonly {
    readonly from: number;
    readonly to: number | null;
    readonly perMl: number;
    /** The particles actually counted, where `volumeMl` stands. */
    readonly count?: number;
  }[];
  /** As of `CumulativeCounts`. */
  readonly volumeMl?: number;
  readonly dilution?: number;
}

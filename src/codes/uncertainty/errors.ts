/** What makes a count unsure beside the draw of its particles: the errors of volume, size calibration and more. */
import { requireObject, requireWithin } from '../../checks.ts';
import type { CumulativeCounts } from '../../counts/types.ts';

/**
 * Relative standard uncertainties (0.03: 3 %), all optional. One that is left out has its value of
 * `defaultMeasurementErrors`.
 */
export interface MeasurementErrors {
  /** Of the volume counted: a syringe, or flow times time. 0 to 0.5. */
  readonly volume?: number | undefined;
  /**
   * Of the flow through the sensor beside that of the volume, where the volume was reckoned from a flow meter. 0 to
   * 0.5.
   */
  readonly flow?: number | undefined;
  /** Of the sizes at which the counter's thresholds stand: repeatability and age of its calibration. 0 to 0.3. */
  readonly sizing?: number | undefined;
  /**
   * Of the sizes on the certificate of the calibration fluid, as standard uncertainty: half of the expanded one at k
   * = 2. 0 to 0.3.
   */
  readonly certificate?: number | undefined;
  /**
   * The largest share of particles missed by coincidence at this concentration (0.05: up to 5 %), at the smallest size
   * counted; at larger ones as many may be too many. 0 to 0.5.
   */
  readonly coincidence?: number | undefined;
  /**
   * Between one sample and the next of the same oil: bottle, fitting, shaking. From bottles filled anew:
   * `indexOfDispersion`, which says by how much to enlarge it. 0 to 1.
   */
  readonly sampling?: number | undefined;
  /** Of the dilution, from both volumes that were mixed; it moves diluted samples only. 0 to 0.5. */
  readonly dilution?: number | undefined;
  /** -d ln N / d ln size at every size, instead of that of the counts. 0 to 20. */
  readonly slope?: number | undefined;
}

/**
 * What stands for an error that is left out. Volume and size calibration are `common practice` for automatic counters
 * and not measured on yours: 3 % each. The others are 0, since only a certificate, a data sheet or repeats can tell
 * them; 0 then means "not taken into account". Of counts under a microscope `volume` and `sizing` have no usual value
 * and must be given: persons scatter by tens of per cent (from memory), which `sampling` holds.
 */
export const defaultMeasurementErrors: Readonly<Record<Exclude<keyof MeasurementErrors, 'slope'>, number>> = {
  volume: 0.03,
  flow: 0,
  sizing: 0.03,
  certificate: 0,
  coincidence: 0,
  sampling: 0,
  dilution: 0,
};

/** Where each error must end: beyond, "relative error" is no small figure any more. */
export const mostErrors: Readonly<Record<keyof MeasurementErrors, number>> = {
  volume: 0.5,
  flow: 0.5,
  sizing: 0.3,
  certificate: 0.3,
  coincidence: 0.5,
  sampling: 1,
  dilution: 0.5,
  slope: 20,
};

/** Whether the errors say what has no usual value: under a microscope a person sizes, and chooses the fields. */
export function tellErrors({ volume, sizing }: MeasurementErrors, counts: CumulativeCounts): boolean {
  return counts.sizing !== 'microscope' || (volume !== undefined && sizing !== undefined);
}

/** Names of all parts but the counting, in the order of a budget; that of a diluted sample alone is the last. */
export const errorParts = ['volume', 'flow', 'sizing', 'certificate', 'coincidence', 'sampling', 'dilution'] as const;
export type ErrorPart = (typeof errorParts)[number];

/** Whether a sample was diluted: then its dilution has an error. */
export function isDiluted({ dilution = 1 }: CumulativeCounts): boolean {
  return dilution > 1;
}

/** The parts that a sample has. */
export function partsOf(counts: CumulativeCounts): readonly ErrorPart[] {
  return isDiluted(counts) ? errorParts : errorParts.filter((part) => part !== 'dilution');
}

/** The errors as they came, each within its range. */
export function checkErrors(errors: MeasurementErrors, parameter = 'errors'): MeasurementErrors {
  requireObject(errors, parameter, undefined, Object.keys(mostErrors));
  for (const name of Object.keys(mostErrors) as (keyof MeasurementErrors)[]) {
    if (errors[name] !== undefined) requireWithin(errors[name], `${parameter}.${name}`, 0, mostErrors[name]);
  }
  return errors;
}

/** What can be told from a blank at all, before a sample is counted. */
import { requireMembers, requireObject } from '../../checks.ts';
import { requireMeasurableCount, requireVolume } from '../../counts/ranges.ts';
import type { CountInVolume } from '../../counts/statistics.ts';
import { normalQuantile } from '../../numeric/normal.ts';

/** Net particles (sample less blank) in the sample's volume. */
export interface DetectionLimits {
  /**
   * A sample like the blank passes it with nominally 5 %: truly 6 to 7.5 % from a blank of 30 particles on, 9 % at
   * 10, 16 % at 2.
   */
  readonly critical: number;
  /**
   * A true content of this is detected with nominally 95 %: truly 92 to 94 % from 30 particles on, or less (see below).
   */
  readonly detection: number;
  /** A true content of this is counted with a relative standard deviation of 10 %. */
  readonly quantification: number;
}

/** Of taking a sample like its blank for more, and of missing a content. */
export const risk = 0.05;
/** One over the relative standard deviation that makes a figure quantitative. */
const perDeviation = 10;

/**
 * Currie's limits for a sample judged against a blank: critical level, detection limit, limit of quantification, in
 * net particles of the sample's volume. Divide by that volume for a concentration.
 *
 * A blank counted in the sample's own volume gives the familiar 2.33 sqrt(B) and 2.71 + 4.65 sqrt(B); one counted in
 * a far larger volume 1.64 sqrt(B) and 2.71 + 3.29 sqrt(B).
 *
 * Range: blanks from 0 to 1e9 particles. The normal distribution behind it needs a blank of about 20 particles or more
 * (common practice). Its 5 and 95 % are nominal: a sample like the blank passes the critical level with 6 to 7.5 % for
 * blanks of 30 to 100 particles, and with less the larger the blank. Simulated (40,000 each), with 0.5, 2, 5, 10, 30
 * and 100 particles expected in the blank: 24, 16, 10, 9, 7 and 6 % where it was counted in the sample's volume, 61,
 * 15, 12, 9, 7 and 6 % where in a tenth of it. A content of the detection limit of one blank, judged by another blank,
 * is detected with 81, 85, 91, 92, 93 and 94 %, and 74, 77, 86, 89, 92 and 94 % (20,000 each); judged by the same blank
 * with 95 to 97, and 96 to 99 %. Plan by these limits; decide by `subtractBlank`, whose test is exact and asks for a
 * few particles more.
 *
 * Source: L. A. Currie, Analytical Chemistry 40 (1968) 586, Table II (as quoted; the paper was not read).
 *
 * @param blank particles counted in a volume of the blank
 * @param sampleVolumeMl the volume of the sample to be counted, mL
 * @throws `not_an_integer`, `negative`, `out_of_range`, `wrong_type`, `not_a_number`, `infinite`.
 *
 * @example
 * ```ts
 * import { detectionLimits } from 'motescale/codes';
 * const limits = detectionLimits({ counted: 100, volumeMl: 10 }, 10);
 * limits.critical; // ~> 23.3
 * limits.detection; // ~> 49.2
 * ```
 */
export function detectionLimits(blank: CountInVolume, sampleVolumeMl: number): DetectionLimits {
  const { counted, volumeMl } = requireCountInVolume(blank, 'blank');
  // particles expected in the sample's volume for each one counted in the blank
  const ratio = requireVolume(sampleVolumeMl, 'sampleVolumeMl') / volumeMl;
  const k = -normalQuantile(risk);
  const variance = counted * ratio * (1 + ratio);
  const critical = k * Math.sqrt(variance);
  const square = perDeviation * perDeviation;
  const quantification = (square / 2) * (1 + Math.sqrt(1 + (4 * variance) / square));
  return { critical, detection: k * k + 2 * critical, quantification };
}

/** A count with its volume, which may have a dilution beside. */
export function requireCountInVolume(count: CountInVolume, parameter: string, mayDilute = false): CountInVolume {
  requireObject(count, parameter, 'a count { counted, volumeMl }');
  requireMembers(count, parameter, ['counted', 'volumeMl'].concat(mayDilute ? ['dilution'] : []));
  const counted = requireMeasurableCount(count.counted, `${parameter}.counted`);
  return { counted, volumeMl: requireVolume(count.volumeMl, `${parameter}.volumeMl`) };
}

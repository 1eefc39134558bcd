/** Contamination by weighing: a membrane before and after, and a control membrane that had all but the dirt. */
import { requireMeasure, requireMembers, requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { subtractDecimals } from '../../numeric/decimal.ts';
import { normalQuantile } from '../../numeric/normal.ts';
import { requireVolume } from '../ranges.ts';

/** What the balance showed. */
export interface Weighing {
  /**
   * The membrane, mg, before and after filtering. Where the balance was tared with it, before is 0: take off from both
   * what the tared balance showed before. After may then be below 0, by noise or by what the membrane lost.
   */
  readonly beforeMg: number;
  readonly afterMg: number;
  /** The control membrane below it, mg; both or none. */
  readonly controlBeforeMg?: number;
  readonly controlAfterMg?: number;
  /** Oil filtered, mL. */
  readonly volumeMl: number;
  /** Standard uncertainty of one weighing, mg: repeatability of this balance with such a membrane. */
  readonly balanceMg: number;
  /** Relative standard uncertainty of the volume; 0 where left out. */
  readonly volume?: number;
}

/** A gravimetric level with its uncertainty. */
export interface GravimetricLevel {
  /** mg per litre; below 0 where the membrane lost more than the control. */
  readonly mgPerL: number;
  /** Standard uncertainty, mg/L, as `zetaScore` takes it. */
  readonly standard: number;
  /** Expanded uncertainty with k = 2, mg/L, as `enScore` takes it. */
  readonly expanded: number;
  /** A level up to this is not distinguishable from none at a risk of 5 %, mg/L. */
  readonly critical: number;
  readonly detected: boolean;
}

const names = ['beforeMg', 'afterMg', 'controlBeforeMg', 'controlAfterMg', 'volumeMl', 'balanceMg', 'volume'];

/**
 * The gravimetric level: what the upper membrane gained, less what the control below it gained, over the volume. The
 * control takes off what moisture and solvent do to a membrane; a control that loses weight adds to the result.
 *
 * The uncertainty is that of the weighings (four with a control, two without) and of the volume. It does not hold
 * what stays on funnel and tongs, dirt from the air, or what passes the membrane's pores; a blank run tells those.
 *
 * Range: masses 1 to 1e6 mg, since no membrane weighs less (our choice: it refuses grams), and of a balance tared with
 * the membrane 0 before and -10 to 1e6 mg after (our choice: without the membrane it shows less); volumes 1e-12 to 1e9
 * mL, `balanceMg` 1e-6 to 1e3 mg, `volume` 0 to 0.5.
 *
 * Source: ISO 4405:1991, two membranes, one upon the other (from memory); uncertainty by JCGM 100:2008, 5.1.2;
 * critical level by L. A. Currie, Analytical Chemistry 40 (1968) 586.
 *
 * @param weighing masses, volume, and how well the balance repeats
 * @throws `too_few` for a control with one weighing only; `out_of_range`, `negative`, `unknown_option`, `wrong_type`,
 * `not_a_number`, `infinite`.
 *
 * @example
 * ```ts
 * import { gravimetricLevel } from 'motescale/counts';
 * const level = gravimetricLevel({
 *   beforeMg: 83.412,
 *   afterMg: 84.907,
 *   controlBeforeMg: 82.11,
 *   controlAfterMg: 82.035,
 *   volumeMl: 100,
 *   balanceMg: 0.05,
 *   volume: 0.01,
 * });
 * level.mgPerL; // ~> 15.7
 * level.standard; // ~> 1.01
 * level.critical; // ~> 1.64
 * ```
 */
export function gravimetricLevel(weighing: Weighing): GravimetricLevel {
  requireObject(weighing, 'weighing', 'a weighing { beforeMg, afterMg, volumeMl, balanceMg }');
  requireMembers(weighing, 'weighing', names);
  const { controlBeforeMg, controlAfterMg } = weighing;
  const gain = gained(weighing, 'beforeMg', 'afterMg');
  const volumeMl = requireVolume(weighing.volumeMl, 'weighing.volumeMl');
  const balanceMg = requireMeasure(weighing.balanceMg, 'weighing.balanceMg', 1e-6, 1e3, 'a mass in mg');
  const ofVolume = requireMeasure(weighing.volume ?? 0, 'weighing.volume', 0, 0.5, 'a share');
  const controlled = controlBeforeMg !== undefined || controlAfterMg !== undefined;
  if (controlled && (controlBeforeMg === undefined || controlAfterMg === undefined)) {
    const missing = controlBeforeMg === undefined ? 'controlBeforeMg' : 'controlAfterMg';
    const expected = 'both weighings of the control membrane, or none';
    throw motescaleError('too_few', `weighing.${missing}`, undefined, expected);
  }
  const control = controlled ? gained(weighing, 'controlBeforeMg', 'controlAfterMg') : 0;
  const perVolume = 1000 / volumeMl;
  const mgPerL = (subtractDecimals(gain, control) * 1000) / volumeMl;
  const ofMass = perVolume * balanceMg * Math.sqrt(controlled ? 4 : 2);
  const standard = Math.sqrt(ofMass * ofMass + mgPerL * ofVolume * (mgPerL * ofVolume));
  const critical = ofMass * normalQuantile(0.95);
  return { mgPerL, standard, expanded: 2 * standard, critical, detected: mgPerL > critical };
}

/** What a membrane gained; where the balance was not tared with it, both weighings hold the membrane. */
function gained(
  weighing: Weighing,
  before: 'beforeMg' | 'controlBeforeMg',
  after: 'afterMg' | 'controlAfterMg',
): number {
  const least = weighing[before] === 0 ? -10 : 1;
  const expected = 'a mass in mg (not g; zero before where the balance was tared with the membrane)';
  const mass = (name: typeof before | typeof after) =>
    requireMeasure(weighing[name], `weighing.${name}`, least, 1e6, expected);
  return subtractDecimals(mass(after), mass(before));
}

/** Back from a diluted sample to the oil, with the particles the diluent brought along taken off. */
import { requireMeasure, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { shownEnd } from '../numeric/shown.ts';
import { requirePerMl, requireVolume, volumeRule } from './ranges.ts';

/** A sample mixed with a clean diluent, and what was counted in each at one size. */
export interface DilutedSample {
  /** Particles per mL of the mixture. */
  readonly mixturePerMl: number;
  /** Particles per mL of the diluent alone, counted the same way: its blank. 0 for none. */
  readonly diluentPerMl: number;
  /** Oil in the mixture, mL, above 0. */
  readonly sampleMl: number;
  /** Diluent in the mixture, mL, 0 or more. */
  readonly diluentMl: number;
}

const rounding = 1e-12;

const members = ['mixturePerMl', 'diluentPerMl', 'sampleMl', 'diluentMl'];

/**
 * The particles per mL of the oil before it was diluted, at one size: those of the mixture less those of the diluent,
 * over the oil in it. Subtracting a blank leaves the scatter of both counts: where they lie close, the result means
 * little. From raw counts `subtractDiluent` gives it with limits, also where the diluent holds more.
 *
 * Range: counts from 0 to 1e12 per mL, volumes from 1e-12 to 1e9 mL (diluent from 0). Accuracy: 2e-15 of the count of
 * the mixture times the dilution. Assumes that volumes add, and that diluting neither breaks nor dissolves particles (a
 * diluent may hide water and soft particles).
 *
 * Source: the balance of particles (arithmetic).
 *
 * @throws `out_of_range` where the diluent alone holds more than the mixture; `wrong_type`, `not_a_number`, `infinite`,
 *   `negative`.
 *
 * @example
 * ```ts
 * import { undilute } from 'motescale/counts';
 * undilute({ mixturePerMl: 520, diluentPerMl: 5, sampleMl: 10, diluentMl: 90 }); // => 5155
 * ```
 */
export function undilute(mixture: DilutedSample): number {
  requireObject(mixture, 'mixture', `a mixture { ${members.join(', ')} }`, members);
  const perMl = requirePerMl(mixture.mixturePerMl, 'mixture.mixturePerMl');
  const blank = requirePerMl(mixture.diluentPerMl, 'mixture.diluentPerMl');
  const sampleMl = requireVolume(mixture.sampleMl, 'mixture.sampleMl');
  const diluentMl = requireMeasure(mixture.diluentMl, 'mixture.diluentMl', 0, volumeRule.most, volumeRule.expected);
  const particles = perMl * (sampleMl + diluentMl);
  const brought = blank * diluentMl;
  if (brought > particles * (1 + rounding)) {
    const most = shownEnd(particles / diluentMl, false);
    const expected = `at most ${most}: the diluent cannot hold more particles than the mixture`;
    throw motescaleError('out_of_range', 'mixture.diluentPerMl', blank, expected);
  }
  return Math.max(particles - brought, 0) / sampleMl;
}

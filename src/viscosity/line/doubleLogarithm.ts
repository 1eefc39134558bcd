/**
 * The scale on which the viscosity of an oil is a straight line over temperature: W = log10 log10 Z, where Z is the
 * kinematic viscosity plus 0.7 and, for thin fluids, small corrections. Here: from viscosity to W and back.
 *
 * Source: ASTM D341-20, equations for Z; constants C to H in the annex. The limits 0.21 and 2e7 mm2/s: from memory.
 */
import { requireWithin } from '../../checks.ts';
import { exp, log10 } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import { findRoot } from '../../numeric/root.ts';

/**
 * Which Z a line is drawn with.
 *
 * - `full`: all terms, Z = v + 0.7 + C - D + E - F + G - H, for every viscosity, without steps.
 * - `short`: Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2), as in many calculations by hand.
 *
 * Above about 5 mm2/s both are v + 0.7. Both are solved for v to the last digits. The closed inverse that the standard
 * prints for `short` undoes it only to 0.03 % below 5 mm2/s and is not used: figures worked by hand with it differ by
 * so much.
 */
export type LineForm = 'full' | 'short';

/** Least and greatest kinematic viscosity of the chart, mm2/s. */
export const leastMm2PerS = 0.21;
export const greatestMm2PerS = 20000000;

export function requireViscosity(mm2PerS: unknown, parameter: string): number {
  return requireWithin(mm2PerS, parameter, leastMm2PerS, greatestMm2PerS, 'mm2/s, ASTM D341');
}

/** Share by which a rounding error may pass a limit. */
const slack = 1e-9;

/** W of a viscosity within the limits. */
export function doubleLog(mm2PerS: number, form: LineForm): number {
  return log10(log10(zOf(mm2PerS, form)));
}

/** The viscosity of W, or null where it lies outside the limits of the chart. */
export function fromDoubleLog(w: number, form: LineForm): number | null {
  const ln10 = log(10);
  const z = exp(ln10 * exp(ln10 * w));
  const least = zOf(leastMm2PerS, form);
  if (!(z >= least * (1 - slack) && z <= (greatestMm2PerS + 0.7) * (1 + slack))) return null;
  const mm2PerS = inverse(Math.max(z, least), form);
  return Math.min(Math.max(mm2PerS, leastMm2PerS), greatestMm2PerS);
}

function zOf(v: number, form: LineForm): number {
  return v + 0.7 + (form === 'full' ? fullCorrection(v) : exp(-1.47 - 1.84 * v - 0.51 * v * v));
}

/** C - D + E - F + G - H. */
function fullCorrection(v: number): number {
  return (
    exp(-1.14883 - 2.65868 * v) -
    exp(-0.0038138 - 12.5645 * v) +
    exp(5.46491 - 37.6289 * v) -
    exp(13.0458 - 74.6851 * v) +
    exp(37.4619 - 192.643 * v) -
    exp(80.4945 - 400.468 * v)
  );
}

/** Z rises with v, and the correction lies between 0 and 0.16: that, and a little room for rounding, is the bracket. */
function inverse(z: number, form: LineForm): number {
  const without = z - 0.7;
  if (without > 20) return without;
  return findRoot((v) => zOf(v, form) - z, Math.max(leastMm2PerS, without - 0.16), without + 0.01, 'mm2PerS');
}

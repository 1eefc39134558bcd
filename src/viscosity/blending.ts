/**
 * Viscosity of a blend at one temperature: each part's double logarithm of viscosity, averaged by its fraction.
 *
 * ASTM D7152 blends log log Z by volume, the Refutas rule its own blending number by mass. For the two-temperature
 * method see blendLines.ts.
 */
import { requireFilledArray, requireObject, requireOneOf, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp } from '../numeric/exponential.ts';
import { log } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import { doubleLog, greatestMm2PerS, leastMm2PerS, requireViscosity } from './line/doubleLogarithm.ts';

/** `astm`: ASTM D7152 at one temperature, fractions by volume. `refutas`: blending numbers, fractions by mass. */
export type BlendMethod = 'astm' | 'refutas';

/** One part of a blend: its fraction (0 to 1) and its kinematic viscosity at the common temperature. */
export interface BlendPart {
  readonly fraction: number;
  readonly mm2PerS: number;
}

/**
 * Kinematic viscosity, in mm²/s, of a blend of any number of parts, all at one temperature, for which the answer then
 * holds.
 *
 * Range: parts of 0.21 to 2e7 mm²/s (the range of ASTM D341, from memory). Fractions must add to 1 within 1e-9: by
 * volume for `astm`, by mass for `refutas`. For base oils and fuels; not for oils with viscosity index improvers, and
 * not where the parts do not dissolve in each other (scope of ASTM D7152). The two rules differ by about 0.1 % on 32
 * and 220 mm²/s.
 *
 * **`blendLines`, the method of two temperatures, gives more** where the thicker part has the smaller slope `b`, as at
 * one viscosity index: of halves at 40 °C and an index of 95, 0.2 % for VG 46 and 68, 2 % for 32 and 100, 5 % for 32
 * and 220; 12 % for 10 and 220 of 2.6 and 19 mm²/s at 100 °C (35.1 against 39.1 mm²/s: ISO VG 32, or no grade), and of
 * these two 22 % at -20 °C. ASTM D7152 has both (from memory). Take that one where each part is known at two
 * temperatures, this one where it is known at one alone. A blend in the tank is measured before it is used: above all
 * where the two disagree about the grade.
 *
 * Source: ASTM D7152-11(2016), ASTM blending method (equations from memory); Maples, 2nd edition, 2000, for `refutas`.
 *
 * @throws `out_of_range` for a viscosity or a fraction, or where the fractions do not add to 1; `empty`;
 *   `unknown_option`.
 *
 * @example
 * ```ts
 * import { blendViscosity } from 'motescale/viscosity';
 * const half = [{ fraction: 0.5, mm2PerS: 32 }, { fraction: 0.5, mm2PerS: 220 }];
 * blendViscosity(half); // ~> 75.876
 * blendViscosity(half, 'refutas'); // ~> 75.935
 * ```
 */
export function blendViscosity(parts: readonly BlendPart[], method: BlendMethod = 'astm'): number {
  requireMethod(method);
  const shares = requireFractions(parts, 'mm2PerS');
  let number = 0;
  let low = greatestMm2PerS;
  let high = leastMm2PerS;
  parts.forEach((part, i) => {
    const mm2PerS = requireViscosity(part.mm2PerS, `parts[${i}].mm2PerS`);
    if (shares[i] === 0) return;
    number += (shares[i] as number) * blendingNumber(mm2PerS, method);
    low = Math.min(low, mm2PerS);
    high = Math.max(high, mm2PerS);
  });
  return viscosityOf(number, method, low, high);
}

/**
 * The fraction of the first of two parts (the second being the rest) that gives the blend a viscosity, all at one
 * temperature.
 *
 * For more than two: a ready mixture counts as one part with the viscosity that `blendViscosity` gives it. Range,
 * fractions and sources as there.
 *
 * @throws `out_of_range` where the target does not lie between the parts; `no_answer` where both parts are alike within
 *   1e-9.
 *
 * @example
 * ```ts
 * import { blendFraction } from 'motescale/viscosity';
 * blendFraction({ firstMm2PerS: 32, secondMm2PerS: 100, targetMm2PerS: 46 }); // ~> 0.6519
 * ```
 */
export function blendFraction(
  of: { readonly firstMm2PerS: number; readonly secondMm2PerS: number; readonly targetMm2PerS: number },
  method: BlendMethod = 'astm',
): number {
  requireMethod(method);
  const members = ['firstMm2PerS', 'secondMm2PerS', 'targetMm2PerS'];
  requireObject(of, 'of', 'viscosities { firstMm2PerS, secondMm2PerS, targetMm2PerS }', members);
  const first = requireViscosity(of.firstMm2PerS, 'of.firstMm2PerS');
  const second = requireViscosity(of.secondMm2PerS, 'of.secondMm2PerS');
  const low = Math.min(first, second);
  const high = Math.max(first, second);
  if (alike(low, high)) throw motescaleError('no_answer', 'of', of, 'two parts of different viscosity');
  const target = requireWithin(of.targetMm2PerS, 'of.targetMm2PerS', low, high, 'between the parts');
  const end = blendingNumber(second, method);
  const fraction = (blendingNumber(target, method) - end) / (blendingNumber(first, method) - end);
  return Math.min(Math.max(fraction, 0), 1);
}

/**
 * The Refutas viscosity blending number (VBN) of a kinematic viscosity: 14.534 ln ln(ν + 0.8) + 10.975, natural
 * logarithms.
 *
 * Range: 0.21 to 2e7 mm²/s. Source: Maples, Petroleum Refinery Process Economics, 2nd edition, 2000. Reproductions with
 * logarithms to base 10 exist; their numbers are others.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { refutasNumber } from 'motescale/viscosity';
 * refutasNumber(46); // ~> 30.55
 * ```
 */
export function refutasNumber(mm2PerS: number): number {
  return blendingNumber(requireViscosity(mm2PerS, 'mm2PerS'), 'refutas');
}

/** Whether two viscosities are too near to each other for a fraction to mean anything. */
export function alike(low: number, high: number): boolean {
  return high <= low * (1 + 1e-9);
}

/**
 * The fractions of the parts, each with one `member` beside it, brought to add to 1 exactly as a double can; refused
 * where they are off by more than 1e-9.
 */
export function requireFractions(parts: readonly { readonly fraction: number }[], member: string): number[] {
  requireFilledArray(parts, 'parts', 'an array of parts');
  const fractions = parts.map((part, i) => {
    requireObject(part, `parts[${i}]`, `a part { fraction, ${member} }`, ['fraction', member]);
    return requireWithin(part.fraction, `parts[${i}].fraction`, 0, 1);
  });
  const sum = fractions.reduce((total, fraction) => total + fraction, 0);
  if (sum < 1 - 1e-9 || sum > 1 + 1e-9) throw motescaleError('out_of_range', 'parts', sum, 'fractions that add to 1');
  return fractions.map((fraction) => fraction / sum);
}

function blendingNumber(mm2PerS: number, method: BlendMethod): number {
  return method === 'astm' ? doubleLog(mm2PerS, 'short') : 14.534 * log(log(mm2PerS + 0.8)) + 10.975;
}

/** The viscosity that has a blending number; it lies between the parts, and rounding does not carry it beyond them. */
function viscosityOf(number: number, method: BlendMethod, low: number, high: number): number {
  if (number <= blendingNumber(low, method)) return low;
  if (number >= blendingNumber(high, method)) return high;
  const found =
    method === 'refutas'
      ? exp(exp((number - 10.975) / 14.534)) - 0.8
      : findRoot((mm2PerS) => blendingNumber(mm2PerS, method) - number, low, high, 'parts');
  return Math.min(Math.max(found, low), high);
}

function requireMethod(method: unknown): void {
  requireOneOf(method, 'method', ['astm', 'refutas']);
}

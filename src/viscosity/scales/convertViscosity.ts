/** Viscosity from one scale to another: mm2/s (cSt), Saybolt, Redwood, Engler, and the flow cups. */
import { noneOf, requireObject, requireOneOf, requirePositive } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { shownEnd } from '../../numeric/shown.ts';
import { requireCelsius } from '../ranges.ts';
import type { Conversion } from './conversion.ts';
import { type EffluxScaleName, effluxScales, ofEfflux } from './effluxScales.ts';
import { furol, universal } from './saybolt.ts';

/**
 * A scale, named by the formula it follows. Ranges are in the scale's own unit; without an end they go to 20 000 000
 * mm2/s.
 *
 * - `mm2/s`: kinematic viscosity, the same figure as cSt.
 * - `SUS`: Saybolt Universal seconds, ASTM D2161, from 1.81 mm2/s (about 32 s) at any temperature of 0 to 350 °F; from
 *   1.77 mm2/s at 210 °F and above. Old handbook tables (v = 0.220 t - 180 / t) differ by up to 2 %.
 * - `SFS`: Saybolt Furol seconds, ASTM D2161, at 122 °F from 48 mm2/s, at 210 °F from 50 mm2/s. From 110 mm2/s up,
 *   seconds at 122 °F lie 3 to 4 % above the Hydraulic Institute table (Engineering Data Book, 2nd edition, 1990, table
 *   IIC).
 * - `redwood1`: Redwood No. 1 seconds, IP 70, from 34 s. `redwood1-nbs`: NBS Technologic Paper 210, as in the Hydraulic
 *   Institute table, from 34 s. For the same seconds NBS gives 7 % less at 34 s, 5 % more above 1000 s.
 * - `redwood2`: Redwood No. 2 (Admiralty) seconds, IP 70, from 32.5 s. The Hydraulic Institute table lies 2 to 4 %
 *   lower.
 * - `engler`: degrees Engler, NBS Technologic Paper 100 with 51.3 s for water, from 1.3; within 1.6 % of the Hydraulic
 *   Institute table. For the same degrees `engler-ubbelohde` (from 1.3) gives 9 % more at 1.35, 2 % less at 3.4, 3 %
 *   less above 10; `engler-two-branch` (from 1.35) 8 % less at 1.35, 5 % more at 3.4, 1 % more above 10.
 * - `iso2431-3mm` to `-6mm`: flow cups of ISO 2431, seconds from 30 to 100, at 23 °C.
 * - `d1200-1` to `-5`: Ford cups of ASTM D1200, seconds up to 100 from 55, 40, 20, 20, 20, at 25 °C. Ford cups before
 *   D1200 differ: the Hydraulic Institute table by up to 4.5 % for No. 4, 12 % for No. 3.
 */
export type ViscosityScale = 'mm2/s' | 'SUS' | 'SFS' | EffluxScaleName;

/**
 * A viscosity in another scale. Both are of the same oil at the same temperature: a conversion of scales, not of
 * temperatures.
 *
 * Every pair rises strictly, and there and back gives the same figure within 1e-9. The spread between families of
 * formulas (see `ViscosityScale`) is larger than any rounding here: for a contract, name the standard.
 *
 * Source: ASTM D2161-93(1999), equations 5 to 8, for Saybolt; `sources.redwood`, `redwoodNbs`, `engler`,
 * `englerHandbook`, `flowCups` and `fordCups` for the others.
 *
 * @param options.celsius the temperature of the oil, which only Saybolt seconds depend on: 100 °F (37.8 °C) where left
 *   out, and 50 °C where Furol takes part. SUS -17.78 to 176.67 °C (0 to 350 °F), SFS 50 or 98.9 °C, all others -80 to
 *   250 °C
 * @throws `out_of_range` outside the range of either scale, `unknown_option` for a scale.
 *
 * @example
 * ```ts
 * import { convertViscosity } from 'motescale/viscosity';
 * convertViscosity(46, 'mm2/s', 'SUS', { celsius: 40 }); // ~> 214.2
 * convertViscosity(415, 'SUS', 'mm2/s', { celsius: -17.78 }); // ~> 90.1
 * convertViscosity(75, 'redwood1', 'mm2/s'); // ~> 17.11
 * ```
 */
export function convertViscosity(
  value: number,
  from: ViscosityScale,
  to: ViscosityScale,
  options: { readonly celsius?: number | undefined } = {},
): number {
  requirePositive(value, 'value', 'a viscosity, above 0');
  requireObject(options, 'options', 'options { celsius }', ['celsius']);
  let celsius = options.celsius;
  if (celsius !== undefined) requireCelsius(celsius, 'options.celsius');
  const known = requireScale(from, 'from');
  const wanted = requireScale(to, 'to');
  if (celsius === undefined && (from === 'SFS' || to === 'SFS')) celsius = 50;
  const source = conversionOf(known, celsius);
  const target = conversionOf(wanted, celsius);
  const mm2PerS = source.into(value);
  requireInside(source, mm2PerS, value);
  requireInside(target, mm2PerS, value);
  return from === to ? value : target.outOf(mm2PerS);
}

/** Names of the trade for what is written otherwise here, or is no scale. */
const otherScales = {
  cSt: 'mm2/s is the same as cSt',
  SSU: 'SUS is the same as SSU',
  SSF: 'SFS is the same as SSF',
  cP: 'cP is dynamic: kinematicViscosity makes mm2/s of it',
  'mPa s': 'mPa s is dynamic: kinematicViscosity makes mm2/s of it',
};

function requireScale(scale: unknown, parameter: string): ViscosityScale {
  const names = ['mm2/s', 'SUS', 'SFS'].concat(Object.keys(effluxScales)) as ViscosityScale[];
  const meant = typeof scale === 'string' ? otherScales[scale as keyof typeof otherScales] : undefined;
  if (typeof meant === 'string') throw noneOf(names, 'unknown_option', parameter, scale, `; ${meant}`);
  return requireOneOf(scale, parameter, names);
}

function conversionOf(scale: ViscosityScale, celsius: number | undefined): Conversion {
  switch (scale) {
    case 'mm2/s': {
      const same = (value: number): number => value;
      return { name: 'mm2/s', least: 0, most: Infinity, into: same, outOf: same };
    }
    case 'SUS':
      return universal(celsius);
    case 'SFS':
      return furol(celsius);
    default:
      return ofEfflux(effluxScales[scale]);
  }
}

/** A rounding error past the limit is let through. */
function requireInside({ name, least, most, outOf }: Conversion, mm2PerS: number, value: number): void {
  if (mm2PerS >= least * (1 - 1e-9) && mm2PerS <= most * (1 + 1e-9)) return;
  const ends = (low: number, high: number) => `${shownEnd(low, true)} to ${shownEnd(high, false)}`;
  const shown = `${ends(outOf(least), outOf(most))} ${name}`;
  const expected = `a viscosity in mm2/s from ${ends(least, most)}, which is ${shown}`;
  throw motescaleError('out_of_range', 'value', value, expected);
}

/**
 * The viscosity index: one number for how little an oil thins between 40 and 100 °C. 0 and 100 are two families of
 * reference oils of the 1920s; today's hydraulic oils lie near 100, multigrade oils above 140.
 */
import { requireObject, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { expm1 } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import { greatestMm2PerS } from '../line/doubleLogarithm.ts';
import { tableH, tableL, tableY } from './viscosityIndexTable.ts';

/** A viscosity index and how it was found. */
export interface ViscosityIndex {
  /** Unrounded. */
  readonly index: number;
  /** As the standard reports it: the nearest whole number, an exact half to the even one. */
  readonly reported: number;
  /** A up to 100, B above. */
  readonly procedure: 'A' | 'B';
}

/**
 * The viscosity index of an oil from its kinematic viscosities at 40 and 100 °C, in mm2/s. It may be negative.
 *
 * Range: at 100 °C from 2 mm2/s (below, the index is not defined), at 40 °C above that; both up to 20 000 000. Up to
 * and including 70 mm2/s at 100 °C the table is read, on a straight line between its rows, above it the equations are
 * used: there L steps down by 0.02 %. Intermediate figures are not rounded; the worked example of procedure B rounds H
 * and gets 156.37 where this gives 156.42.
 *
 * It is no check: 46,000 mistyped for 46 gives -170,000, and 40 for 100 °C gives 692. Oils have -100 to 400 (common
 * practice). Old reports measured at 100 and 210 °F (37.78 and 98.89 °C): entered as 40 and 100 °C they give 91 for an
 * oil of 102, and nothing shows it. Make a `viscosityLine` of the two and read it at 40 and 100 °C.
 *
 * Source: ASTM D2270-10(2016), Table 1 and procedures A and B; ISO 2909.
 *
 * @throws `out_of_range` outside the range, or where the oil does not thin.
 *
 * @example
 * ```ts
 * import { viscosityIndex } from 'motescale/viscosity';
 * viscosityIndex({ at40: 73.3, at100: 8.86 }).reported; // => 92
 * viscosityIndex({ at40: 22.83, at100: 5.05 }).index; // ~> 156.42
 * viscosityIndex({ at40: 48.57, at100: 7 }).index; // => 100
 * ```
 */
export function viscosityIndex(kv: { readonly at40: number; readonly at100: number }): ViscosityIndex {
  requireObject(kv, 'kv', 'viscosities { at40, at100 } in mm2/s', ['at40', 'at100']);
  const at100 = requireAt100(kv.at100, 'kv.at100');
  const at40 = requireWithin(kv.at40, 'kv.at40', 0, greatestMm2PerS, 'mm2/s, ASTM D2270');
  if (at40 <= at100) {
    const expected = `a viscosity in mm2/s, above ${at100} (that at 100 °C, ASTM D2270)`;
    throw motescaleError('out_of_range', 'kv.at40', at40, expected);
  }
  const index = indexOf(at40, at100);
  return { index, reported: halfToEven(index), procedure: index > 100 ? 'B' : 'A' };
}

/**
 * The viscosities at 40 °C, in mm2/s, of the reference oils with this viscosity at 100 °C: `l` of the one with index 0,
 * `h` of the one with index 100.
 *
 * Range: at 100 °C from 2 to 20 000 000 mm2/s. Source: ASTM D2270-10(2016), Table 1 to 70 mm2/s, equations above.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { referenceViscosities } from 'motescale/viscosity';
 * referenceViscosities(8.9); // => { l: 120.9, h: 69.94 }
 * ```
 */
export function referenceViscosities(at100: number): { l: number; h: number } {
  return referenceAt(requireAt100(at100, 'at100'));
}

/** A viscosity at 100 °C for which the index is defined. */
export function requireAt100(at100: unknown, parameter: string): number {
  return requireWithin(at100, parameter, 2, greatestMm2PerS, 'mm2/s, 100 °C, ASTM D2270');
}

/** The unrounded index of checked viscosities. */
export function indexOf(at40: number, at100: number): number {
  const { l, h } = referenceAt(at100);
  if (at40 >= h) return 100 * ((l - at40) / (l - h));
  return expm1((log(h / at40) / log(at100)) * log(10)) / 0.00715 + 100;
}

/** L and H for a checked viscosity at 100 °C. */
export function referenceAt(y: number): { l: number; h: number } {
  if (y > 70) return { l: 0.8353 * y * y + 14.67 * y - 216, h: 0.1684 * y * y + 11.85 * y - 97 };
  let low = 0;
  let high = tableL.length - 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (tableY(middle) <= y) low = middle;
    else high = middle;
  }
  const share = (y - tableY(low)) / (tableY(high) - tableY(low));
  return { l: between(tableL, low, share), h: between(tableH, low, share) };
}

/** Between a row of the table and the next. */
function between(column: readonly number[], row: number, share: number): number {
  const start = column[row] as number;
  return start + share * ((column[row + 1] as number) - start);
}

/** The nearest whole number. What lies within 1e-9 of a half is one: the rest is the error of the doubles. */
function halfToEven(x: number): number {
  const below = Math.floor(x);
  if (Math.abs(x - below - 0.5) < 1e-9) return below % 2 === 0 ? below : below + 1;
  return Math.floor(x + 0.5);
}

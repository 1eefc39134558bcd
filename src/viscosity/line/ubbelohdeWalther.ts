/**
 * The slope m of an oil after Ubbelohde and Walther: the other trade measure, beside the viscosity index, of how much
 * an oil thins as it warms. The less, the better it keeps its viscosity; mineral oils have about 3 to 4 (from memory).
 */
import { log10 } from '../../numeric/exponential.ts';
import { fallingLine, type ViscosityPoint } from './fitLine.ts';

/**
 * The slope m of DIN 51563 from two measured points (least squares from more).
 *
 * It differs from the `b` of `viscosityLine` a little: the constant is 0.8 here, 0.7 in ASTM D341.
 *
 * Range: 0.21 to 20 000 000 mm2/s, as ASTM D341. Two oils of equal m need not have an equal viscosity index.
 *
 * Source: DIN 51563 (W with 0.8 after Walther, 1931).
 *
 * @throws `too_few`, `no_answer`, `out_of_range` as `viscosityLine` does.
 *
 * @example
 * ```ts
 * import { ubbelohdeWaltherM } from 'motescale/viscosity';
 * ubbelohdeWaltherM([{ celsius: 40, mm2PerS: 46 }, { celsius: 100, mm2PerS: 6.8 }]); // ~> 3.65
 * ```
 */
export function ubbelohdeWaltherM(points: readonly ViscosityPoint[]): number {
  return fallingLine(points, (mm2PerS) => log10(log10(mm2PerS + 0.8))).b;
}

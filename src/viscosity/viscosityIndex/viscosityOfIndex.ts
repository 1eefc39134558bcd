/**
 * The viscosity index read backwards: a data sheet gives one viscosity and the index, these give the other viscosity.
 */
import { requireFinite, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { exp } from '../../numeric/exponential.ts';
import { log, log1p } from '../../numeric/logarithm.ts';
import { findRoot } from '../../numeric/root.ts';
import { greatestMm2PerS } from '../line/doubleLogarithm.ts';
import { indexOf, referenceAt, requireAt100 } from './viscosityIndex.ts';

/** The largest index looked for: up to here one viscosity answers; above 2000 the table is not steady enough. */
const greatestIndex = 1000;

/**
 * The viscosity at 100 °C, in mm2/s, that gives an oil of this viscosity at 40 °C this index: the inverse of
 * `viscosityIndex`.
 *
 * Range: a viscosity above 2 mm2/s at 40 °C, an answer from 2 mm2/s up to less than that. So the index ends where the
 * oil would no longer thin: at 690 for 150 mm2/s, the least of all, at 736 for 50, 750 for 1000, and never above 1000.
 * Just above 70 mm2/s, where the standard passes from table to equations, two answers 0.02 % apart give the same index:
 * the smaller is returned. A data sheet's index is a whole number, and half a unit of it is 0.1 % at 100 °C for VG 10,
 * 0.2 % for VG 46 and 0.6 % for VG 1500.
 *
 * Source: ASTM D2270-10(2016), solved within a bracket.
 *
 * @throws `out_of_range` where no such viscosity gives the index; the message names the indices there are.
 *
 * @example
 * ```ts
 * import { viscosityAt100OfIndex } from 'motescale/viscosity';
 * viscosityAt100OfIndex(73.3, 92); // ~> 8.84
 * ```
 */
export function viscosityAt100OfIndex(at40: number, index: number): number {
  requireWithin(at40, 'at40', 2, greatestMm2PerS, 'mm2/s, ASTM D2270');
  return requireAt100Of(at40, index, 'index');
}

/**
 * The viscosity at 40 °C, in mm2/s, of an oil with this viscosity at 100 °C and this index.
 *
 * Range: at 100 °C from 2 mm2/s, an index up to 1000, an answer between the viscosity at 100 °C and 20 000 000 mm2/s.
 *
 * Source: ASTM D2270-10(2016), procedures A and B solved for U.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { viscosityAt40OfIndex } from 'motescale/viscosity';
 * viscosityAt40OfIndex(7, 100); // => 48.57
 * ```
 */
export function viscosityAt40OfIndex(at100: number, index: number): number {
  requireAt100(at100, 'at100');
  requireIndex(index, 'index');
  const at40 = at40Of(at100, index);
  if (at40 !== null) return at40;
  const between = `between ${at100} and ${greatestMm2PerS} mm2/s`;
  const expected = `an index that puts the viscosity at 40 °C ${between} (ASTM D2270)`;
  throw motescaleError('out_of_range', 'index', index, expected);
}

/** The viscosity at 100 °C of an index, or an error that names the indices there are. */
export function requireAt100Of(at40: number, index: unknown, parameter: string): number {
  const at100 = at100Of(at40, requireIndex(index, parameter));
  if (at100 !== null) return at100;
  // from the oil of 2 mm2/s at 100 °C, the thinnest that has one, to the oil that hardly thins
  const least = Math.ceil(indexOf(at40, 2));
  const hardlyThins = Math.max(indexOf(at40, Math.min(at40, 70)), indexOf(at40, at40));
  const greatest = Math.min(Math.floor(hardlyThins), greatestIndex);
  const span = least > greatest ? 'no index at all' : `an index from ${least} to ${greatest}`;
  const why = `ASTM D2270: 2 mm2/s or more at 100 °C, and an oil that thins`;
  throw motescaleError('out_of_range', parameter, index, `${span} (for ${at40} mm2/s at 40 °C, ${why})`);
}

/** The viscosity at 100 °C of a checked index, or null where it would lie below 2 mm2/s, or the oil would not thin. */
export function at100Of(at40: number, index: number): number | null {
  const short = (at100: number): number => indexOf(at40, at100) - index;
  const below70 = Math.min(at40, 70);
  const low = short(below70) >= 0 ? 2 : 70;
  const high = low === 2 ? below70 : at40;
  if (!(low < high && short(low) <= 0 && short(high) >= 0)) return null;
  return findRoot(short, low, high, 'index');
}

/** The viscosity at 40 °C of a checked index, or null where the oil would not thin, or be thicker than any oil. */
export function at40Of(at100: number, index: number): number | null {
  const { l, h } = referenceAt(at100);
  const n = log1p(0.00715 * Math.max(index - 100, 0)) / log(10);
  const at40 = index <= 100 ? h + (l - h) * ((100 - index) / 100) : h * exp(-n * log(at100));
  return at40 > at100 && at40 <= greatestMm2PerS ? at40 : null;
}

/** An index this side of where the printed table grows unsteady. */
export function requireIndex(index: unknown, parameter: string): number {
  const expected = `an index, up to ${greatestIndex} (ASTM D2270)`;
  const number = requireFinite(index, parameter, expected);
  if (number > greatestIndex) throw motescaleError('out_of_range', parameter, index, expected);
  return number;
}

/** The viscosity of the oil at the temperature of a reading, by the line of the oil. */
import { log10 } from '../../numeric/exponential.ts';
import { fromDoubleLog } from '../../viscosity/line/doubleLogarithm.ts';
import type { Context } from './check.ts';

/** In mm²/s; null without a temperature or a line, or where the line ends. */
export function byLine({ reading: { celsius }, limits: { viscosityLine } }: Context): number | null {
  if (celsius === undefined || celsius <= -273.15 || viscosityLine === null) return null;
  const { a, b, form } = viscosityLine;
  return fromDoubleLog(a - b * log10(celsius + 273.15), form);
}

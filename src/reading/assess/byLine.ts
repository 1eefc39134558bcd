/**
 * The viscosity of the oil at the temperature of a reading, by the line of the oil.
 */
import { log10 } from '../../numeric/exponential.ts';
import { doubleLog, fromDoubleLog, greatestMm2PerS, leastMm2PerS } from '../../viscosity/line/doubleLogarithm.ts';
import type { Context } from './check.ts';

/** In mm²/s; beyond an end of the line that end: the oil is thicker there, or thinner. */
export interface ByLine {
  readonly mm2PerS: number;
  readonly beyond: 'thicker' | 'thinner' | null;
}

/** Null without a temperature or a line. */
export function byLine({ reading: { celsius }, limits: { viscosityLine } }: Context): ByLine | null {
  if (celsius === undefined || celsius <= -273.15 || viscosityLine === null) return null;
  const { a, b, form } = viscosityLine;
  const w = a - b * log10(celsius + 273.15);
  const mm2PerS = fromDoubleLog(w, form);
  if (mm2PerS !== null) return { mm2PerS, beyond: null };
  return w > doubleLog(greatestMm2PerS, form)
    ? { mm2PerS: greatestMm2PerS, beyond: 'thicker' }
    : { mm2PerS: leastMm2PerS, beyond: 'thinner' };
}

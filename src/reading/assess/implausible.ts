/**
 * A figure that no oil can have: the sensor has failed, not the oil. The figure then counts as not measured, for every
 * other check; the counts are as good as before.
 */
import type { Writable } from '../../state/writable.ts';
import { asItFlowed } from '../atRest.ts';
import type { Reading } from '../reading.ts';
import type { ReadingLimits } from '../readingLimits.ts';
import { type Check, type Context, type Found, nothing } from './check.ts';

const looked = [
  ['kPa', 'plausibleKPa'],
  ['celsius', 'plausibleCelsius'],
  ['mm2PerS', 'plausibleMm2PerS'],
  ['coldestCelsius', 'plausibleCelsius'],
] as const;

/** The end of the band that a figure lies beyond; null within, and where there is none. */
function beyond(figure: number | undefined, band: ReadingLimits['plausibleKPa']): number | null {
  if (figure === undefined || band === null) return null;
  if (figure < band.low) return band.low;
  return figure > band.high ? band.high : null;
}

/** Whether all figures lie within their bands: the answer of most readings, without a list. */
function areWithin({ kPa, celsius, mm2PerS }: Reading, limits: ReadingLimits): boolean {
  const { plausibleKPa, plausibleCelsius, plausibleMm2PerS } = limits;
  return isKept(kPa, plausibleKPa) && isKept(celsius, plausibleCelsius) && isKept(mm2PerS, plausibleMm2PerS);
}

/** A figure without a band is not judged. */
function isKept(figure: number | undefined, band: ReadingLimits['plausibleKPa']): boolean {
  return figure === undefined || (band !== null && beyond(figure, band) === null);
}

/** A figure beyond what there is. A reading without such figures has nothing to find. */
export const figureImplausible: Check = {
  codes: ['figure_implausible'],
  find: ({ reading, limits }) => {
    if (areWithin(reading, limits)) return nothing;
    const found: Found[] = [];
    for (const [name, band] of looked) {
      // it has no quality: it is only left out
      if (name === 'coldestCelsius') continue;
      const value = reading[name];
      const limit = beyond(value, limits[band]);
      if (limit !== null) found.push({ code: 'figure_implausible', value: value as number, limit, affects: [name] });
    }
    // one without a band came, or all would be within
    return found.length === 0 ? null : found;
  },
};

/** What the other checks look at: the same, without figures that are implausible or a zero error of the flow meter. */
export function plausibleOf(context: Context): Context {
  const { reading, limits, repeats } = context;
  const flowed = asItFlowed(reading, limits, repeats);
  if (reading.coldestCelsius === undefined && areWithin(reading, limits))
    return flowed === reading ? context : { ...context, reading: flowed };
  let kept: Writable<Reading> = flowed;
  for (const [name, band] of looked) {
    if (beyond(reading[name], limits[band]) === null) continue;
    if (kept === reading) kept = { ...reading };
    delete kept[name];
  }
  return kept === reading ? context : { ...context, reading: kept };
}

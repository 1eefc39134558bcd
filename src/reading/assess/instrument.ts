/**
 * The instrument's own figures: is the oil flowing as it should, under pressure, thin enough, at a temperature the
 * sensor is made for, and is the line full of new oil?
 */

import { log10 } from '../../numeric/exponential.ts';
import { fromDoubleLog } from '../../viscosity/line/doubleLogarithm.ts';
import { figureNames } from '../rules.ts';
import { type Check, type Context, nothing } from './check.ts';

/** No flow at all: nothing new was counted. It needs no limit. */
export const noFlow: Check = {
  codes: ['no_flow'],
  find: ({ reading: { mlPerMin } }) => {
    if (mlPerMin === undefined) return null;
    return mlPerMin > 0 ? nothing : [{ code: 'no_flow', value: 0, limit: 0 }];
  },
};

/** Too little flow or too much. */
export const flow: Check = {
  codes: ['flow_low', 'flow_high'],
  find: ({ reading: { mlPerMin }, limits: { mlPerMin: band } }) => {
    if (mlPerMin === undefined || band === null) return null;
    if (mlPerMin === 0) return nothing;
    if (mlPerMin < band.low) return [{ code: 'flow_low', value: mlPerMin, limit: band.low }];
    return mlPerMin > band.high ? [{ code: 'flow_high', value: mlPerMin, limit: band.high }] : nothing;
  },
};

/**
 * Less pressure than the sensor is made for: bubbles in the oil stay large, dissolve slowly, and are counted as
 * particles.
 */
export const pressure: Check = {
  codes: ['pressure_low'],
  find: ({ reading: { kPa }, limits: { leastKPa } }) => {
    if (kPa === undefined || leastKPa === null) return null;
    return kPa >= leastKPa ? nothing : [{ code: 'pressure_low', value: kPa, limit: leastKPa }];
  },
};

/** Oil too thick for the sensor or its pump, as measured; where it is not, by the temperature. */
export const viscosity: Check = {
  codes: ['viscosity_high'],
  find: (context) => {
    const { mostMm2PerS } = context.limits;
    const value = context.reading.mm2PerS ?? byLine(context);
    if (value === null || mostMm2PerS === null) return null;
    return value <= mostMm2PerS ? nothing : [{ code: 'viscosity_high', value, limit: mostMm2PerS }];
  },
};

/** Oil colder or hotter than the sensor is made for. */
export const temperature: Check = {
  codes: ['temperature_low', 'temperature_high'],
  find: ({ reading: { celsius }, limits: { celsius: band } }) => {
    if (celsius === undefined || band === null) return null;
    if (celsius < band.low) return [{ code: 'temperature_low', value: celsius, limit: band.low }];
    return celsius > band.high ? [{ code: 'temperature_high', value: celsius, limit: band.high }] : nothing;
  },
};

/** The line still holds oil from before. */
export const unflushed: Check = {
  codes: ['line_not_flushed'],
  find: ({ reading: { flushedMl }, limits: { flushMl } }) => {
    if (flushedMl === undefined || flushMl === null) return null;
    return flushedMl >= flushMl ? nothing : [{ code: 'line_not_flushed', value: flushedMl, limit: flushMl }];
  },
};

/** What the instrument itself says of its figures. */
export const flagged: Check = {
  codes: ['flagged_by_instrument'],
  find: ({ reading: { qualities }, limits }) => {
    if (qualities === undefined) return nothing;
    const most = limits.qualities.flagged_by_instrument;
    return figureNames
      .filter((name) => (qualities[name] ?? 'good') !== 'good')
      .map((name) => {
        // the instrument's own word where it is milder than the limit, which may ask for none at all
        const quality = qualities[name] === 'uncertain' && most === 'bad' ? 'uncertain' : most;
        return { code: 'flagged_by_instrument', value: 1, limit: 0, affects: [name], quality };
      });
  },
};

/** The viscosity at the temperature of a reading, by the line of the oil, in mm²/s; null where one does not tell it. */
export function byLine({ reading: { celsius }, limits: { viscosityLine } }: Context): number | null {
  if (celsius === undefined || celsius <= -273.15 || viscosityLine === null) return null;
  const { a, b, form } = viscosityLine;
  return fromDoubleLog(a - b * log10(celsius + 273.15), form);
}

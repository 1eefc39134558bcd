/**
 * The instrument's own figures: is the oil flowing as it should, under pressure, thin enough, at a temperature the
 * sensor is made for, and is the line full of new oil?
 */
import { mostZeroError, restLimit } from '../atRest.ts';
import { figureNames } from '../rules.ts';
import { byLine } from './byLine.ts';
import { above, below, type Check, nothing } from './check.ts';

/**
 * No flow at all, or no more than a flow meter shows at standstill: nothing new was counted. Where no limits tell, and
 * not the unit's own flow, little may be either.
 */
export const noFlow: Check = {
  codes: ['no_flow'],
  find: ({ reading, limits, repeats }) => {
    const { mlPerMin } = reading;
    const limit = restLimit(reading, limits, repeats);
    if (mlPerMin === undefined) return null;
    // no zero below zero: a sum with 0 has none
    if (limit !== null) return [{ code: 'no_flow', value: mlPerMin + 0, limit }];
    return limits.mlPerMin === null && mlPerMin <= mostZeroError ? null : nothing;
  },
};

/**
 * A flow that should have come and cannot be relied on: the counts may be of oil that stands. An instrument without a
 * flow says nothing here.
 */
export const flowUnknown: Check = {
  codes: ['flow_unknown'],
  find: ({ reading: { counts, codes, mlPerMin, qualities }, limits }) => {
    if (qualities?.mlPerMin !== 'bad' || (counts === undefined && codes === undefined)) return nothing;
    // none has its own finding; one that came is as good as the limits let the instrument's word make it
    if (mlPerMin === 0 || (mlPerMin !== undefined && limits.qualities.flagged_by_instrument !== 'bad')) return nothing;
    return [{ code: 'flow_unknown', value: 1, limit: 0 }];
  },
};

/** Too little flow or too much. */
export const flow: Check = {
  codes: ['flow_low', 'flow_high'],
  find: ({ reading: { mlPerMin }, limits: { mlPerMin: band } }) => {
    if (mlPerMin === undefined || band === null) return null;
    if (mlPerMin === 0) return nothing;
    if (mlPerMin < band.low) return [{ code: 'flow_low', value: mlPerMin, limit: band.low }];
    return above('flow_high', mlPerMin, band.high);
  },
};

/**
 * Less pressure than the sensor is made for: bubbles in the oil stay large, dissolve slowly, and are counted as
 * particles.
 */
export const pressure: Check = {
  codes: ['pressure_low'],
  find: ({ reading: { kPa }, limits: { leastKPa } }) => below('pressure_low', kPa, leastKPa),
};

/** Oil too thick for the sensor or its pump, as measured; where it is not, by the temperature. */
export const viscosity: Check = {
  codes: ['viscosity_high'],
  find: (context) => {
    const { mostMm2PerS } = context.limits;
    const measured = context.reading.mm2PerS;
    const line = measured === undefined ? byLine(context) : null;
    const value = measured ?? line?.mm2PerS;
    if (value === undefined || mostMm2PerS === null) return null;
    // beyond the end of the line the oil is thicker, or thinner, and a limit on the other side says nothing
    if (line !== null && line.beyond !== null && value > mostMm2PerS !== (line.beyond === 'thicker')) return null;
    return above('viscosity_high', value, mostMm2PerS);
  },
};

/** Oil colder or hotter than the sensor is made for. */
export const temperature: Check = {
  codes: ['temperature_low', 'temperature_high'],
  find: ({ reading: { celsius }, limits: { celsius: band } }) => {
    if (celsius === undefined || band === null) return null;
    if (celsius < band.low) return [{ code: 'temperature_low', value: celsius, limit: band.low }];
    return above('temperature_high', celsius, band.high);
  },
};

/** The line still holds oil from before. */
export const unflushed: Check = {
  codes: ['line_not_flushed'],
  find: ({ reading: { flushedMl }, limits: { flushMl } }) => below('line_not_flushed', flushedMl, flushMl),
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

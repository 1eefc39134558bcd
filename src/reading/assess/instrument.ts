/**
 * The instrument's own figures: is the oil flowing as it should, under pressure, thin enough, at a temperature the sensor is made for, and
 * is the line full of new oil?
 */
import { shown } from '../../numeric/shown.ts';
import type { Check } from './check.ts';

/** No flow at all: nothing new was counted. It needs no limit. */
export const noFlow: Check = {
  codes: ['no_flow'],
  find: ({ reading: { mlPerMin } }) => {
    if (mlPerMin === undefined) return null;
    if (mlPerMin > 0) return [];
    const text =
      'No oil flows through the sensor: the counts say nothing about the oil. First stop the pump and let the pressure off. Then look for what shuts the line off.';
    return [{ code: 'no_flow', figure: 0, limit: 0, text }];
  },
};

/** Too little flow or too much. */
export const flow: Check = {
  codes: ['flow_low', 'flow_high'],
  find: ({ reading: { mlPerMin }, limits: { mlPerMin: band } }) => {
    if (mlPerMin === undefined || band === null) return null;
    if (mlPerMin === 0) return [];
    if (mlPerMin < band.low) {
      const text = `Flow is ${shown(mlPerMin, band.low)} mL/min, below ${shown(band.low, mlPerMin)}: set the pump faster. If that does not help, stop the pump, let the pressure off, and look for what holds the oil back.`;
      return [{ code: 'flow_low', figure: mlPerMin, limit: band.low, text }];
    }
    if (mlPerMin > band.high) {
      const text = `Flow is ${shown(mlPerMin, band.high)} mL/min, above ${shown(band.high, mlPerMin)}. Set the pump slower. If it cannot be set, first stop the pump and let the pressure off; then fit a narrower restrictor where the line leaves the pressure line. Never throttle a pump that has no relief valve.`;
      return [{ code: 'flow_high', figure: mlPerMin, limit: band.high, text }];
    }
    return [];
  },
};

/** Less pressure than the sensor is made for: bubbles in the oil stay large, dissolve slowly, and are counted as particles. */
export const pressure: Check = {
  codes: ['pressure_low'],
  find: ({ reading: { kPa }, limits: { leastKPa } }) => {
    if (kPa === undefined || leastKPa === null) return null;
    if (kPa >= leastKPa) return [];
    const text = `Pressure in the sensor is ${shown(kPa, leastKPa)} kPa, below ${shown(leastKPa, kPa)}: bubbles in the oil may stay and count as particles. Look for where air gets in: a leak in the suction line, foam in the tank. Before the line is touched, stop the pump and let the pressure off.`;
    return [{ code: 'pressure_low', figure: kPa, limit: leastKPa, text }];
  },
};

/** Oil too thick for the sensor or its pump. */
export const viscosity: Check = {
  codes: ['viscosity_high'],
  find: ({ reading: { mm2PerS }, limits: { mostMm2PerS } }) => {
    if (mm2PerS === undefined || mostMm2PerS === null) return null;
    if (mm2PerS <= mostMm2PerS) return [];
    const text = `Viscosity is ${shown(mm2PerS, mostMm2PerS)} mm²/s, above ${shown(mostMm2PerS, mm2PerS)}: wait until the oil is warmer.`;
    return [{ code: 'viscosity_high', figure: mm2PerS, limit: mostMm2PerS, text }];
  },
};

/** Oil colder or hotter than the sensor is made for. */
export const temperature: Check = {
  codes: ['temperature_low', 'temperature_high'],
  find: ({ reading: { celsius }, limits: { celsius: band } }) => {
    if (celsius === undefined || band === null) return null;
    if (celsius < band.low) {
      const text = `Oil is at ${shown(celsius, band.low)} °C, below the ${shown(band.low, celsius)} °C the sensor is made for: wait until the oil is warmer.`;
      return [{ code: 'temperature_low', figure: celsius, limit: band.low, text }];
    }
    if (celsius > band.high) {
      const text = `Oil is at ${shown(celsius, band.high)} °C, above the ${shown(band.high, celsius)} °C the sensor is made for. First stop the pump and let the pressure off. Do not touch the line while it is hot; let the oil cool.`;
      return [{ code: 'temperature_high', figure: celsius, limit: band.high, text }];
    }
    return [];
  },
};

/** The line still holds oil from before. */
export const unflushed: Check = {
  codes: ['line_not_flushed'],
  find: ({ reading: { flushedMl }, limits: { flushMl } }) => {
    if (flushedMl === undefined || flushMl === null) return null;
    if (flushedMl >= flushMl) return [];
    const text = `${shown(flushedMl, flushMl)} mL have passed the line, fewer than ${shown(flushMl, flushedMl)}: it still holds old oil; let it run longer.`;
    return [{ code: 'line_not_flushed', figure: flushedMl, limit: flushMl, text }];
  },
};

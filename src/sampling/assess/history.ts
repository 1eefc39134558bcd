/**
 * A reading beside those before it: does it move at all, and does its clock run forwards?
 */
import type { Reading } from '../reading.ts';
import { shown } from '../shown.ts';
import type { Check } from './check.ts';

/** Figures that an instrument measures afresh each time. */
const measured = ['mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;

/**
 * The very same figures several times running. Particles arrive at random, so counts that never change are not measured. Not judged where
 * nothing was counted: clean oil may well show zero each time.
 */
export const valuesStuck: Check = {
  codes: ['values_stuck'],
  find: ({ reading, limits: { stuckReadings }, earlier }) => {
    if (stuckReadings === null || earlier.length < stuckReadings - 1) return null;
    if (!((reading.counts.perMl[0] as number) > 0)) return [];
    let same = 1;
    while (same <= earlier.length && alike(reading, earlier[earlier.length - same] as Reading)) same += 1;
    if (same < stuckReadings) return [];
    const text = `The last ${same} readings are the same to the last digit (limit ${shown(stuckReadings)}): the sensor or its connection has stopped.`;
    return [{ code: 'values_stuck', figure: same, limit: stuckReadings, text }];
  },
};

function alike(a: Reading, b: Reading): boolean {
  if (a.counts.perMl.length !== b.counts.perMl.length) return false;
  for (let i = 0; i < a.counts.perMl.length; i += 1) if (a.counts.perMl[i] !== b.counts.perMl[i]) return false;
  for (const figure of measured) if (a[figure] !== b[figure]) return false;
  return true;
}

/** Ended before the reading before it. */
export const clockBackwards: Check = {
  codes: ['clock_backwards'],
  find: ({ reading, earlier }) => {
    const before = earlier[earlier.length - 1]?.time;
    if (reading.time === undefined || before === undefined) return null;
    if (reading.time >= before) return [];
    const text = `This reading is ${shown((before - reading.time) / 1000)} s older than the one before it: set the clock of the instrument; rates and trends across this moment mean nothing.`;
    return [{ code: 'clock_backwards', figure: reading.time, limit: before, text }];
  },
};

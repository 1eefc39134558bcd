/**
 * A reading beside those before it: does its clock run forwards?
 */

import { shown } from '../../numeric/shown.ts';
import type { Reading } from '../reading.ts';
import type { Check } from './check.ts';

/** Ended before the last reading that has a time. */
export const clockBackwards: Check = {
  codes: ['clock_backwards'],
  find: ({ reading: { time }, earlier }) => {
    const before = lastTime(earlier);
    if (time === undefined || before === undefined) return null;
    if (time >= before) return [];
    const text = `This reading is ${shown((before - time) / 1000)} s older than one before it: set the clock of the instrument; rates and trends across this moment mean nothing.`;
    return [{ code: 'clock_backwards', figure: time, limit: before, text }];
  },
};

function lastTime(earlier: readonly Reading[]): number | undefined {
  for (let i = earlier.length - 1; i >= 0; i -= 1) {
    const time = earlier[i]?.time;
    if (time !== undefined) return time;
  }
  return undefined;
}

/** A reading beside those before it: does its clock run forwards? */
import type { Check } from './check.ts';
import { nothing } from './check.ts';

/** Ended before the last reading that has a time. */
export const clockBackwards: Check = {
  codes: ['clock_backwards'],
  find: ({ reading: { time }, repeats }) => {
    if (time === undefined || repeats === null || repeats.before === null) return null;
    return time >= repeats.before ? nothing : [{ code: 'clock_backwards', value: time, limit: repeats.before }];
  },
};

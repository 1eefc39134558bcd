/**
 * Oil that stands: a flow meter at standstill shows its zero error, below zero or above it. One above it is told from a
 * flow by the limits of the sensor; without them, by the unit's own flow.
 */
import type { Reading } from './reading.ts';
import type { ReadingLimits } from './readingLimits.ts';
import type { Repeats } from './remembered/repeats.ts';

/** Of the least flow, or of the unit's own, no more than this share is none (our choice). */
const share = 1 / 20;
/** Where no limits are set, no more than this can be a zero error, mL/min (our choice). */
export const mostZeroError = 1;

/** The flow at which oil stands, or less; null where it flows, or no flow is told. `repeats` may know the reading. */
export function restLimit(
  { mlPerMin }: Reading,
  { mlPerMin: band }: ReadingLimits,
  repeats: Repeats | null,
): number | null {
  if (mlPerMin === undefined) return null;
  if (mlPerMin === 0) return 0;
  const { last = 0, seen, ran } = repeats?.flow ?? {};
  // a single reading with flow may be a spike
  const known = last < 0 || seen !== undefined || ran !== undefined;
  const own = known ? Math.min(mostZeroError, share * Math.abs(last)) : 0;
  const limit = band === null ? own : share * band.low;
  return mlPerMin <= limit ? limit : null;
}

/** The reading as its oil flowed: without flow, where that is no more than a zero error. */
export function asItFlowed<One extends Reading>(reading: One, limits: ReadingLimits, repeats: Repeats | null): One {
  const stands = reading.mlPerMin !== 0 && restLimit(reading, limits, repeats) !== null;
  return stands ? { ...reading, mlPerMin: 0 } : reading;
}

/**
 * What is remembered of a reading: as its oil flowed, and without a flow that the instrument calls bad. Oil that nobody
 * has measured flushes no line.
 */
export function asRemembered<One extends Reading>(reading: One, limits: ReadingLimits, repeats: Repeats | null): One {
  const flowed = asItFlowed(reading, limits, repeats);
  const isBad = reading.qualities?.mlPerMin === 'bad' && limits.qualities.flagged_by_instrument === 'bad';
  return isBad && flowed.mlPerMin !== 0 ? { ...flowed, mlPerMin: undefined } : flowed;
}

/**
 * A reading assessed beside the readings before it, of which a monitor remembers fingerprints only.
 */
import { requireFilledArray, requireObject, requireWithin } from '../checks.ts';
import type { Repeats } from '../reading/assess/stuck.ts';
import { assessBeside } from '../reading/assessReading.ts';
import type { Assessment, OwnReadingLimits, RepeatedCounts, TimedReading } from '../reading/index.ts';
import { countsFingerprint } from './fingerprint.ts';

/** Beyond it no figure is one, and what is remembered of it would not be short. */
const largest = 1e12;

/** Those that `assessReading` leaves without such a limit. */
const unlimited = ['mlPerMin', 'kPa', 'mm2PerS'] as const;

/** What `assessReading` does not ask of a reading: that means and slopes of its figures can be told, and what is remembered of it is short. */
export function checkFigures(reading: TimedReading): void {
  requireObject(reading.counts, 'reading.counts', 'counts as cumulativeCounts makes them');
  const [most] = requireFilledArray(reading.counts.perMl, 'reading.counts.perMl');
  requireShort(most, 'reading.counts.perMl[0]');
  for (const name of unlimited) if (reading[name] !== undefined) requireShort(reading[name], `reading.${name}`);
  const { others } = reading;
  if (others === undefined) return;
  requireObject(others, 'reading.others', 'figures by name');
  for (const name of Object.keys(others)) requireShort(others[name], `reading.others.${name}`);
}

/** No words are made for a figure that passes, beyond its name. */
function requireShort(value: unknown, parameter: string): void {
  if (typeof value === 'number' && value >= -largest && value <= largest) return;
  requireWithin(value, parameter, -largest, largest);
}

/** How many readings running have had the counts of this one. */
export function sameAsBefore(same: RepeatedCounts, reading: TimedReading): RepeatedCounts {
  const print = countsFingerprint(reading);
  return { print, count: print === same.print ? same.count + 1 : 1 };
}

/** Assessed beside the readings before it, of which only is known how many had the same counts. */
export function assess(limits: OwnReadingLimits | undefined, reading: TimedReading, repeats: Repeats): Assessment {
  const assessment = assessBeside(reading, limits ?? {}, [], repeats);
  // the clock is judged by the order of arrival
  return { ...assessment, unchecked: assessment.unchecked.filter((code) => code !== 'clock_backwards') };
}

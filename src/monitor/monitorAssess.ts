/**
 * A reading assessed beside the readings before it, of which a monitor remembers fingerprints only.
 */
import { requireFilledArray, requireObject, requireWithin } from '../checks.ts';
import { type Assessment, assessReading, defaultReadingLimits } from '../sampling/index.ts';
import { fingerprint } from './figures.ts';
import type { MonitorConfig, MonitorReading, MonitorState } from './monitorTypes.ts';

/** Beyond it no figure is one, and what is remembered of it would not be short. */
const largest = 1e12;

/** What `assessReading` does not ask of a reading: that what is remembered of it will be short. */
export function checkFigures(reading: MonitorReading): void {
  requireObject(reading.counts, 'reading.counts', 'counts as cumulativeCounts makes them');
  const [most] = requireFilledArray(reading.counts.perMl, 'reading.counts.perMl');
  if (!isShort(most)) requireWithin(most, 'reading.counts.perMl[0]', -largest, largest);
  const { others } = reading;
  if (others === undefined) return;
  requireObject(others, 'reading.others', 'figures by name');
  for (const name of Object.keys(others))
    if (!isShort(others[name])) requireWithin(others[name], `reading.others.${name}`, -largest, largest);
}

/** Asked first, so that no words are made for a figure that passes. */
function isShort(value: unknown): boolean {
  return typeof value === 'number' && value >= -largest && value <= largest;
}

/** How many readings running have had the figures of this one. */
export function sameAsBefore(state: MonitorState, reading: MonitorReading): MonitorState['same'] {
  const print = fingerprint(reading, false);
  return { print, count: print === state.same.print ? state.same.count + 1 : 1 };
}

/** Assessed beside the readings before it, of which only is known how many were the same. */
export function assess(config: MonitorConfig, state: MonitorState, reading: MonitorReading, same: number): Assessment {
  const limit = config.limits?.stuckReadings;
  const stuckReadings = limit === undefined ? defaultReadingLimits.stuckReadings : limit;
  const earlier: MonitorReading[] = [];
  if (stuckReadings !== null && same >= stuckReadings) while (earlier.length < stuckReadings - 1) earlier.push(reading);
  const assessment = assessReading(reading, config.limits, earlier);
  const enough = stuckReadings !== null && state.counted.inOrder + 1 >= stuckReadings;
  const unchecked = assessment.unchecked.filter(
    (code) => code !== 'clock_backwards' && !(enough && code === 'values_stuck'),
  );
  return { ...assessment, unchecked };
}

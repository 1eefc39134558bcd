/**
 * Readings come late, twice, or out of order: each is recognised by its time among the last sixteen, and none goes
 * unmentioned.
 */
import { fingerprint } from '../judging/fingerprint.ts';
import type { TimedReading } from '../reading/reading.ts';
import type { MonitorState } from './types.ts';

/** How many readings a state knows again. */
export const remembered = 16;

/** The readings remembered: time and fingerprint, oldest first. */
export type Recent = NonNullable<MonitorState['recent']>;

/** Before the first reading. */
export const noneRecent: Recent = [];

/**
 * How a reading has come, beside those before it; `contradicts` where its time was there already, with other figures.
 */
export interface Come {
  readonly kind: 'in_order' | 'late' | 'repeated' | 'too_late';
  readonly contradicts: boolean;
  readonly print: number;
}

/** Compares with the readings remembered. The reading has been checked. */
export function comeOf(recent: Recent, reading: TimedReading): Come {
  const { time } = reading;
  const print = fingerprint(reading);
  const newest = recent[recent.length - 1];
  if (newest === undefined || time > newest[0]) return { kind: 'in_order', contradicts: false, print };
  for (const [before, beforePrint] of recent)
    if (before === time) return { kind: 'repeated', contradicts: beforePrint !== null && beforePrint !== print, print };
  const oldest = recent[0] as Recent[number];
  const beyond = recent.length === remembered && time < oldest[0];
  return { kind: beyond ? 'too_late' : 'late', contradicts: false, print };
}

/** The last readings with one among them that is not there yet. */
export function withReading(recent: Recent, time: number, print: number): Recent {
  let place = recent.length;
  while (place > 0 && (recent[place - 1] as Recent[number])[0] > time) place -= 1;
  const first = recent.length === remembered ? 1 : 0;
  return [...recent.slice(first, place), [time, print], ...recent.slice(Math.max(first, place))];
}

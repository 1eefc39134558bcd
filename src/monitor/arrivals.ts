/**
 * Readings come late, twice, or out of order: each is recognised by its time among the last sixteen, and none goes unmentioned.
 */

import { fingerprint } from '../judging/fingerprint.ts';
import type { TimedReading } from '../reading/reading.ts';
import type { MonitorState, Verdict } from './types.ts';

/** How many readings a state knows again. */
export const remembered = 16;

/** How a reading has come, beside those before it; `contradicts` where its time was there already, with other figures. */
export interface Arrival {
  readonly kind: Verdict['arrival'];
  readonly contradicts: boolean;
  /** The last readings with this one among them. */
  readonly recent: MonitorState['recent'];
}

/** Whether it is newer than all readings remembered. */
export function comesInOrder({ recent }: MonitorState, { time }: TimedReading): boolean {
  const newest = recent[recent.length - 1];
  return newest === undefined || time > newest[0];
}

/** Compares with the readings remembered. The reading has been checked. */
export function arrivalOf(state: MonitorState, reading: TimedReading): Arrival {
  const { time } = reading;
  const { recent } = state;
  const print = fingerprint(reading);
  if (comesInOrder(state, reading)) {
    return { kind: 'in order', contradicts: false, recent: recent.slice(1 - remembered).concat([[time, print]]) };
  }
  for (const [before, beforePrint] of recent) {
    if (before === time) return { kind: 'repeated', contradicts: beforePrint !== print, recent };
  }
  const oldest = recent[0];
  if (recent.length === remembered && time < (oldest as readonly [number, number])[0])
    return { kind: 'too late', contradicts: false, recent };
  let place = recent.length;
  while (place > 0 && (recent[place - 1] as readonly [number, number])[0] > time) place -= 1;
  const entry: readonly [number, number] = [time, print];
  const merged = recent.slice(0, place).concat([entry], recent.slice(place)).slice(-remembered);
  return { kind: 'late', contradicts: false, recent: merged };
}

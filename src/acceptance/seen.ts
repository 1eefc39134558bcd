/**
 * Whether a reading has come before: a queue that gives old ones again shows no clock set back, and proves nothing
 * twice.
 */
import { fingerprint } from '../judging/fingerprint.ts';
import { packWhole } from '../state/packed.ts';
import { seenPrintChars as chars, seenChars } from './rules.ts';
import type { AcceptanceReading } from './types.ts';

const two32 = 4294967296;

/**
 * A reading by its time, its volume counter and all its figures, in five characters: one in 2^32 of others has the
 * same.
 */
function printOf(reading: AcceptanceReading): string {
  const { time, litres = 0 } = reading;
  const counter = Math.floor(litres * 1000) % two32;
  return packWhole((fingerprint(reading) + (time % two32) + two32 + counter) % two32, chars);
}

/** Whether it is one of the last 32. */
export function isSeen(seen: string, reading: AcceptanceReading): boolean {
  const print = printOf(reading);
  for (let at = 0; at < seen.length; at += chars) if (seen.slice(at, at + chars) === print) return true;
  return false;
}

/** The last 32, this one among them. */
export function withSeen(seen: string, reading: AcceptanceReading): string {
  return (seen + printOf(reading)).slice(-seenChars);
}

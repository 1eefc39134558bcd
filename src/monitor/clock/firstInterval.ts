/**
 * A first interval that no other comes near to is no interval of the readings: one reading when the sensor was fitted,
 * and the others from the day it was put to work. It is forgotten once it shows.
 */
import { usualAfter } from '../../state/usual.ts';
import type { Draft } from '../passing.ts';

/** After so many readings it is looked for, once; it is more than so many times as long as all others (our choice). */
const looked = 8;
const odd = 8;

/** Takes an odd first interval out of what is usual for readings, alarms and targets, after a reading in order. */
export function forgetOddFirst(next: Draft): void {
  const { arrivals, recent, usualMs } = next;
  if (arrivals.inOrder !== looked || recent === undefined || recent.length !== looked || usualMs === undefined) return;
  const times = recent.map(([time]) => time);
  let longest = 0;
  let usual: number | null = null;
  for (let i = 2; i < looked; i += 1) {
    const interval = (times[i] as number) - (times[i - 1] as number);
    longest = Math.max(longest, interval);
    usual = usualAfter(usual, interval);
  }
  if (usual === null || (times[1] as number) - (times[0] as number) <= odd * longest) return;
  const learned = usual;
  // what has come with the readings has learned the same
  const forgetting = <One extends { readonly usualMs?: number }>(one: One): One =>
    one.usualMs === usualMs ? { ...one, usualMs: learned } : one;
  next.usualMs = learned;
  next.alarms = next.alarms.map(forgetting);
  if (next.targets !== undefined) next.targets = next.targets.map(forgetting);
}

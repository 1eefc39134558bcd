/**
 * How many particles of its smallest size a unit usually has, and how much oil has come since in which there was none:
 * a counter that has died gives zeros, and so does oil that is clean enough. Only the unit's own level tells them
 * apart.
 */
import type { CumulativeCounts } from '../counts/types.ts';
import { oilCounted } from './counted.ts';
import type { Reading } from './reading.ts';

/**
 * Particles counted and the oil they were counted in, mL, of the last hundred particles or so, of four readings at
 * least; and the oil since without a particle. Three digits each, the last five: it grows by one reading at a time.
 */
export type Level = readonly [particles: number, ml: number, emptyMl: number];

/** Particles above this size, in µm, are too few to tell by (our choice). */
const smallestAtMost = 6;
/** So many particles are remembered, where one reading has fewer than a quarter of them (our choice). */
const remembered = 100;
/** What a reading before weighs at least (our choice). */
const kept = 3 / 4;
/** And where fewer came than the level says, by more than the root of twice its variance: oil that is cleaned. */
const keptOfMore = 1 / 2;
/** None of the three is more, so that it stays short. */
export const mostLevel = 1e9;

const nothingYet: Level = [0, 0, 0];

/** The level after one more reading with counts; a run of empty ones counts when it has ended, as one. */
export function levelAfter(before: Level | undefined, reading: Reading, counts: CumulativeCounts): Level | undefined {
  const { sizes, perMl } = counts;
  if (reading.mlPerMin === 0 || (sizes[0] as number) > smallestAtMost) return before;
  const oil = oilCounted(reading, counts) ?? 1;
  const { 0: particles, 1: ml, 2: emptyMl } = before ?? nothingYet;
  const first = perMl[0] as number;
  const since = emptyMl + oil;
  if (first === 0) return isEmpty(perMl) ? [particles, ml, short(since, since < 1 ? 100 : 10000)] : before;
  const counted = first * oil;
  const expected = ml > 0 ? (particles / ml) * since : 0;
  const isCleaner = expected > counted && (expected - counted) * (expected - counted) > 2 * expected;
  const share = isCleaner ? keptOfMore : Math.max(kept, 1 - counted / remembered);
  return [short(share * particles + counted), short(share * ml + since), 0];
}

/** Whether no particle was counted at any size. */
export function isEmpty(perMl: readonly number[]): boolean {
  for (let i = 0; i < perMl.length; i += 1) if (perMl[i] !== 0) return false;
  return true;
}

/** Three digits, of a number of 0 or more; or as many as the least whole number with them says. */
export function short(value: number, least = 100): number {
  if (value < 1e-9) return 0;
  if (value >= mostLevel) return mostLevel;
  let scale = 1;
  while (value * scale < least) scale *= 10;
  let down = 1;
  while (value / down >= 10 * least) down *= 10;
  return scale > 1 ? Math.floor(value * scale + 0.5) / scale : Math.floor(value / down + 0.5) * down;
}

/**
 * How many particles of its smallest size a unit usually has, and how much oil has come since in which there was none,
 * or hardly any: a counter that has died gives zeros and a pulse of noise now and then, and so does oil that is clean
 * enough. The unit's own level tells them apart, and the next size: noise has none there.
 */
import type { CumulativeCounts } from '../../counts/types.ts';
import { oilCounted } from '../counted.ts';
import type { Reading } from '../reading.ts';

/**
 * Particles counted and the oil they were counted in, mL, of the last hundred particles or so, of four readings at
 * least; and the oil since without a particle. Where far fewer particles come than the level says, each takes off the
 * oil that has as many when it is `farBelow` times cleaner. Three digits each, the last five: it grows by one reading
 * at a time.
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
/** One reading shows at most so many times what the level says, and some more: a burst makes no level (our choice). */
const most = { times: 2, more: 20 };
/** Far below is what is so many times less than the level (our choice: six classes of ISO 4406). */
const farBelow = 64;
/** Before so many readings no count is far below (our choice): the first may be of bubbles. */
const settled = 4;
/** So many standard deviations the level may have been taken too high by chance (our choice). */
const deviations = 3;
/** Where no raw counts are given, a count may have been so much more per mL (our choice). */
export const leastShown = 1;
/** So many of the next size are no noise, in one reading or in several (our choice). */
const enoughOfNext = 20;
/** At most so many of the smallest size stand for one of the next (our choice). */
const mostForOne = 100;
/** None of the three is more, so that it stays short. */
export const mostLevel = 1e9;

const nothingYet: Level = [0, 0, 0];

/**
 * The level after one more reading with counts, of so many known; a run of empty ones counts when it has ended, as one.
 * As long as far fewer particles come, the level stays.
 */
export function levelAfter(
  before: Level | undefined,
  reading: Reading,
  counts: CumulativeCounts,
  known: number,
): Level | undefined {
  const { sizes, perMl } = counts;
  if (reading.mlPerMin === 0 || (sizes[0] as number) > smallestAtMost) return before;
  const oil = oilCounted(reading, counts) ?? 1;
  const { 0: particles, 1: ml, 2: emptyMl } = before ?? nothingYet;
  const first = perMl[0] as number;
  const since = emptyMl + oil;
  if (first === 0) return isEmpty(perMl) ? [particles, ml, shortOil(since)] : before;
  // per mL, and of how much oil nobody knows: noise shows none of the next size
  const isShown = perMl.length < 2 || (counts.counted === undefined && (perMl[1] as number) >= leastShown);
  const next = isShown ? Infinity : (perMl[1] as number) * oil;
  if (known > settled && next < enoughOfNext && leastPerMl(particles, ml) > 0) {
    const missing = since - (farBelow * signsOf(counts, oil)) / leastPerMl(particles, ml);
    // each of the next size takes off a part of the level: one that was never the unit's own is forgotten
    if (missing > 0) return [short(particles * (1 - next / enoughOfNext)), ml, shortOil(missing)];
  }
  const expected = ml > 0 ? (particles / ml) * since : Infinity;
  const counted = Math.min(first * oil, most.times * expected + most.more);
  const isCleaner = ml > 0 && expected > counted && (expected - counted) * (expected - counted) > 2 * expected;
  const share = isCleaner ? keptOfMore : Math.max(kept, 1 - counted / remembered);
  return [short(share * particles + counted), short(share * ml + since), 0];
}

/** The fewest particles per mL that a level stands for; 0 or less where it has too few particles to tell. */
export function leastPerMl(particles: number, ml: number): number {
  return ml > 0 ? (particles - deviations * Math.sqrt(particles)) / ml : 0;
}

/**
 * How many particles of the smallest size a reading stands for at most. Noise has none of the next size, and any dirt
 * has at least (s1 / s2)^8 of the smallest.
 */
function signsOf({ sizes, perMl, counted }: CumulativeCounts, oil: number): number {
  const ratio = (sizes[1] as number) / (sizes[0] as number);
  const squared = ratio * ratio;
  const forOne = Math.min(squared * squared * squared * squared, mostForOne);
  const shown = (perMl[0] as number) + (counted === undefined ? leastShown : 0);
  return (shown + forOne * (perMl[1] as number)) * oil;
}

function shortOil(ml: number): number {
  return short(ml, ml < 1 ? 100 : 10000);
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

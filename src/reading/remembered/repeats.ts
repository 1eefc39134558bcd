/**
 * What is remembered of the readings before one: plain data, as large as one reading however many came.
 * `advanceRepeats` takes one reading in; who keeps a state keeps this in it.
 */
import { sizings } from '../../counts/checkCounts.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { splitWords } from '../../numeric/powersOfTwo.ts';
import { packInFour, packWhole, standsAt, wholeAt } from '../../state/packed.ts';
import { day, minute } from '../../state/timeSteps.ts';
import type { Writable } from '../../state/writable.ts';
import type { Reading } from '../reading.ts';
import { type Level, levelAfter } from './level.ts';
import { type SteadyFigure, steadyAfter } from './steady.ts';
import { type Tail, tailAfter } from './tail.ts';

/** The last counts, and how often they have come again. */
export interface Repeats {
  /** How many readings with counts have come, up to 99999. */
  readonly known: number;
  /** The last time of a reading, and the one before it; null where there is none. */
  readonly time: number | null;
  readonly before: number | null;
  /**
   * By what the sizes with their sizing, and the last count at each, are known again: four characters a count, one in
   * 68 million of others has the same. The last two bits of `sizes` are the sizing.
   */
  readonly sizes: number;
  readonly perMl: string;
  /** For how many consecutive readings each size has had its count, up to 999. */
  readonly runs: readonly number[];
  /** The day, since 1970, since which readings are known; left out where they have no time. */
  readonly sinceDay?: number;
  /** Temperature and water: the last value, and how it has repeated. */
  readonly steady?: { readonly celsius?: SteadyFigure; readonly waterSaturation?: SteadyFigure };
  readonly flow?: FlowCourse;
  /** How often in succession each pair of neighbouring sizes has had one count, packed; left out where none has. */
  readonly equal?: string;
  readonly level?: Level;
  readonly tail?: Tail;
  /** How long before the last time the counts came that may still be of one measurement, ms; left out where then. */
  readonly age?: number;
  /** Of a state of 0.1.0, until counts come: what it knew the last ones again by, and how often they had come. */
  readonly same?: readonly [print: number, readings: number];
}

/**
 * The last flow (where oil stands, the one before with its sign turned, 0 where none is known), its mean swing from
 * reading to reading over the last eight or so, and for how long it has run: since it was `seen` to begin, or for so
 * long at least (`ran`) where that was not seen. Where it runs one of the two stands, or none yet.
 */
export interface FlowCourse {
  readonly last: number;
  readonly swing: number;
  readonly swings: number;
  readonly seen?: FlowRun;
  readonly ran?: FlowRun;
  /**
   * How long before flow was first `seen` none was told, ms: within this time it began. Left out where that is not
   * known, and with an age, so that a state grows no longer.
   */
  readonly gap?: number;
  /** How long before the last time the flow was told, ms; left out where then. */
  readonly age?: number;
}

/** How long flow has been told, ms, and the oil that has passed at least, thousandths of mL. Both end at a bound. */
export type FlowRun = readonly [ms: number, microlitres: number];

/** Where neither is known yet. */
export const notRun: FlowRun = [0, 0];

/** A hundred litres: no line of a sensor holds more. */
export const mostMicrolitres = 99999999;

/** Runs of counts end here: where more repeats are required, a run says nothing. */
export const longestRun = 999;
const mostKnown = 99999;

export const noRepeats: Repeats = { known: 0, time: null, before: null, sizes: 0, perMl: '', runs: [] };

/**
 * Takes in the next reading in order, which has passed the gate. `usualMs`: how far apart readings usually are, as far
 * as that is known before it.
 */
export function advanceRepeats(repeats: Repeats, reading: Reading, usualMs: number | null = null): Repeats {
  const { counts } = reading;
  const time = reading.time ?? repeats.time;
  const before = reading.time === undefined ? repeats.before : repeats.time;
  const from = repeats.time === null ? null : repeats.time - (repeats.age ?? 0);
  let next: Draft = counts === undefined ? { ...repeats, time, before } : withCounts(repeats, counts, { time, before });
  const same = counts !== undefined && isSameMeasurement(next, reading, from);
  if (same) next = { ...repeats, time, before };
  if (same || (counts === undefined && repeats.known > 0)) withAge(next, from, time);
  if (repeats.sinceDay !== undefined) next.sinceDay = repeats.sinceDay;
  else if (time !== null) next.sinceDay = Math.floor(time / day);
  const steady = steadyOf(repeats, reading);
  if (steady !== undefined) next.steady = steady;
  const flow = flowAfter(repeats.flow, reading, repeats.time, time, usualMs);
  if (flow !== undefined) next.flow = flow;
  if (counts === undefined || same) return next;
  if (hasEqual(counts.perMl)) next.equal = equalAfter(repeats.equal, counts.perMl);
  const alike = next.sizes === repeats.sizes;
  const level = levelAfter(alike ? repeats.level : undefined, reading, counts, next.known);
  if (level !== undefined) next.level = level;
  const tail = tailAfter(alike ? repeats.tail : undefined, reading, counts);
  if (tail !== undefined) next.tail = tail;
  return next;
}

/** Whether the last counts are of another sizing than those remembered before. */
export function isSizedAnew(before: Repeats, { sizes }: Repeats): boolean {
  return before.known > 0 && ((before.sizes ^ sizes) & 3) !== 0;
}

/** All the days there are. */
export const mostDays = 2e8;

/** The same by a clock that has been set ahead by so many ms: what came before has no time that could be compared. */
export function movedRepeats(repeats: Repeats, by: number): Repeats {
  const moved: Draft = { ...repeats, time: null, before: null };
  if (repeats.sinceDay !== undefined)
    moved.sinceDay = Math.max(-mostDays, repeats.sinceDay + Math.floor(by / day + 0.5));
  return moved;
}

type Draft = Writable<Repeats>;

function withCounts(
  repeats: Repeats,
  { sizing, sizes: at, perMl }: CumulativeCounts,
  { time, before }: Pick<Repeats, 'time' | 'before'>,
): Draft {
  let sizes = at.length;
  for (let i = 0; i < at.length; i += 1) sizes = remainder(sizes * 31 + printOf(at[i] as number));
  sizes = (sizes & ~3) | sizings.indexOf(sizing);
  const alike = sizes === repeats.sizes && repeats.runs.length === perMl.length;
  const runs: number[] = [];
  let prints = '';
  for (let i = 0; i < perMl.length; i += 1) {
    const print = packInFour(printOf(perMl[i] as number));
    prints += print;
    const again = alike && standsAt(repeats.perMl, print, printChars * i);
    runs.push(again ? Math.min((repeats.runs[i] as number) + 1, longestRun) : 1);
  }
  return { known: Math.min(repeats.known + 1, mostKnown), time, before, sizes, perMl: prints, runs };
}

/**
 * Whether counts that all came again are still those of one measurement: no other can have ended within the time it
 * takes.
 */
function isSameMeasurement({ runs }: Draft, { time, measuringSeconds }: Reading, from: number | null): boolean {
  if (runs.indexOf(1) >= 0 || time === undefined || measuringSeconds === undefined || from === null) return false;
  return time >= from && time - from < 1000 * measuringSeconds;
}

function steadyOf(repeats: Repeats, reading: Reading): Repeats['steady'] {
  const celsius = steadyAfter(repeats, repeats.steady?.celsius, reading.celsius);
  const waterSaturation = steadyAfter(repeats, repeats.steady?.waterSaturation, reading.waterSaturation);
  if (celsius === undefined) return waterSaturation === undefined ? undefined : { waterSaturation };
  return waterSaturation === undefined ? { celsius } : { celsius, waterSaturation };
}

/** Each swing weighs a quarter of the mean. */
const swingShare = 4;

/** A pump pulsates within minutes; between readings further apart the oil may have become warm (our choice). */
const pulsatesWithinMs = 900000;

/** Where no flow was told for so many usual intervals and more than a minute, the pump may have stood (our choice). */
const silentAfter = 4;

/** More swings say no more. */
const mostSwings = 9;

/** The flow beside the one before; one that stops, or begins again, is no swing. Rounded, so that it stays short. */
function flowAfter(
  before: FlowCourse | undefined,
  { mlPerMin, time }: Reading,
  lastTime: number | null,
  now: number | null,
  usualMs: number | null,
): FlowCourse | undefined {
  const told = before === undefined || lastTime === null ? null : lastTime - (before.age ?? 0);
  if (mlPerMin === undefined) {
    if (before === undefined) return before;
    const aged: Writable<FlowCourse> = withAge({ ...before }, told, now);
    if (aged.age !== undefined) delete aged.gap;
    return aged;
  }
  const next: Writable<FlowCourse> = { last: mlPerMin, swing: 0, swings: 0 };
  if (before === undefined) return next;
  if (mlPerMin === 0) return { ...next, last: before.last > 0 ? -before.last : before.last };
  const { last, seen, gap } = before;
  const waited = time === undefined || told === null ? null : time - told;
  if (last <= 0) {
    next.seen = notRun;
    if (waited !== null && waited > 0 && waited <= mostAge) next.gap = waited;
    return next;
  }
  if (waited === null || waited <= pulsatesWithinMs) {
    const swing = (2 * Math.abs(mlPerMin - last)) / (mlPerMin + last);
    next.swings = Math.min(before.swings + 1, mostSwings);
    const share = Math.min(next.swings, swingShare);
    next.swing = Math.floor((before.swing + (swing - before.swing) / share) * 10000 + 0.5) / 10000;
  }
  const longest = usualMs === null ? pulsatesWithinMs : Math.max(minute, silentAfter * usualMs);
  if (waited === null || waited < 0 || waited > longest) return next;
  const { 0: ms, 1: microlitres } = seen ?? before.ran ?? notRun;
  const passed = Math.floor((Math.min(last, mlPerMin) * waited) / 60 + 0.5);
  const run = [Math.min(ms + waited, mostAge), Math.min(microlitres + passed, mostMicrolitres)] as const;
  if (seen === undefined) next.ran = run;
  else next.seen = run;
  if (gap !== undefined) next.gap = gap;
  return next;
}

/** No age is longer: beyond 11 days nothing is compared. */
export const mostAge = 999999999;

/** With the time that has passed since, where it is known. */
function withAge<T extends { age?: number }>(one: T, from: number | null, now: number | null): T {
  if (from !== null && now !== null && now > from) one.age = Math.min(now - from, mostAge);
  else if (one.age !== undefined) delete one.age;
  return one;
}

/** Three pairs in a character. */
const pairsInOne = [1, 4, 16];
const longestEqual = 3;

/** One more where a pair is equal again, else 0. */
function equalAfter(before: string | undefined, perMl: readonly number[]): string {
  let text = '';
  let whole = 0;
  for (let i = 1; i < perMl.length; i += 1) {
    const pair = i - 1;
    if (perMl[i] === perMl[i - 1] && perMl[i] !== 0)
      whole += (pairsInOne[pair % 3] as number) * Math.min(equalRun(before, pair) + 1, longestEqual);
    if (pair % 3 < 2 && i < perMl.length - 1) continue;
    text += packWhole(whole, 1);
    whole = 0;
  }
  return text;
}

/** In how many consecutive readings a pair of neighbouring sizes has had one count, up to three. */
export function equalRun(equal: string | undefined, pair: number): number {
  const place = Math.floor(pair / 3);
  if (equal === undefined || place >= equal.length) return 0;
  return Math.floor(wholeAt(equal, place, 1) / (pairsInOne[pair % 3] as number)) % 4;
}

function hasEqual(perMl: readonly number[]): boolean {
  for (let i = 1; i < perMl.length; i += 1) if (perMl[i] === perMl[i - 1] && perMl[i] !== 0) return true;
  return false;
}

/** 91^4. */
const mostPrint = 68574961;
const inverse = 1 / mostPrint;
export const printChars = 4;

/** A whole number that stands for a count or a size of 0 or more: its fraction is spread over all of it. */
function printOf(value: number): number {
  if (value === 0) return 0;
  const { exponent, upper, lower } = splitWords(value);
  // in halves of 26 bits
  const first = upper * 64 + (lower >>> 26);
  const sum = remainder(first * 40503 + (lower & 67108863) * 30011) + (exponent + 1075) * 7919;
  return sum < mostPrint ? sum : sum - mostPrint;
}

/** The remainder of a whole number below 2^43, whose quotient is exact enough. Many engines are slow at `%`. */
function remainder(whole: number): number {
  return whole - Math.floor(whole * inverse) * mostPrint;
}

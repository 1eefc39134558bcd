/**
 * How long a temperature or a water saturation stands: what is learned of it, and from when on its sensor has stopped.
 */
import { log } from '../../numeric/logarithm.ts';
import { day } from '../../state/timeSteps.ts';
import type { Writable } from '../../state/writable.ts';
import { usualStuckChance } from '../readingLimits.ts';
import { runFor } from './runFor.ts';

/**
 * A value, for how many consecutive readings it has stood, the longest such run that has ended and was learned, and how
 * many of all readings repeated.
 */
export interface SteadyFigure {
  readonly value: number;
  readonly run: number;
  readonly longest: number;
  readonly repeats: number;
  readonly readings: number;
  /** How many readings before this run the last one that was too long ended, up to 99999; left out where none did. */
  readonly ago?: number;
}

/** When the readings before came, as `Repeats` holds it. */
interface Times {
  readonly time: number | null;
  readonly before: number | null;
  readonly sinceDay?: number;
}

/** What is remembered of runs, at most; of more readings half is forgotten, and their share stays. */
export const mostSteady = 99999;

/**
 * A figure has no law of chance; how often its value comes again is learned, from this much to begin with (our choice).
 */
const learnedFrom = { readings: 10, repeats: 5 };
/**
 * Of figures that depend on the one before, chance is reckoned too small: a run must also be so many times the longest
 * that was learned.
 */
const timesLongest = 2.5;

/** How many readings running with one value are too many. */
export function steadyLimit({ repeats, readings, longest }: SteadyFigure, stuckChance: number): number {
  const share = (repeats + learnedFrom.repeats) / (readings + learnedFrom.readings);
  return Math.max(runFor(stuckChance, log(share)), leastRun(longest));
}

function leastRun(longest: number): number {
  return Math.ceil(timesLongest * longest) + 1;
}

/**
 * At rest a temperature stands. How long a machine rests is seen when a week is over, and the weekend in it: 8 days. A
 * value that has never changed may be that of a machine not yet in use: 30 days (our choice).
 */
const restsSeenDays = 8;
const firstRunDays = 30;

/** Whether it is too early to say of a value that stands that its sensor does. */
export function mayBeAtRest({ time, sinceDay }: Times, { longest }: SteadyFigure): boolean {
  if (time === null || sinceDay === undefined) return false;
  return time / day - sinceDay < (longest === 0 ? firstRunDays : restsSeenDays);
}

/** The figure after a reading; `known`: what was known before it. */
export function steadyAfter(
  known: Times,
  before: SteadyFigure | undefined,
  value: number | undefined,
): SteadyFigure | undefined {
  if (value === undefined) return before;
  if (before === undefined) return { value, run: 1, longest: 0, repeats: 0, readings: 0 };
  const { run, longest, repeats, readings, ago } = before;
  // a run that has not ended yet is not learned from: a frozen sensor would teach that it repeats
  if (value === before.value) {
    const same: Writable<SteadyFigure> = { value, run: Math.min(run + 1, mostSteady), longest, repeats, readings };
    if (ago !== undefined) same.ago = ago;
    return same;
  }
  const tooLong = isTooLong(known, before);
  const kept = readings + run > mostSteady ? 0.5 : 1;
  const next: Writable<SteadyFigure> = {
    value,
    run: 1,
    longest: tooLong && !comesAgain(known, ago) ? Math.max(longest, 1) : Math.max(longest, run),
    repeats: Math.floor(kept * (repeats + run - 1)),
    readings: Math.ceil(kept * (readings + run)),
  };
  if (tooLong) next.ago = 0;
  else if (ago !== undefined && ago + run <= mostSteady) next.ago = ago + run;
  return next;
}

/** Whether a run that has ended was one that no sound sensor gives. */
function isTooLong(known: Times, figure: SteadyFigure): boolean {
  const { run, longest } = figure;
  if (run < leastRun(longest) || mayBeAtRest(known, figure)) return false;
  return run >= steadyLimit(figure, usualStuckChance);
}

/** Nor are more readings than these between two of them, where readings are rare (our choice). */
const fewReadings = 30;

/**
 * Whether such a run ended not long before this one began. A machine that has begun to rest for nights or weekends does
 * so again within the week; a sensor that has frozen once does not. Only what comes again is learned: else a frozen
 * sensor would teach that it may freeze.
 */
function comesAgain({ time, before }: Times, ago: number | undefined): boolean {
  if (ago === undefined) return false;
  if (ago <= fewReadings) return true;
  return time !== null && before !== null && time > before && ago * (time - before) <= restsSeenDays * day;
}

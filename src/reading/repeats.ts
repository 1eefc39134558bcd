/**
 * What is remembered of the readings before one: plain data, as large as one reading however many came. `advanceRepeats` takes one reading in;
 * who keeps a state keeps this in it.
 */
import type { Reading } from './reading.ts';

/** The last counts, and how often they have come again. */
export interface Repeats {
  /** How many readings with counts have come, up to 1e9. */
  readonly known: number;
  /** The last time of a reading, and the one before it; null where there is none. */
  readonly time: number | null;
  readonly before: number | null;
  /** The last counts, as they came, and for how many consecutive readings each size has had its count. */
  readonly sizes: readonly number[];
  readonly perMl: readonly number[];
  readonly runs: readonly number[];
}

const longestRun = 1e9;

/** Nothing has come yet. */
export const noRepeats: Repeats = { known: 0, time: null, before: null, sizes: [], perMl: [], runs: [] };

/** Takes in the next reading in order, which has passed the gate. */
export function advanceRepeats(repeats: Repeats, reading: Reading): Repeats {
  const { counts } = reading;
  const time = reading.time ?? repeats.time;
  const before = reading.time === undefined ? repeats.before : repeats.time;
  if (counts === undefined) return { ...repeats, time, before };
  const { sizes, perMl } = counts;
  const runs: number[] = [];
  const alike = sameList(sizes, repeats.sizes);
  for (let i = 0; i < sizes.length; i += 1) {
    const again = alike && perMl[i] === repeats.perMl[i];
    runs.push(again ? Math.min((repeats.runs[i] as number) + 1, longestRun) : 1);
  }
  return { known: Math.min(repeats.known + 1, longestRun), time, before, sizes, perMl, runs };
}

function sameList(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}

/**
 * Counts that never change are not measured: particles arrive at random.
 *
 * How often counts repeat by chance follows from how many particles were counted and how many digits are shown
 * (assess/repeatChance.ts). A run of repeats is called stuck only where it comes by chance more seldom than the limit
 * `stuckChance`; so counts that are shown coarsely, or clean oil with 4, 1 and 0 particles, need more repeats, and
 * zeros alone tell nothing. Nor does a count beyond the coincidence limit: a counter that is full stands there.
 *
 * Compared are the counts alone: a counter can freeze while its thermometer lives. All sizes, or some of them while
 * others move.
 */
import type { CumulativeCounts } from '../../counts/types.ts';
import { log } from '../../numeric/logarithm.ts';
import { longestRun, type Repeats } from '../remembered/repeats.ts';
import { runFor } from '../remembered/runFor.ts';
import { type Check, type Found, nothing } from './check.ts';
import { isBeyond } from './particles.ts';
import { repeatChances } from './repeatChance.ts';

/** Some channels can be chosen among many in many ways, so their run has to be as much rarer. */
const choices = 0.01;
/** A channel whose count comes again this often says nothing: more repeats would be required than are remembered. */
const sayingNothing = 0.975;

/** All counts the very same several times running. */
export const valuesStuck: Check = {
  codes: ['values_stuck'],
  find: ({ reading, limits: { stuckChance, coincidencePerMl }, repeats }) => {
    const { counts } = reading;
    if (counts === undefined || stuckChance === null || repeats === null || repeats.known < 2) return null;
    const run = shortest(repeats.runs);
    if (run < 2) return nothing;
    const chances = repeatChances(reading, counts);
    let logChance = 0;
    for (let i = 0; i < chances.length; i += 1) {
      const chance = chances[i] as number;
      if (chance < sayingNothing && !isBeyond(counts, i, coincidencePerMl)) logChance += log(chance);
    }
    const limit = runFor(stuckChance, logChance);
    if (run >= limit) return [{ code: 'values_stuck', value: run, limit }];
    return repeats.known < limit || limit > longestRun ? null : nothing;
  },
};

/** Some of the counts the very same while others move. */
export const channelsStuck: Check = {
  codes: ['channels_stuck'],
  find: ({ reading, limits: { stuckChance, coincidencePerMl }, repeats }) => {
    const { counts } = reading;
    if (counts === undefined || stuckChance === null || repeats === null) return null;
    if (repeats.known < 2 || counts.sizes.length < 2) return null;
    const least = shortest(repeats.runs);
    const most = longest(repeats.runs);
    if (most === least || most < fewest) return nothing;
    const chances = repeatChances(reading, counts);
    for (let i = 0; i < chances.length; i += 1) if (isBeyond(counts, i, coincidencePerMl)) chances[i] = 1;
    return stuckAmong(counts, repeats, chances, least, stuckChance * choices);
  },
};

/** A count that came once more may have done so by chance, whatever the chances say. */
const fewest = 3;

/** Of the channels with a run of so many or more, for each length of run: the first whose run is too rare. */
function stuckAmong(
  counts: CumulativeCounts,
  { runs }: Repeats,
  chances: readonly number[],
  least: number,
  limitChance: number,
): readonly Found[] {
  for (let first = 0; first < runs.length; first += 1) {
    const run = runs[first] as number;
    if (run <= least || run < fewest || runs.indexOf(run) < first) continue;
    let logChance = 0;
    const sizes: number[] = [];
    for (let i = 0; i < runs.length; i += 1) {
      const chance = chances[i] as number;
      if ((runs[i] as number) < run || chance >= sayingNothing) continue;
      logChance += log(chance);
      sizes.push(counts.sizes[i] as number);
    }
    const limit = runFor(limitChance, logChance);
    if (run >= limit) return [{ code: 'channels_stuck', value: run, limit, sizes, sizing: counts.sizing }];
  }
  return nothing;
}

function shortest(runs: readonly number[]): number {
  let least = Infinity;
  for (const run of runs) if (run < least) least = run;
  return least;
}

function longest(runs: readonly number[]): number {
  let most = 0;
  for (const run of runs) if (run > most) most = run;
  return most;
}

/** A counter that has died to zero or to a little noise, and one whose channel has. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { power } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import { oilCounted } from '../counted.ts';
import { isEmpty, leastPerMl, leastShown } from '../remembered/level.ts';
import { longestRun, type Repeats } from '../remembered/repeats.ts';
import { leastOf } from '../remembered/tail.ts';
import { type Check, nothing } from './check.ts';

/** So much cleaner may oil have become since the level of before was known (our choice: four classes of ISO 4406). */
const cleaned = 16;

/**
 * No particle at any size, or far fewer than by the unit's own level, in so much oil that even oil that was cleaned has
 * some. Where that cannot be told, or not yet, nothing is judged.
 */
export const noParticles: Check = {
  codes: ['no_particles'],
  find: ({ reading, limits: { stuckChance }, repeats }) => {
    const { counts, mlPerMin } = reading;
    if (counts === undefined || stuckChance === null || repeats === null || mlPerMin === 0) return null;
    const [particles, ml, emptyMl] = repeats.level ?? [0, 0, 0];
    const empty = isEmpty(counts.perMl);
    if (!empty && (emptyMl === 0 || counts.perMl[0] === 0)) return nothing;
    const least = leastPerMl(particles, ml) / cleaned;
    if (counts.counted === undefined && least < leastShown) return null;
    if (least * emptyMl < -log(stuckChance)) return null;
    const value = empty ? emptyMl : (oilCounted(reading, counts) ?? 1);
    return [{ code: 'no_particles', value, limit: (particles / ml) * value }];
  },
};

/**
 * The share of the next smaller size that any oil has at least: a power law of the size with this exponent. Of dusts
 * and of oils in service it is 1.5 to 7; behind a fine filter it may be higher (our choice).
 */
const steepest = 8;
/**
 * A channel is called empty within so many readings or not at all: oil may have lost the particles of a size for good,
 * and one reading may have many of the smaller size by chance (our choice).
 */
const mostReadings = 5;

/** No particle at a size and above it, where the next smaller size or the unit's own level makes some expected. */
export const channelEmpty: Check = {
  codes: ['channel_empty'],
  find: ({ reading, limits: { stuckChance }, repeats }) => {
    const { counts, mlPerMin } = reading;
    if (counts === undefined || stuckChance === null || repeats === null || mlPerMin === 0) return null;
    const { sizes, sizing, perMl } = counts;
    let place = perMl.length;
    while (place > 0 && perMl[place - 1] === 0) place -= 1;
    if (perMl.length < 2 || place === 0) return null;
    if (place === perMl.length) return nothing;
    const each = expectedOf(leastAt(place, counts, repeats), counts, oilCounted(reading, counts) ?? 1);
    const limit = each * Math.min(repeats.runs[place] as number, mostReadings);
    if (limit < -log(stuckChance)) return null;
    return [{ code: 'channel_empty', value: 0, limit, sizes: [sizes[place] as number], sizing }];
  },
};

/**
 * How many per mL are to be expected at least: by the unit's own level where it is known. By any oil where the size has
 * never had one, or where it died in the same reading as the one whose level is known.
 */
function leastAt(place: number, counts: CumulativeCounts, { known, runs, tail }: Repeats): number {
  const run = runs[place] as number;
  if (tail !== undefined && tail[0] === place) return leastOf(tail, counts);
  if (run < Math.min(known, longestRun) && (tail === undefined || tail[0] < place || runs[tail[0]] !== run)) return 0;
  const { sizes, perMl } = counts;
  const ratio = (sizes[place - 1] as number) / (sizes[place] as number);
  return (perMl[place - 1] as number) * power(ratio, steepest);
}

/**
 * How many particles a level makes expected where none is shown. Without raw counts a zero may be anything below
 * `leastShown`, and less is expected: Chernoff's bound of that.
 */
function expectedOf(level: number, counts: CumulativeCounts, oil: number): number {
  if (counts.counted !== undefined) return level * oil;
  return level <= leastShown ? 0 : (level - leastShown - leastShown * log(level / leastShown)) * oil;
}

/**
 * The largest size at which a unit has particles to tell by, and how many: a channel that has died gives zeros, and so
 * does oil that is clean enough at its size. What is left of the next smaller size tells them apart.
 */
import type { CumulativeCounts } from '../../counts/types.ts';
import { power } from '../../numeric/exponential.ts';
import { oilCounted } from '../counted.ts';
import type { Reading } from '../reading.ts';
import { isEmpty, short } from './level.ts';

/**
 * The place of the size; the fewest particles per mL it shows of late; and those of the next smaller size in the last
 * reading in which it had any. Three digits each.
 */
export type Tail = readonly [place: number, perMl: number, beside: number];

/** A size has enough particles to tell by from so many on, and as long as it has so many (our choice). */
const enough = { from: 20, keep: 5 };
/**
 * What is known of a size begins at this share of its count, and rises with each reading by a quarter of itself, so
 * that one burst of particles makes no level (our choice).
 */
const begin = 1 / 16;
const rise = 5 / 4;
/** So many times fewer may come all at once (our choice: two classes of ISO 4406). */
const fewer = 4;

/** What is known after one more reading with counts; as long as the size shows none, what was known before. */
export function tailAfter(before: Tail | undefined, reading: Reading, counts: CumulativeCounts): Tail | undefined {
  const { perMl } = counts;
  if (reading.mlPerMin === 0 || perMl.length < 2 || isEmpty(perMl)) return before;
  const known = before === undefined ? -1 : (perMl[before[0]] as number);
  if (known === 0) return before;
  const oil = oilCounted(reading, counts) ?? 1;
  const least = before !== undefined && known * oil >= enough.keep ? before[0] : 0;
  let place = perMl.length - 1;
  while (place > least && (perMl[place] as number) * oil < enough.from) place -= 1;
  if (place === 0) return undefined;
  const now = perMl[place] as number;
  const level = before !== undefined && before[0] === place ? Math.min(now, before[1] * rise) : now * begin;
  return [place, short(level), short(perMl[place - 1] as number)];
}

/**
 * How many per mL are to be expected at that size at least, by what is left of the next smaller one. Particles settle
 * with the square of their size (Stokes), and filters take the large ones first: oil that has lost some of the smaller
 * ones has lost more of these.
 */
export function leastOf([place, perMl, beside]: Tail, counts: CumulativeCounts): number {
  const smaller = counts.perMl[place - 1] as number;
  if (smaller === 0 || beside === 0) return 0;
  const size = (counts.sizes[place] as number) / (counts.sizes[place - 1] as number);
  return (perMl / fewer) * power(Math.min(1, smaller / beside), Math.min(size * size, 16));
}

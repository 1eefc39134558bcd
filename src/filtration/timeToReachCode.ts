/** When a tank is as clean as a code asks: every size has its own pace, and the slowest decides. */
import { requireFilledArray, requireObject, requirePositive } from '../checks.ts';
import { mayExceed } from '../codes/fewCounted.ts';
import type { CountBand, CountBands } from '../codes/index.ts';
import { perMlBetween } from '../counts/differential.ts';
import { requireUpperEnd } from '../counts/ranges.ts';
import { motescaleError } from '../errors.ts';
import { requireTargetCount } from './cleanUp.ts';
import { common, type Stretch, stretchesBetween, stretchesWithin } from './stretches.ts';
import { type Tank, type TankBySize, tanksOf } from './tank.ts';

/** One size, or one range of sizes, on the way to its limit. */
export interface SizeOnTheWay {
  readonly size: number;
  /** The upper end of a range. */
  readonly to?: number;
  /** Particles per mL that the code allows. */
  readonly upTo: number;
  /**
   * Minutes until the size is within its limit: 0 from the start, null never. Of a range, which may leave its limit and
   * come back: the beginning of the last time that it is kept.
   */
  readonly minutes: number | null;
  /**
   * Minutes after which ingression has carried a size that started within its limit above it again; of a range, the
   * end of that last time. Null: it stays, as it does where the limit is the steady state (within 1e-12 of it).
   */
  readonly heldUntil: number | null;
}

/** When a code is reached. */
export interface TimeToCode {
  /** Minutes until all sizes are within their limits at once: 0 from the start, null never. */
  readonly minutes: number | null;
  /** Minutes after which they no longer all are. Null: they stay, or were never. */
  readonly heldUntil: number | null;
  /** The size that decides: the last to arrive, or one that prevents it. Null where all are there from the start. */
  readonly slowestSize: number | null;
  /**
   * Sizes within their limit from the start as counted, perhaps not in truth: fewer than 20 particles were counted, and
   * their upper limit at 95 % is beyond it, as `meets` has it. Counts per mL without a volume say nothing of chance.
   */
  readonly uncertain: readonly number[];
  readonly sizes: readonly SizeOnTheWay[];
}

/**
 * Minutes of filtering until every size is within the limit that a code sets. Give the code as `limitsOf` reads it:
 * cleaner than asked is as good, so only the upper limits count.
 *
 * Assumptions as for `cleanUp`, and one filtration ratio and ingression for each size: reality takes longer. Take a
 * sample before the machine runs; it decides, not this. `minutes: 0` of few particles is not sure: see `uncertain`, and
 * count more oil. Sources: as `timeToReach`, size by size.
 *
 * The particles between two sizes, which a class per range counts (NAS 1638, AS4059 Table 1), may rise on the way, as
 * the smaller ones go slower than the larger: a limit kept at first may be left and kept again. Then the last time that
 * it is kept counts, from its beginning to its end. Every size that the code limits has to be counted; bands of sizes
 * that are not can be left out of `target`, and nothing is known of them.
 *
 * @throws `missing_size` where the code limits a size that the counts lack; `sizing_not_convertible`; `out_of_range`
 * for a range that ends before it begins; `empty` for a code without limits.
 *
 * @example
 * ```ts
 * import { iso4406, limitsOf } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { timeToReachCode } from 'motescale/filtration';
 * const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
 * const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };
 * const time = timeToReachCode(tank, limitsOf(iso4406, '16/14/11'));
 * time.minutes; // ~> 27.83
 * time.slowestSize; // => 4
 * ```
 */
export function timeToReachCode(tank: TankBySize, target: CountBands): TimeToCode {
  const tanks = tanksOf(tank);
  requireObject(target, 'target', 'limits of limitsOf', ['sizing', 'bands']);
  requireFilledArray(target.bands, 'target.bands', 'an array of bands');
  if (target.sizing !== tank.counts.sizing)
    throw motescaleError('sizing_not_convertible', 'target.sizing', target.sizing, `'${tank.counts.sizing}'`);
  const ways: Way[] = [];
  const uncertain: number[] = [];
  target.bands.forEach((band, i) => {
    const upTo = requireUpperLimit(band, `target.bands[${i}]`);
    if (upTo === null) return;
    const { from, to } = band;
    const place = placeOf(tank, from);
    const lower = tanks[place] as Required<Tank>;
    const end = to === null ? null : placeOf(tank, to);
    const stretches =
      end === null
        ? stretchesWithin(lower, upTo)
        : stretchesBetween(lower, tanks[end] as Required<Tank>, upTo, perMlBetween(tank.counts, place, end));
    ways.push({ size: from, to, upTo, stretches });
    if (stretches[0]?.from === 0 && mayExceed(tank.counts, { from: place, to: end }, upTo)) uncertain.push(from);
  });
  const sizes = ways.map(({ size, to, upTo, stretches }) => {
    const { from, until } = lastOf(stretches);
    return { size, ...(to !== null && { to }), upTo, minutes: from, heldUntil: until };
  });
  return { ...togetherOf(ways), uncertain, sizes };
}

/** A size or a range with its limit, and when it keeps it. */
interface Way {
  readonly size: number;
  readonly to: number | null;
  readonly upTo: number;
  readonly stretches: readonly Stretch[];
}

/** Where a size stands among those counted. */
function placeOf({ counts: { sizes } }: TankBySize, size: number): number {
  const place = sizes.indexOf(size);
  if (place < 0) throw motescaleError('missing_size', 'tank.counts.sizes', sizes, `counts at ${size} µm`);
  return place;
}

/** The last stretch in which all keep their limits, and the size that decides it. */
function togetherOf(ways: readonly Way[]): Omit<TimeToCode, 'sizes' | 'uncertain'> {
  let both: readonly Stretch[] = [{ from: 0, until: null }];
  for (const { stretches } of ways) both = common(both, stretches);
  const { from, until } = lastOf(both);
  if (from !== null) {
    const slowest = ways.filter(({ stretches }) => from > 0 && stretches.some((stretch) => stretch.from === from));
    return { minutes: from, heldUntil: until, slowestSize: slowest[0]?.size ?? null };
  }
  const leaves = ({ stretches }: Way) => (stretches.length === 0 ? -1 : (lastOf(stretches).until ?? Infinity));
  let decides = ways[0] as Way;
  for (const way of ways) if (leaves(way) < leaves(decides)) decides = way;
  return { minutes: null, heldUntil: null, slowestSize: decides.size };
}

function lastOf(stretches: readonly Stretch[]): { readonly from: number | null; readonly until: number | null } {
  return stretches[stretches.length - 1] ?? { from: null, until: null };
}

function requireUpperLimit(band: CountBand, parameter: string): number | null {
  requireObject(band, parameter, 'a band { from, to, above, upTo }', ['from', 'to', 'above', 'upTo']);
  const from = requirePositive(band.from, `${parameter}.from`);
  if (band.to !== null) requireUpperEnd(band.to, from, `${parameter}.to`);
  if (band.upTo === null) return null;
  return requireTargetCount(band.upTo, `${parameter}.upTo`);
}

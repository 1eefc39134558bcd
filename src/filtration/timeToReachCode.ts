/** When a tank is as clean as a code asks: every size has its own pace, and the slowest decides. */
import { requireFilledArray, requireObject, requirePositive } from '../checks.ts';
import type { CountBand, CountBands } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import { log1p } from '../numeric/logarithm.ts';
import { minutesTo, requireTargetCount } from './cleanUp.ts';
import { limitOf, settlesAbove } from './settling.ts';
import { cleaningRate, risingRate, type Tank, type TankBySize, tanksOf } from './tank.ts';

/** One size on the way to its limit. */
export interface SizeOnTheWay {
  readonly size: number;
  /** Particles per mL that the code allows. */
  readonly upTo: number;
  /** Minutes until the size is within its limit: 0 from the start, null never. */
  readonly minutes: number | null;
  /**
   * Minutes after which ingression has carried a size that started within its limit above it again. Null: it stays, as
   * it does where the limit is the steady state (within 1e-12 of it).
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
  readonly sizes: readonly SizeOnTheWay[];
}

/**
 * Minutes of filtering until every size is within the limit that a code sets. Give the code as `limitsOf` reads it:
 * cleaner than asked is as good, so only the upper limits count.
 *
 * Assumptions as for `cleanUp`, and one filtration ratio and ingression for each size: reality takes longer. Take a
 * sample before the machine runs; it decides, not this. Sources: as `timeToReach`, size by size.
 *
 * Codes that count particles of a size and larger only. A class per range (NAS 1638, AS4059 Table 1) falls and may rise
 * again on the way; ask for the ISO 4406 code that guarantees it (`guaranteeingCode`). **That code does not see the
 * ranges in its `unseen`, those above 14 µm(c), and the answer says nothing of them**: 0 minutes may come out for an
 * oil classes too dirty there. Where these sizes are counted, put a band for each upon those of the code: { from: 21,
 * to: null, above: 0, upTo: the limit of the range per mL }. As a range holds no more than there are of its smaller
 * size and larger, the answer is then on the safe side.
 *
 * @throws `missing_size` where the code limits a size that the counts lack; `sizing_not_convertible`; `not_convertible`
 * for ranges; `empty` for a code without limits.
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
  if (target.sizing !== tank.counts.sizing) {
    throw motescaleError('sizing_not_convertible', 'target.sizing', target.sizing, `'${tank.counts.sizing}'`);
  }
  const sizes: SizeOnTheWay[] = [];
  for (let i = 0; i < target.bands.length; i += 1) {
    const band = target.bands[i] as CountBand;
    const limit = requireUpperLimit(band, `target.bands[${i}]`);
    if (limit === null) continue;
    const place = tank.counts.sizes.indexOf(band.from);
    if (place < 0) {
      throw motescaleError('missing_size', 'tank.counts.sizes', tank.counts.sizes, `counts at ${band.from} µm`);
    }
    const single = tanks[place] as Required<Tank>;
    const minutes = minutesTo(single, limit);
    sizes.push({ size: band.from, upTo: limit, minutes, heldUntil: minutesWithin(single, limit) });
  }
  return { ...togetherOf(sizes), sizes };
}

function togetherOf(sizes: readonly SizeOnTheWay[]): Omit<TimeToCode, 'sizes'> {
  let minutes = 0;
  let slowestSize: number | null = null;
  let heldUntil: number | null = null;
  let firstToLeave: number | null = null;
  for (const { size, ...way } of sizes) {
    if (way.minutes === null) return { minutes: null, heldUntil: null, slowestSize: size };
    if (way.minutes > minutes) {
      minutes = way.minutes;
      slowestSize = size;
    }
    if (way.heldUntil !== null && (heldUntil === null || way.heldUntil < heldUntil)) {
      heldUntil = way.heldUntil;
      firstToLeave = size;
    }
  }
  if (heldUntil !== null && heldUntil < minutes) return { minutes: null, heldUntil: null, slowestSize: firstToLeave };
  return { minutes, heldUntil, slowestSize };
}

/** How long a tank that starts within the limit stays there; null for good, or where it does not start there. */
function minutesWithin(tank: Required<Tank>, limit: number): number | null {
  const room = limit - tank.perMl;
  if (room < 0 || !settlesAbove(tank, limit)) return null;
  const rate = cleaningRate(tank);
  return rate === 0 ? room / risingRate(tank) : log1p(room / (limitOf(tank) - limit)) / rate;
}

function requireUpperLimit(band: CountBand, parameter: string): number | null {
  requireObject(band, parameter, 'a band { from, to, above, upTo }', ['from', 'to', 'above', 'upTo']);
  if (band.to !== null) {
    const expected =
      'limits on particles of a size and larger; for a class per range the code of guaranteeingCode, which does not ' +
      'see the sizes in its unseen';
    throw motescaleError('not_convertible', `${parameter}.to`, band.to, expected);
  }
  requirePositive(band.from, `${parameter}.from`);
  if (band.upTo === null) return null;
  return requireTargetCount(band.upTo, `${parameter}.upTo`);
}

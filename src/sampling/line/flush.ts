/** How long a line must run until what leaves it is the oil of now, and not what stood in it. */
import { requireMeasure, requireObject, requireOneOf, requireShare, requireWithin } from '../../checks.ts';
import { requirePerMl } from '../../counts/ranges.ts';
import { displacement } from './displacement.ts';
import { leastFlow, mostFlow } from './line.ts';

/** What stood in the line, what is in the tank, and how far a count may be from that of the tank. */
export interface CarryOver {
  /** Particles per mL in the old oil, 0 to 1e12. */
  readonly linePerMl: number;
  /** Particles per mL of the same size in the oil wanted, 1e-9 to 1e12. */
  readonly tankPerMl: number;
  /** The share of the tank's count that the old oil may add or take away, 1e-6 to 1: 0.05 for 5 %. */
  readonly share: number;
}

/** How a line is renewed. */
export interface Flush {
  /** Time until what leaves the line is as new as asked for. */
  readonly seconds: number;
  /** The volume that takes, to be run to waste, mL. */
  readonly ml: number;
  /** When the first new oil arrives, at the earliest. */
  readonly firstSeconds: number;
  /** Old oil still in the line at `seconds`, mL: it creeps along the walls and leaves last. */
  readonly remainingMl: number;
}

const flushMembers = ['volumeMl', 'mlPerMin', 'renewal', 'profile', 'viscosityRatio', 'carryOver'];

/**
 * How long, and with how much oil, a line must be flushed until the share `renewal` of what leaves it is new, and until
 * what is old in it no longer shows in the count (`carryOver`).
 *
 * - `laminar` (where left out): oil on the axis runs twice as fast as the mean and arrives at half the mean transit
 *   time, oil at the wall comes late. With the mean time τ = volume / flow, the share of new oil at time t is 1 - (τ /
 *   2t)²: 95 % at 2.24 τ, 99 % at 5 τ. It holds for any number of segments one after another, τ being their sum; mixing
 *   in fittings makes it faster from a renewal of 0.9 on; below it may be slower.
 * - `plug`: all oil moves alike and is renewed at τ. True of no line; turbulent flow comes near.
 *
 * A renewal of 99 % is none of the count: 1 % of an oil that is 64 times as dirty (six scale numbers) adds 63 % to it.
 * `carryOver` asks for as much renewal as keeps that within a share: 1 - renewal = share x tank / |line - tank|. It
 * makes a flush longer, never shorter. The size at which line and tank differ most decides. After work on the line its
 * counts are a guess: guess high.
 *
 * All this holds where old and new oil are equally thick. Thin new oil runs through the middle of thick old oil and
 * leaves it standing at the wall: for 99 % it takes 5 volumes where both are alike, 6.4 where the old is 2.2 times as
 * thick (VG 100 driven out by VG 46), 9.0 at 7.2 times (a line at 8 °C flushed with oil at 42 °C), 11.1 at 20 times.
 * `viscosityRatio` asks for that: old oil's viscosity over new oil's. A cold line also warms up meanwhile, which is not
 * reckoned with and only helps; after a change of oil nothing does. It makes a flush longer, never shorter. New oil
 * that is the thicker drives the old out sooner: leave the ratio out and be on the safe side.
 *
 * Assumes no diffusion (none worth naming for particles) and no dead ends: what stands in a dead leg, a gauge line or a
 * filter bowl beside the flow is washed out far more slowly, and no formula tells when.
 *
 * Source: O. Levenspiel, Chemical Reaction Engineering, laminar flow; carry-over: a balance of particles upon it;
 * viscosity ratio: own derivation from Hagen-Poiseuille, two layers without mixing, checked by finite volumes.
 *
 * Safety: oil run to waste may be hot and under pressure; lead it back or catch it, and never flush into the open.
 *
 * @param line `volumeMl` from 1e-12 to 1e13 (as `lineFlow` gives it), `mlPerMin` from 1e-12 to 1e9, `renewal` above 0
 *   and below 1 (0.99 where left out), `viscosityRatio` from 1 to 1e9 (1 where left out; of no effect on `plug`),
 *   `carryOver` where the line may be dirtier than the tank
 * @throws `out_of_range`, also without flow, when a line is never renewed; `unknown_option` for another profile.
 *
 * @example
 * ```ts
 * import { flush } from 'motescale/sampling';
 * flush({ volumeMl: 25, mlPerMin: 100 }).seconds; // ~> 75.0
 * flush({ volumeMl: 25, mlPerMin: 100, renewal: 0.95 }).ml; // ~> 55.9
 * flush({ volumeMl: 25, mlPerMin: 100, profile: 'plug' }).seconds; // => 15
 * flush({ volumeMl: 25, mlPerMin: 100, viscosityRatio: 7.2 }).ml; // ~> 223.8
 * // a line at 30000 per mL, a tank at 500, and the count to be right within 5 %: 17 volumes
 * const carryOver = { linePerMl: 30000, tankPerMl: 500, share: 0.05 };
 * flush({ volumeMl: 25, mlPerMin: 100, carryOver }).ml; // ~> 429.4
 * ```
 */
export function flush(line: {
  readonly volumeMl: number;
  readonly mlPerMin: number;
  readonly renewal?: number;
  readonly profile?: 'laminar' | 'plug';
  /** Viscosity of the old oil in the line over that of the new, 1 to 1e9. */
  readonly viscosityRatio?: number;
  readonly carryOver?: CarryOver;
}): Flush {
  requireObject(line, 'line', 'a line { volumeMl, mlPerMin }', flushMembers);
  const volume = requireWithin(line.volumeMl, 'line.volumeMl', 1e-12, 1e13);
  const why = 'without flow a line is never renewed';
  const flow = requireWithin(line.mlPerMin, 'line.mlPerMin', leastFlow, mostFlow, why);
  const renewal = requireShare(line.renewal ?? 0.99, 'line.renewal');
  const profile = requireOneOf(line.profile ?? 'laminar', 'line.profile', ['laminar', 'plug']);
  const order = 'old oil over new; 1 where new oil is the thicker';
  const ratio = requireWithin(line.viscosityRatio ?? 1, 'line.viscosityRatio', 1, 1e9, order);
  const old = line.carryOver === undefined ? 1 : oldShare(line.carryOver);
  const mean = (volume / flow) * 60;
  if (profile === 'plug') return { seconds: mean, ml: volume, firstSeconds: mean, remainingMl: 0 };
  // the share of old oil leaving is s^2 with s = tau / 2t; what is left inside is its integral, V s / 2
  const share = Math.min(1 - renewal, old);
  if (ratio > 1) {
    const { time, first, remaining } = displacement(share, ratio);
    return { seconds: mean * time, ml: volume * time, firstSeconds: mean * first, remainingMl: volume * remaining };
  }
  const s = Math.sqrt(share);
  return { seconds: mean / (2 * s), ml: volume / (2 * s), firstSeconds: mean / 2, remainingMl: (volume * s) / 2 };
}

/** How much of what leaves the line may still be old; 1 and more where all of it may. */
function oldShare(carryOver: CarryOver): number {
  const members = ['linePerMl', 'tankPerMl', 'share'];
  requireObject(carryOver, 'line.carryOver', 'a carry-over { linePerMl, tankPerMl, share }', members);
  const dirt = requirePerMl(carryOver.linePerMl, 'line.carryOver.linePerMl');
  const wanted = requirePerMl(carryOver.tankPerMl, 'line.carryOver.tankPerMl', 1e-9);
  const share = requireMeasure(carryOver.share, 'line.carryOver.share', 1e-6, 1, 'a share');
  return (share * wanted) / Math.abs(dirt - wanted);
}

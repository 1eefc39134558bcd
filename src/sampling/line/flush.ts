/** How long a line must run until what leaves it is the oil of now, and not what stood in it. */
import { requireObject, requireOneOf, requireShare, requireWithin } from '../../checks.ts';
import { leastFlow, mostFlow } from './line.ts';

/** How a line is renewed. */
export interface Flush {
  /** Time until the share asked for of what leaves the line is new oil. */
  readonly seconds: number;
  /** The volume that takes, to be run to waste, mL. */
  readonly ml: number;
  /** When the first new oil arrives. */
  readonly firstSeconds: number;
  /** Old oil still in the line at `seconds`, mL: it creeps along the walls and leaves last. */
  readonly remainingMl: number;
}

/**
 * How long, and with how much oil, a line must be flushed until the share `renewal` of what leaves it is new.
 *
 * - `laminar` (where left out): oil on the axis runs twice as fast as the mean and arrives at half the mean transit
 *   time, oil at the wall comes late. With the mean time τ = volume / flow, the share of new oil at time t is 1 - (τ /
 *   2t)²: 95 % at 2.24 τ, 99 % at 5 τ. It holds for any number of segments one after another, τ being their sum; mixing
 *   in fittings only makes it faster.
 * - `plug`: all oil moves alike and is renewed at τ. True of no line; turbulent flow comes near.
 *
 * Assumes no diffusion (none worth naming for particles) and no dead ends: what stands in a dead leg, a gauge line or a
 * filter bowl beside the flow is washed out far more slowly, and no formula tells when.
 *
 * Source: O. Levenspiel, Chemical Reaction Engineering, laminar flow.
 *
 * Safety: oil run to waste may be hot and under pressure; lead it back or catch it, and never flush into the open.
 *
 * @param line `volumeMl` from 1e-12 to 1e13 (as `lineFlow` gives it), `mlPerMin` from 1e-12 to 1e9, `renewal` above 0
 *   and below 1 (0.99 where left out)
 * @throws `out_of_range`, also without flow, when a line is never renewed; `unknown_option` for another profile.
 *
 * @example
 * ```ts
 * import { flush } from 'motescale/sampling';
 * flush({ volumeMl: 25, mlPerMin: 100 }).seconds; // ~> 75.0
 * flush({ volumeMl: 25, mlPerMin: 100, renewal: 0.95 }).ml; // ~> 55.9
 * flush({ volumeMl: 25, mlPerMin: 100, profile: 'plug' }).seconds; // => 15
 * ```
 */
export function flush(line: {
  readonly volumeMl: number;
  readonly mlPerMin: number;
  readonly renewal?: number;
  readonly profile?: 'laminar' | 'plug';
}): Flush {
  requireObject(line, 'line', 'a line { volumeMl, mlPerMin }', ['volumeMl', 'mlPerMin', 'renewal', 'profile']);
  const volume = requireWithin(line.volumeMl, 'line.volumeMl', 1e-12, 1e13);
  const why = 'without flow a line is never renewed';
  const flow = requireWithin(line.mlPerMin, 'line.mlPerMin', leastFlow, mostFlow, why);
  const renewal = requireShare(line.renewal ?? 0.99, 'line.renewal');
  const profile = requireOneOf(line.profile ?? 'laminar', 'line.profile', ['laminar', 'plug']);
  const mean = (volume / flow) * 60;
  if (profile === 'plug') return { seconds: mean, ml: volume, firstSeconds: mean, remainingMl: 0 };
  // the share of old oil leaving is s^2 with s = tau / 2t; what is left inside is its integral, V s / 2
  const s = Math.sqrt(1 - renewal);
  return { seconds: mean / (2 * s), ml: volume / (2 * s), firstSeconds: mean / 2, remainingMl: (volume * s) / 2 };
}

/** Chance that is the same on every run: even shares from a seed, and normal and Poisson values made of them. */

/** Even shares from 0 to below 1 (mulberry32). */
export function shares(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A normal value of two shares (Box and Muller). */
export function normalOf(share: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - share())) * Math.cos(2 * Math.PI * share());
}

/** How many come where so many are expected; above 60 as a normal value, rounded. */
export function poissonOf(mean: number, share: () => number): number {
  if (mean > 60) return Math.max(0, Math.round(mean + Math.sqrt(mean) * normalOf(share)));
  let n = -1;
  for (let p = 1; p > Math.exp(-mean); p *= 1 - share()) n += 1;
  return Math.max(n, 0);
}

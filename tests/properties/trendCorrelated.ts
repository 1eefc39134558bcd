/** Series with memory, for tests and bench: the same on every run. */

/** Even shares and normal values from a seed (mulberry32; polar method of Marsaglia). */
export function draws(seed: number): { share: () => number; normal: () => number } {
  let state = seed >>> 0;
  let spare: number | null = null;
  const share = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * share() - 1;
      const y = 2 * share() - 1;
      const r = x * x + y * y;
      if (r >= 1 || r === 0) continue;
      const f = Math.sqrt((-2 * Math.log(r)) / r);
      spare = y * f;
      return x * f;
    }
  };
  return { share, normal };
}

/** A series of standard deviation 1 in which neighbours have this correlation. */
export function withMemory(normal: () => number, n: number, correlation: number): number[] {
  const fresh = Math.sqrt(1 - correlation * correlation);
  const values = [normal()];
  while (values.length < n) values.push(correlation * (values[values.length - 1] as number) + fresh * normal());
  return values;
}

/**
 * What a counter gives of one oil, reading after reading: particles by the law of Poisson, so that no count stands
 * still. A counter of which two sizes are dead is the dear case: each reading then asks by what chance they stand.
 */
import { type CumulativeCounts, cumulativeCounts } from '../src/counts/index.ts';
import { poissonOf, shares } from '../tests/chance.ts';

/** Particles in 10 mL from each size to the next. */
const between = { 4: 13980, 6: 3690, 14: 230, 21: 80, 38: 13, 70: 7 };
export const volumeMl = 10;

type Sample = Readonly<Record<number, number>>;

function drawn(dead: readonly number[]): readonly Sample[] {
  const share = shares(7);
  return Array.from({ length: 256 }, () => {
    const sample: Record<number, number> = {};
    let beyond = 0;
    for (const [size, mean] of Object.entries(between).reverse()) {
      beyond += dead.includes(Number(size)) ? mean : poissonOf(mean, share);
      sample[Number(size)] = beyond;
    }
    return sample;
  });
}

/** Particles in `volumeMl` at each size and larger. */
export const particles: readonly Sample[] = drawn([]);

/** The next of them at each call, without end. */
export function source(dead: readonly number[] = []): () => CumulativeCounts {
  const samples = drawn(dead).map((sample) => cumulativeCounts(sample, { volumeMl }));
  let n = 0;
  return () => {
    n = (n + 1) % samples.length;
    return samples[n] as CumulativeCounts;
  };
}

// Random numbers from a seed, the same each time: whole-number arithmetic and additions, but for one `exp`.

/** Uniform numbers below 1, 32 bits each: a counter whose bits are mixed. */
export function randomFrom(seed) {
  let counter = seed * 0x9e3779b9;
  return () => {
    counter = (counter + 0x6d2b79f5) | 0;
    let mixed = Math.imul(counter ^ (counter >>> 15), counter | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** About normal, mean 0 and deviation 1: four uniform numbers added up. */
export function normal(random) {
  return (random() + random() + random() + random() - 2) * Math.sqrt(3);
}

/** How many come where so many are expected (Poisson). From 40 on by the normal distribution. */
export function poisson(random, expected) {
  if (expected >= 40) return Math.max(0, Math.round(expected + Math.sqrt(expected) * normal(random)));
  const least = Math.exp(-expected);
  let number = 0;
  for (let product = random(); product > least; product *= random()) number += 1;
  return number;
}

/** Variants in turn in one process, so that a busy moment hits each alike. */

export interface Measured {
  /** µs for one call, the median of the rounds, by variant. */
  readonly microseconds: readonly number[];
  /** The first over each other one: [median, least, greatest]. */
  readonly ratios: readonly (readonly [number, number, number])[];
}

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] as number;

function timed(call: () => unknown, calls: number): number {
  const from = performance.now();
  for (let i = 0; i < calls; i += 1) call();
  return ((performance.now() - from) * 1000) / calls;
}

/** Each variant so many calls in each round; every second round in the other order; the first two do not count. */
export function measure(variants: readonly (() => unknown)[], calls: readonly number[], rounds: number): Measured {
  const times: number[][] = variants.map(() => []);
  for (let round = -2; round < rounds; round += 1) {
    const order = variants.map((_variant, i) => (round % 2 === 0 ? i : variants.length - 1 - i));
    for (const i of order) {
      const took = timed(variants[i] as () => unknown, calls[i] as number);
      if (round >= 0) times[i]?.push(took);
    }
  }
  const ratios = times.slice(1).map((others) => {
    const each = others.map((other, round) => (times[0]?.[round] as number) / other);
    return [middle(each), Math.min(...each), Math.max(...each)] as const;
  });
  return { microseconds: times.map(middle), ratios };
}

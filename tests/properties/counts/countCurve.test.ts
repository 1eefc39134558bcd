/** Laws of the curve through counts: it never rises, size and count are inverse, and nothing is NaN or infinite. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CumulativeCounts, countAt, countBounds, sizeAt } from '../../../src/counts/index.ts';
import { nextDown, nextUp } from '../../doubles.ts';

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const of = (sizes: readonly number[], perMl: readonly number[]): CumulativeCounts => ({
  sizing: 'iso11171',
  sizes,
  perMl,
});

/** Counts with steps from next to none to the whole range; some end in zeros. */
const counts = fc
  .array(
    fc.tuple(
      fc.oneof(figure(2e-9, 1e-6), figure(0.001, 2)),
      fc.oneof(figure(0, 1e-12), figure(0, 3), fc.constant(Infinity)),
    ),
    {
      minLength: 2,
      maxLength: 7,
    },
  )
  .chain((steps) =>
    fc.tuple(figure(1, 4), figure(1e-3, 1e7)).map(([size, count]) => {
      const sizes: number[] = [size];
      const perMl: number[] = [count];
      for (const [wider, fewer] of steps) {
        sizes.push((sizes.at(-1) as number) * (1 + wider));
        perMl.push((perMl.at(-1) as number) * Math.exp(-fewer));
      }
      return of(sizes, perMl);
    }),
  );

describe('countAt', () => {
  test('lies between its neighbours, never rises beyond a rounding, is never NaN or infinite', () => {
    fc.assert(
      fc.property(counts, fc.constantFrom('monotone', 'log_log', 'log_log2'), figure(0, 1), (one, method, share) => {
        const last = one.sizes.length - 1;
        let before = Infinity;
        for (let i = 0; i < last; i += 1) {
          const [from, to] = [one.sizes[i] as number, one.sizes[i + 1] as number];
          for (const t of [0, 1e-15, share / 2, share, 1 - 1e-15, 1]) {
            const size = Math.min(from + t * (to - from), to);
            const { perMl } = countAt(one, size, { method });
            const { above, upTo } = countBounds(one, size);
            expect(perMl >= above && perMl <= (upTo as number)).toBe(true);
            if (t !== share / 2) continue;
            expect(perMl).toBeLessThanOrEqual(before * (1 + 1e-13));
            before = perMl;
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  test('continued beyond the sizes it stays beyond their counts, also by one bit', () => {
    fc.assert(
      fc.property(counts, fc.constantFrom('log_log', 'log_log2'), (one, method) => {
        const [first, last] = [one.sizes[0] as number, one.sizes.at(-1) as number];
        const [most, least] = [one.perMl[0] as number, one.perMl.at(-1) as number];
        fc.pre(first > 1 && (one.perMl[1] as number) > 0);
        const beyond = (size: number) => countAt(one, size, { method, extrapolate: true }).perMl;
        expect(beyond(nextDown(first))).toBeGreaterThanOrEqual(most);
        expect(beyond(nextUp(last))).toBeLessThanOrEqual(least);
      }),
    );
  });

  test('just above the last size with a count it does not rise', () => {
    const one = of([6.340491633097244, 6.34096072963063], [0.05755193813949895, 0]);
    expect(countAt(one, 6.340491633097245).perMl).toBeLessThanOrEqual(0.05755193813949895);
  });
});

describe('beyond the sizes', () => {
  test('nothing is counted above a size at which nothing was, however few sizes have a count', () => {
    const beyond = { extrapolate: true };
    expect(countAt(of([4, 6], [10, 0]), 10, beyond)).toEqual({ perMl: 0, basis: 'extrapolated' });
    expect(countAt(of([4, 6, 14], [10, 5, 0]), 20, beyond).perMl).toBe(0);
    expect(() => countAt(of([4, 6], [10, 0]), 3, beyond)).toThrow(expect.objectContaining({ code: 'too_few' }));
  });

  test('sizes below 1 µm are refused where their logarithms are squared', () => {
    const method = { method: 'log_log2', extrapolate: true } as const;
    const expected = "sizes of 1 µm and more for 'log_log2'";
    const refused = (parameter: string) => expect.objectContaining({ code: 'out_of_range', parameter, expected });
    expect(() => countAt(of([0.9, 6], [10, 1]), 5, method)).toThrow(refused('counts.sizes[0]'));
    expect(() => countAt(of([4, 6], [10, 1]), 0.9, method)).toThrow(refused('size'));
  });
});

describe('sizeAt', () => {
  test('the most is at the first size, the least at the first that has it', () => {
    const steps = of([4, 6, 14, 21], [10, 10, 2, 2]);
    expect([10, 2].map((perMl) => sizeAt(steps, perMl))).toEqual([4, 14]);
  });

  test('answers for every count from the least to the most, between the sizes about it', () => {
    fc.assert(
      fc.property(counts, figure(0, 1), fc.nat(), (one, share, which) => {
        const i = which % (one.sizes.length - 1);
        const [from, to] = [one.sizes[i] as number, one.sizes[i + 1] as number];
        const [more, fewer] = [one.perMl[i] as number, one.perMl[i + 1] as number];
        const target = Math.min(Math.max(fewer + share * (more - fewer), fewer), more);
        const size = sizeAt(one, target);
        if (target < more) expect(size >= from && size <= to).toBe(true);
        // one ulp of size is worth as much of the count as the curve is steep
        const [before, after] = [Math.max(size * (1 - 1e-15), from), Math.min(size * (1 + 1e-15), to)];
        if (target < more && target > fewer) {
          expect(countAt(one, before).perMl).toBeGreaterThanOrEqual(target * (1 - 1e-12));
          expect(countAt(one, after).perMl).toBeLessThanOrEqual(target * (1 + 1e-12));
        }
      }),
      { numRuns: 500 },
    );
  });

  test('where two counts are a few roundings apart', () => {
    const one = of([1.9802213397859054, 2.958624876143452], [61167.45003209743, 61167.450032097375]);
    const size = sizeAt(one, 61167.45003209738);
    expect(size >= 1.9802213397859054 && size <= 2.958624876143452).toBe(true);
  });
});

/** Two samples at all sizes: each test by exact fractions, and how often two samples of one oil are said to differ. */
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compareCounts, countsDiffer, cumulativeCounts } from '../../../src/counts/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { some } from '../../volume.ts';

const of = (at: Record<number, number>, volumeMl: number, dilution = 1) => cumulativeCounts(at, { volumeMl, dilution });

/** P(at least k of n) where the odds are a to b, as whole numbers: the sum of C(n, i) a^i b^(n - i) over (a + b)^n. */
function atLeast(k: number, n: number, a: bigint, b: bigint): number {
  let sum = 0n;
  let choose = 1n;
  for (let i = 0; i <= n; i += 1) {
    if (i >= k) sum += choose * a ** BigInt(i) * b ** BigInt(n - i);
    choose = (choose * BigInt(n - i)) / BigInt(i + 1);
  }
  return Number((sum * 10n ** 18n) / (a + b) ** BigInt(n)) / 1e18;
}

describe('before and after a filter', () => {
  // 96 in 10 mL against 31 in 25 mL, and of 21 µm(c) 4 against 6
  const compared = () =>
    compareCounts(
      of({ 4: 18900, 6: 4020, 14: 96, 21: 4, 38: 0 }, 10),
      of({ 4: 6240, 6: 1180, 14: 31, 21: 6, 38: 0, 70: 0 }, 25),
    );

  test('at each size that both have: the ratio, its chance by exact fractions, and limits for four sizes', () => {
    const found = compared();
    expect(found.sizes.map(({ size }) => size)).toEqual([4, 6, 14, 21, 38]);
    expect(found.sizes.map(({ first, second }) => [first, second])).toEqual([
      ...[
        [1890, 249.6],
        [402, 47.2],
        [9.6, 1.24],
        [0.4, 0.24],
        [0, 0],
      ],
    ]);
    const [, , at14, at21] = found.sizes;
    expect(at14?.ratio).toBeCloseTo(96 / 10 / (31 / 25), 12);
    expect(at21?.p).toBeCloseTo(2 * atLeast(4, 10, 10n, 25n), 12);
    expect(at14?.p).toBeCloseTo(2 * atLeast(96, 127, 10n, 25n), 12);
    // the fifth size has no particle in either: 5 % are shared by four
    const tail = 0.05 / 4 / 2;
    const low = betaQuantile(tail, 96, 32);
    const high = betaQuantile(1 - tail, 97, 31);
    expect(at14?.low).toBeCloseTo(((low / (1 - low)) * 25) / 10, 8);
    expect(at14?.high).toBeCloseTo(((high / (1 - high)) * 25) / 10, 8);
    expect(found.sizes.map(({ differs }) => differs)).toEqual([true, true, true, false, false]);
    expect(found.sizes[4]).toEqual({
      size: 38,
      first: 0,
      second: 0,
      ratio: null,
      low: 0,
      high: null,
      p: 1,
      differs: false,
    });
    expect([found.differs, found.confidence, found.sizing]).toEqual([true, 0.95, 'iso11171']);
  });

  test('of equal counts the ratio is 1, and none differs', () => {
    const { sizes } = compareCounts(of({ 4: 50, 14: 5 }, 10), of({ 4: 50, 14: 5 }, 10));
    expect(sizes).toMatchObject([
      { size: 4, ratio: 1, p: 1, differs: false },
      { size: 14, ratio: 1, p: 1, differs: false },
    ]);
    const nothing = compareCounts(of({ 4: 0, 14: 0 }, 10), of({ 4: 0, 14: 0 }, 25));
    const none = { first: 0, second: 0, ratio: null, low: 0, high: null, p: 1, differs: false };
    expect([nothing.differs, nothing.sizes]).toEqual([false, [4, 14].map((size) => ({ size, ...none }))]);
    expect(sizes[1]?.low).toBeGreaterThan(0);
    expect(sizes[1]?.high).toBeGreaterThan(1);
  });

  test('a size that differs alone does not where five are asked', () => {
    const pair = [of({ 4: 4000, 6: 900, 14: 42 }, 10), of({ 4: 4000, 6: 900, 14: 24 }, 10)] as const;
    expect(countsDiffer({ counted: 42, volumeMl: 10 }, { counted: 24, volumeMl: 10 }).p).toBeLessThan(0.05);
    expect(compareCounts(...pair).differs).toBe(false);
    expect(compareCounts(...pair, { confidence: 0.85 }).differs).toBe(true);
  });
});

test('of one size it is countsDiffer; turned round, ratio and limits turn', () => {
  const counted = fc.nat(3000);
  const volume = fc.integer({ min: 1, max: 400 }).map((tenths) => tenths / 10);
  fc.assert(
    fc.property(counted, counted, volume, volume, fc.constantFrom(0.8, 0.95, 0.99), (a, b, v, w, confidence) => {
      fc.pre(a + b > 0);
      const [there] = compareCounts(of({ 6: a }, v), of({ 6: b }, w), { confidence }).sizes;
      const alone = countsDiffer({ counted: a, volumeMl: v }, { counted: b, volumeMl: w }, { confidence });
      expect(there).toMatchObject(alone);
      expect(there?.differs).toBe(alone.p < 1 - confidence);
      const [back] = compareCounts(of({ 6: b }, w), of({ 6: a }, v), { confidence }).sizes;
      expect(back?.differs).toBe(there?.differs);
      expect(back?.p).toBeCloseTo(there?.p as number, 10);
    }),
  );
});

test('a diluted sample counts as the oil that was in it', () => {
  const plain = of({ 4: 900, 14: 40 }, 10);
  const thin = compareCounts(of({ 4: 300, 14: 20 }, 30, 6), plain);
  const same = compareCounts(of({ 4: 300, 14: 20 }, 5), plain);
  thin.sizes.forEach(({ first, ratio, low }, i) => {
    const other = same.sizes[i] as (typeof same.sizes)[0];
    expect([first, ratio, low]).toEqual([other.first, other.ratio, other.low]);
  });
});

/** How often two samples of oils with so many particles per mL between sizes are said to differ. */
function shareThatDiffers(perMl: readonly number[], factor: number, runs: number, seed: number): number {
  const share = shares(seed);
  const sizes = [4, 6, 14, 21, 38];
  const draw = (volumeMl: number, times: number) => {
    let count = 0;
    const at: Record<number, number> = {};
    for (let i = sizes.length - 1; i >= 0; i -= 1) {
      count += poissonOf((perMl[i] as number) * volumeMl * times, share);
      at[sizes[i] as number] = count;
    }
    return of(at, volumeMl);
  };
  let differ = 0;
  for (let run = 0; run < runs; run += 1) if (compareCounts(draw(10, factor), draw(4, 1)).differs) differ += 1;
  return differ / runs;
}

test.each([
  ['clean', [3, 1, 0.2, 0.05, 0.02]],
  ['usual', [60, 20, 4, 0.5, 0.1]],
  ['dirty', [400, 150, 30, 6, 1]],
])('two samples of one %s oil differ at any of five sizes in 5 %% at most; of two oils they do', (_name, perMl) => {
  const runs = some(4000, 800);
  // four standard deviations of the draw
  expect(shareThatDiffers(perMl, 1, runs, 5)).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / runs));
  expect(shareThatDiffers(perMl, 4, runs, 6)).toBeGreaterThan(0.9);
});

test('what cannot be compared is refused by the name of the sample', () => {
  const raw = of({ 4: 900, 14: 40 }, 10);
  const microscope = cumulativeCounts({ 5: 40 }, { sizing: 'microscope', volumeMl: 10 });
  expectRefused('sizing_not_convertible', 'second.sizing', "one of 'iso11171', the sizing of the first", () =>
    compareCounts(raw, microscope),
  );
  expectRefused('missing_size', 'second.sizes', 'a size of the first: 4, 14', () =>
    compareCounts(raw, of({ 6: 9 }, 10)),
  );
  expectRefused('missing_volume', 'second.volumeMl', 'raw counts', () =>
    compareCounts(raw, cumulativeCounts({ 4: 9 })),
  );
  expectRefused('missing_volume', 'first.volumeMl', 'raw counts', () => compareCounts(cumulativeCounts({ 4: 9 }), raw));
  expectRefused('out_of_range', 'first.counted[0]', 'at most 1e9', () => compareCounts(of({ 4: 3e9 }, 10), raw));
  expectRefused('unknown_option', 'options.confidense', 'confidence', () =>
    compareCounts(raw, raw, { confidense: 0.9 } as never),
  );
});

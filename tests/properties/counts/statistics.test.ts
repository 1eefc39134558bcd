import gammainc from '@stdlib/math-base-special-gammainc';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import gammaQuantile from '@stdlib/stats-base-dists-gamma-quantile';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countInterval, countsDiffer, volumeForCount } from '../../../src/counts/index.ts';

const relative = (a: number, b: number) => Math.abs(a - b) / Math.max(Math.abs(b), 1e-300);

describe('countInterval', () => {
  const confidences = [0.95, 0.6827, 0.9, 0.99, 0.999];

  test('n = 0 to 10,000: the tails of a statistics library change sides within 1e-10 of each limit', () => {
    for (let n = 0; n <= 10_000; n += 1) {
      const confidence = confidences[n % confidences.length] as number;
      const tail = (1 - confidence) / 2;
      const { low, high } = countInterval(n, { confidence });
      // P(X <= n) of a Poisson variable is the upper incomplete gamma ratio of n + 1; P(X >= n) the lower one of n
      const atMost = (mean: number) => gammainc(mean, n + 1, true, true);
      const atLeast = (mean: number) => gammainc(mean, n, true, false);
      const closeAbove = atMost(high * (1 - 1e-10)) >= tail && tail >= atMost(high * (1 + 1e-10));
      const closeBelow = n === 0 || (atLeast(low * (1 - 1e-10)) <= tail && tail <= atLeast(low * (1 + 1e-10)));
      if (!closeAbove || !closeBelow) expect.fail(`n = ${n} at ${confidence}: ${low} to ${high}`);
    }
  });

  test('n = 0 to 800: agrees with its gamma quantiles to 1e-10', () => {
    // beyond, its quantiles no longer satisfy its own incomplete gamma function (off by up to 4e-3); that function is
    // the judge above
    let worst = 0;
    for (let n = 0; n <= 800; n += 1) {
      for (const confidence of confidences) {
        const tail = (1 - confidence) / 2;
        const { low, high } = countInterval(n, { confidence });
        if (n > 0) worst = Math.max(worst, relative(low, gammaQuantile(tail, n, 1)));
        worst = Math.max(worst, relative(high, gammaQuantile(1 - tail, n + 1, 1)));
      }
    }
    expect(worst).toBeLessThan(1e-10);
  });

  test('up to 1e9 the limits stay where the normal distribution puts them', () => {
    for (const n of [1e6, 1e7, 1e8, 1e9]) {
      const { low, high } = countInterval(n);
      // Cornish and Fisher 1938: n + z sqrt(n) + (z^2 + 2) / 6 and the like; the next term is of the order of 1 /
      // sqrt(n)
      const z = 1.959963984540054;
      expect(Math.abs(low - (n - z * Math.sqrt(n) + (z * z - 1) / 3))).toBeLessThan(1);
      expect(Math.abs(high - (n + z * Math.sqrt(n) + (z * z + 2) / 3))).toBeLessThan(1);
    }
  });

  test('wider with confidence, higher with the count, and always about the count', () => {
    const count = fc.integer({ min: 0, max: 1e6 });
    const share = fc.double({ min: 0.01, max: 0.9999, noNaN: true });
    fc.assert(
      fc.property(count, share, share, (n, a, b) => {
        const [narrow, wide] = a < b ? [a, b] : [b, a];
        const inner = countInterval(n, { confidence: narrow });
        const outer = countInterval(n, { confidence: wide });
        expect(outer.low).toBeLessThanOrEqual(inner.low);
        expect(outer.high).toBeGreaterThanOrEqual(inner.high);
        expect(inner.high).toBeLessThan(countInterval(n + 1, { confidence: narrow }).high);
        expect(outer.low).toBeLessThanOrEqual(n);
      }),
    );
  });
});

/** Confidences from next to none to next to certainty. */
const confidences = [5e-324, 1e-6, 0.01, 0.1, 0.2, 0.26, 0.5, 0.9, 1 - 1e-6, 1 - 1e-12, 1 - 1 / 2 ** 53];

test('countsDiffer names no ratio to nothing', () => {
  const few = { counted: 5, volumeMl: 1 };
  const none = { counted: 0, volumeMl: 1 };
  expect(countsDiffer(few, none)).toMatchObject({ ratio: null, high: null });
  expect(countsDiffer(none, few)).toMatchObject({ ratio: 0, low: 0 });
});

describe('any confidence', () => {
  test('countInterval: limits about the count, wider with confidence', () => {
    for (const n of [0, 1, 2, 3, 7, 20, 100, 1000, 1e6, 1e9]) {
      let before = { low: n + 1, high: n };
      for (const confidence of confidences) {
        const found = countInterval(n, { confidence });
        // next to no confidence the limits are the medians on either side: n - 1/3 and n + 2/3, about
        expect(found.low).toBeLessThanOrEqual(Math.min(before.low * (1 + 1e-12), n));
        expect(found.high).toBeGreaterThanOrEqual(before.high * (1 - 1e-12));
        before = found;
      }
    }
  });

  test('countsDiffer: limits about the ratio, wider with confidence', () => {
    const pairs = [
      [100, 1],
      [0, 2],
      [0, 6],
      [1000, 0],
      [1, 1],
      [3, 5],
      [1, 1e6],
      [1e9, 1e9],
      [1e9, 0],
      [1, 1e9],
    ] as const;
    for (const [n1, n2] of pairs) {
      let before = { low: Infinity, high: 0 };
      for (const confidence of confidences) {
        const found = countsDiffer({ counted: n1, volumeMl: 1 }, { counted: n2, volumeMl: 1 }, { confidence });
        const { low, high } = { low: found.low, high: found.high ?? Infinity };
        expect(low).toBeLessThanOrEqual(before.low * (1 + 1e-9));
        expect(high).toBeGreaterThanOrEqual(before.high * (1 - 1e-9));
        if (n1 > 0 && n2 > 0) expect(low < n1 / n2 && n1 / n2 < high).toBe(true);
        before = { low, high };
      }
    }
  });

  test('countsDiffer at low confidence: the tails of a statistics library change sides at each limit', () => {
    const counted = fc.integer({ min: 0, max: 300 });
    fc.assert(
      fc.property(counted, counted, fc.double({ min: 0.01, max: 0.6, noNaN: true }), (n1, n2, confidence) => {
        fc.pre(n1 + n2 > 0);
        const found = countsDiffer({ counted: n1, volumeMl: 1 }, { counted: n2, volumeMl: 1 }, { confidence });
        const tail = (1 - confidence) / 2;
        const share = (odds: number) => odds / (1 + odds);
        if (n1 > 0) expect(1 - binomialCdf(n1 - 1, n1 + n2, share(found.low))).toBeCloseTo(tail, 9);
        if (found.high !== null) expect(binomialCdf(n1, n1 + n2, share(found.high))).toBeCloseTo(tail, 9);
      }),
    );
  });
});

describe('countsDiffer', () => {
  test('the ratio is one of concentrations: 30 in 10 mL over 20 in 5 mL is 0.75, and its limits lie about it', () => {
    const { ratio, low, high } = countsDiffer({ counted: 30, volumeMl: 10 }, { counted: 20, volumeMl: 5 });
    expect(ratio).toBeCloseTo(0.75, 14);
    expect(low).toBeLessThan(0.75);
    expect(high).toBeGreaterThan(0.75);
  });

  const counted = fc.integer({ min: 0, max: 3000 });
  const volume = fc.integer({ min: 1, max: 400 }).map((tenths) => tenths / 10);

  test('p, ratio and limits agree with binomial and beta distributions of a statistics library', () => {
    fc.assert(
      fc.property(counted, counted, volume, volume, (n1, n2, v1, v2) => {
        fc.pre(n1 + n2 > 0);
        const found = countsDiffer({ counted: n1, volumeMl: v1 }, { counted: n2, volumeMl: v2 });
        const total = n1 + n2;
        const share = v1 / (v1 + v2);
        const down = binomialCdf(n1, total, share);
        const up = n1 === 0 ? 1 : 1 - binomialCdf(n1 - 1, total, share);
        expect(Math.abs(found.p - Math.min(1, 2 * Math.min(down, up)))).toBeLessThan(1e-9);
        const odds = (p: number) => ((p / (1 - p)) * v2) / v1;
        if (n1 > 0) expect(relative(found.low, odds(betaQuantile(0.025, n1, n2 + 1)))).toBeLessThan(1e-9);
        else expect(found.low).toBe(0);
        if (n2 > 0) expect(relative(found.high as number, odds(betaQuantile(0.975, n1 + 1, n2)))).toBeLessThan(1e-9);
        else expect([found.high, found.ratio]).toEqual([null, null]);
        // the test and the interval say the same
        if (found.p < 0.05 - 1e-9) expect(found.low > 1 || (found.high ?? Infinity) < 1).toBe(true);
        if (found.p > 0.05 + 1e-9) expect(found.low <= 1 && (found.high ?? Infinity) >= 1).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  test('is the same seen from the other side', () => {
    fc.assert(
      fc.property(counted, counted, volume, volume, (n1, n2, v1, v2) => {
        fc.pre(n1 > 0 && n2 > 0);
        const there = countsDiffer({ counted: n1, volumeMl: v1 }, { counted: n2, volumeMl: v2 });
        const back = countsDiffer({ counted: n2, volumeMl: v2 }, { counted: n1, volumeMl: v1 });
        expect(relative(there.p, back.p)).toBeLessThan(1e-9);
        expect(relative(there.low, 1 / (back.high as number))).toBeLessThan(1e-9);
      }),
    );
  });

  test('a billion particles: a difference of 1e5 is seen, one of 1e4 is not', () => {
    const billion = { counted: 1e9, volumeMl: 10 };
    expect(countsDiffer(billion, { counted: 1e9 - 1e5, volumeMl: 10 }).p).toBeCloseTo(0.025347, 5);
    expect(countsDiffer(billion, { counted: 1e9 - 1e4, volumeMl: 10 }).p).toBeCloseTo(0.823, 2);
  });
});

test('volumeForCount: 8 to 15.4 mL for scale number 8 (arithmetic)', () => {
  expect(volumeForCount(2.5)).toBe(8);
  expect(volumeForCount(1.3)).toBeCloseTo(15.385, 3);
});

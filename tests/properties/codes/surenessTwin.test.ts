/** How sure a code is, and what is left of a count, once more: by the distributions of @stdlib and by quadrature. */
import gammainc from '@stdlib/math-base-special-gammainc';
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import gammaQuantile from '@stdlib/stats-base-dists-gamma-quantile';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  codeInterval,
  codeUncertainty,
  countChange,
  detectionLimits,
  iso4406,
  subtractBlank,
  subtractDiluent,
  targetProbability,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { some } from '../../volume.ts';
import { agrees, between, d, near, spread } from '../twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;
const scale = iso4406.limits.map(([limit]) => limit as number);
/** P(X >= n) and P(X <= n) of a Poisson variable. */
const atLeast = (n: number, mean: number) => (n === 0 ? 1 : gammainc(mean, n, true, false));
const atMost = (n: number, mean: number) => gammainc(mean, n + 1, true, true);
const normal = (z: number) => {
  const tail = gammainc((z * z) / 2, 0.5, true, true) / 2;
  return z > 0 ? 1 - tail : tail;
};

/** Counts at 4, 6 and 14 µm(c), each a share of the one before. */
const samples = fc
  .tuple(spread(1, 20000), between(0.05, 0.9), between(0.02, 0.5), spread(0.5, 100))
  .map(([first, second, third, volumeMl]) => {
    const list = [Math.round(first), Math.round(first * second), Math.round(first * second * third)];
    return {
      list,
      volumeMl,
      counts: cumulativeCounts({ 4: at(list, 0), 6: at(list, 1), 14: at(list, 2) }, { volumeMl }),
    };
  });

test('the codes of counting alone: the first whose limit the tail of Poisson allows', () => {
  fc.assert(
    fc.property(samples, fc.constantFrom(0.68, 0.95, 0.99), ({ list, volumeMl, counts }, confidence) => {
      const tail = (1 - confidence) / 2;
      const { low, high } = codeInterval(iso4406, counts, { confidence });
      list.forEach((n, i) => {
        // a mean with room for n or more, and one that leaves too little for n or fewer
        const lowest = scale.findIndex((limit) => n === 0 || atLeast(n, limit * volumeMl) >= tail);
        const highest = scale.findIndex((limit) => atMost(n, limit * volumeMl) <= tail);
        expect([at(low.parts, i).class, at(high.parts, i).class]).toEqual([`${lowest}`, `${highest}`]);
      });
    }),
    { numRuns: some(2000) },
  );
});

/**
 * P(C <= perMl): over the logarithm of the gamma variable, where the library goes over that of the other errors. The
 * weights are made to add up, so that no gamma function is wanted.
 */
function chanceBelow(perMl: number, counted: number, volumeMl: number, other: number, shift: number): number {
  const x = perMl * volumeMl * Math.exp(-shift);
  if (other === 0) return gammainc(x, counted + 1, true, false);
  const n = counted + 1;
  const width = 1 / Math.sqrt(n);
  if (other < width / 20) {
    // the other errors hardly move what the counting leaves: seven standard deviations of them, in steps of a third
    const bells = Array.from({ length: 43 }, (_, i) => ({
      z: (i - 21) / 3,
      bell: Math.exp(-(((i - 21) / 3) ** 2) / 2),
    }));
    const all = bells.reduce((sum, { bell }) => sum + bell, 0);
    return bells.reduce((sum, { z, bell }) => sum + bell * gammainc(x * Math.exp(-other * z), n, true, false), 0) / all;
  }
  const step = Math.min(width, other) / 6;
  const centre = Math.log(n);
  let [sum, weight] = [0, 0];
  for (let u = centre - 14 * width - 12 / n; u <= centre + 9 * width; u += step) {
    const density = Math.exp(n * (u - centre) - n * Math.expm1(u - centre));
    weight += density;
    sum += density * normal((Math.log(x) - u) / other);
  }
  return sum / weight;
}

const errors = fc.record({
  volume: between(0, 0.2),
  flow: between(0, 0.1),
  sizing: between(0, 0.1),
  certificate: between(0, 0.05),
  coincidence: between(0, 0.2),
  sampling: between(0, 0.4),
});

/**
 * -d ln N / d ln size, the steeper of both sides; no count stands for one. At an end the chord, or where it is steeper
 * than its neighbour the parabola by Lagrange.
 */
function slopes(list: readonly number[]): number[] {
  const sizes = [4, 6, 14].map(Math.log);
  const y = list.map((n) => Math.log(Math.max(1, n)));
  const between = (i: number) => {
    if (i < 0 || i > 1 || list[i] === 0) return -1;
    return (at(y, i) - at(y, i + 1)) / (at(sizes, i + 1) - at(sizes, i));
  };
  const parabola = (end: number) => {
    const [i, j, k] = end === 0 ? [2, 1, 0] : [0, 1, 2];
    const [p, q, r] = [at(sizes, i), at(sizes, j), at(sizes, k)];
    const first = (at(y, i) * (r - q)) / ((p - q) * (p - r)) + (at(y, j) * (r - p)) / ((q - p) * (q - r));
    return -first - (at(y, k) * (2 * r - p - q)) / ((r - p) * (r - q));
  };
  return list.map((_, i) => {
    const [before, after] = [between(i - 1), between(i)];
    const steeper = Math.max(before, after);
    if (steeper < 0) return 3;
    if (i === 1) return steeper;
    const neighbour = i === 0 ? between(1) : between(0);
    return neighbour >= 0 && steeper > neighbour ? parabola(i) : steeper;
  });
}

describe('with all errors', () => {
  test('the budget 1e-12, each chance 1e-9 below a thousand particles and 0.0005 above, each limit 0.1 %', () => {
    let [few, many] = [0, 0];
    fc.assert(
      fc.property(samples, errors, fc.constantFrom(0.8, 0.95), ({ list, volumeMl, counts }, given, confidence) => {
        const found = codeUncertainty(iso4406, counts, given, { confidence });
        const steep = slopes(list);
        const { volume, flow, sizing, certificate, coincidence, sampling } = given;
        found.columns.forEach((column, i) => {
          const counted = at(list, i);
          const ofSize = [sizing * at(steep, i), certificate * at(steep, i)];
          const parts = [
            1 / Math.sqrt(counted + 1),
            volume,
            flow,
            ...ofSize,
            coincidence / Math.sqrt(i === 0 ? 12 : 3),
            sampling,
          ];
          const rows = found.budget.filter((row) => row.column === column.column);
          const variance = parts.reduce((all, part) => all + part * part, 0);
          rows.forEach((row, k) => {
            expect(row.relative).toBeCloseTo(at(parts, k), 12);
            expect(row.share).toBeCloseTo(at(parts, k) ** 2 / variance, 12);
          });
          expect(column.relative).toBeCloseTo(Math.sqrt(variance), 12);
          const other = Math.sqrt(Math.max(0, variance - at(parts, 0) ** 2));
          const below = (perMl: number) => chanceBelow(perMl, counted, volumeMl, other, i === 0 ? coincidence / 2 : 0);
          const by = counted < 1000 ? 1e-9 : 0.0005;
          if (counted < 1000) few += 1;
          else many += 1;
          const chances = scale.map(below);
          column.probabilities.forEach(({ probability }, k) => {
            const twin = (chances[k] ?? 1) - (k === 0 ? 0 : at(chances, k - 1));
            expect(Math.abs(probability - twin)).toBeLessThan(by);
          });
          const tail = (1 - confidence) / 2;
          for (const [limit, share] of [
            [column.low, tail],
            [column.high, 1 - tail],
          ] as const) {
            expect(below(limit * 0.999)).toBeLessThan(share);
            expect(below(limit * 1.001)).toBeGreaterThan(share);
          }
          const classOf = (perMl: number) => `${scale.findIndex((limit) => perMl <= limit)}`;
          expect([at(found.low.parts, i).class, at(found.high.parts, i).class]).toEqual([
            classOf(column.low),
            classOf(column.high),
          ]);
        });
      }),
      { numRuns: some(40, 6) },
    );
    expect(few).toBeGreaterThan(5);
    expect(many).toBeGreaterThan(some(8, 0) - 1);
  });

  test('the chance of a target: each size as above; together 0.002, over what they share in another step', () => {
    const targets = fc.tuple(between(0.5, 2), between(0.5, 2), between(0.5, 2));
    fc.assert(
      fc.property(samples, errors, targets, ({ list, volumeMl, counts }, given, times) => {
        const limits = list.map((n, i) => {
          const wanted = (Math.max(1, n) / volumeMl) * at(times, i);
          return scale.findIndex((limit) => wanted <= limit);
        });
        const found = targetProbability(iso4406, limits.join('/'), counts, given);
        const steep = slopes(list);
        const { volume, flow, sizing, certificate, coincidence, sampling } = given;
        const shared = Math.hypot(volume, flow, sampling);
        const own = steep.map((slope, i) =>
          Math.hypot(sizing * slope, certificate * slope, coincidence / Math.sqrt(i === 0 ? 12 : 3)),
        );
        const chance = (i: number, other: number, moved: number) =>
          chanceBelow(at(scale, at(limits, i)) * moved, at(list, i), volumeMl, other, i === 0 ? coincidence / 2 : 0);
        const single = list.map((_, i) => chance(i, Math.hypot(shared, at(own, i)), 1));
        found.columns.forEach(({ probability }, i) => {
          expect(Math.abs(probability - at(single, i))).toBeLessThan(at(list, i) < 1000 ? 1e-9 : 0.0005);
        });
        expect(found.atMost).toBeCloseTo(Math.min(...single), 3);
        expect(found.atLeast).toBeCloseTo(Math.max(0, 1 - single.reduce((all, one) => all + 1 - one, 0)), 2);
        let [sum, weight] = [0, 0];
        for (let z = -5.1; z <= 5.1; z += 0.06) {
          const bell = Math.exp((-z * z) / 2);
          weight += bell;
          sum += bell * list.reduce((all, _, i) => all * chance(i, at(own, i), Math.exp(-shared * z)), 1);
        }
        expect(Math.abs((found.probability as number) - sum / weight)).toBeLessThan(0.002);
      }),
      { numRuns: some(8, 2) },
    );
  });
});

describe('what is left of a count', () => {
  const counted = fc.integer({ min: 0, max: 400 });
  const limits = (n: number, tail: number) => ({
    low: n === 0 ? 0 : gammaQuantile(tail, n, 1),
    high: gammaQuantile(1 - tail, n + 1, 1),
  });

  /** first x a - second x b, with the limits of Zou and Donner. */
  function difference(first: number, second: number, a: number, b: number, tail = 0.025) {
    const [one, other] = [limits(first, tail), limits(second, tail)];
    const off = first * a - second * b;
    return {
      perMl: off,
      low: off - Math.hypot((first - one.low) * a, (other.high - second) * b),
      high: off + Math.hypot((one.high - first) * a, (second - other.low) * b),
      size: (first + 4) * a + (second + 4) * b,
    };
  }

  function close(found: { perMl: number; low: number; high: number }, twin: ReturnType<typeof difference>) {
    for (const name of ['perMl', 'low', 'high'] as const) {
      expect(Math.abs(found[name] - twin[name])).toBeLessThan(1e-10 * twin.size);
    }
  }

  /** Detected: more than chance would let the sample have with 5 %, were it as the blank. */
  function isDetected(sample: number, blank: number, ratio: number): boolean {
    return sample > 0 && 1 - binomialCdf(sample - 1, sample + blank, ratio / (1 + ratio)) <= 0.05;
  }

  test('less a blank, a diluent, or another count: 1e-10, and whether it is told from none', () => {
    const volumes = fc.tuple(spread(1, 100), spread(1, 100), spread(0.1, 100));
    fc.assert(
      fc.property(counted, fc.oneof(counted, fc.integer({ min: 0, max: 25 })), volumes, (n, m, [ml, blankMl, more]) => {
        const [sample, blank] = [
          { counted: n, volumeMl: ml },
          { counted: m, volumeMl: blankMl },
        ];
        const net = subtractBlank(sample, blank, { confidence: 0.9 });
        close(net, difference(n, m, 1 / ml, 1 / blankMl, 0.05));
        expect(net.detected).toBe(isDetected(n, m, ml / blankMl));
        const diluted = subtractDiluent(sample, blank, { sampleMl: 10, diluentMl: 10 * more });
        close(diluted, difference(n, m, (1 + more) / ml, more / blankMl));
        expect(diluted.detected).toBe(isDetected(n, m, ((ml / blankMl) * more) / (1 + more)));
        const change = countChange({ ...sample, dilution: 1 + more }, blank);
        const twin = difference(n, m, (1 + more) / ml, 1 / blankMl);
        close(change, twin);
        expect(change.distinguishable).toBe(twin.low > 0 || twin.high < 0);
      }),
      { numRuns: some(2000) },
    );
  });

  test("Currie's limits: 1e-14", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), spread(0.1, 100), spread(0.1, 100), (n, volumeMl, sampleMl) => {
        const found = detectionLimits({ counted: n, volumeMl }, sampleMl);
        const ratio = d(sampleMl).div(d(volumeMl));
        const z = d('1.64485362695147271486384890799');
        const variance = ratio.times(n).times(ratio.plus(1));
        const critical = z.times(variance.sqrt());
        near(found.critical, critical, 1e-14 * critical.toNumber());
        agrees(found.detection, z.pow(2).plus(critical.times(2)), 1e-14);
        // the content whose standard deviation is a tenth of it: x = 10 sqrt(x + variance)
        const content = d(found.quantification);
        agrees(content.pow(2).toNumber(), content.plus(variance).times(100), 1e-14);
      }),
      { numRuns: some(1000) },
    );
  });
});

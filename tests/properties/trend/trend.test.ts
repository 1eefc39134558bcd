/** Mann-Kendall and Sen slope against their definitions: every pair looked at, every slope sorted. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../../src/numeric/normal.ts';
import { countPairs } from '../../../src/trend/kendall.ts';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { seasonalKendall } from '../../../src/trend/seasonalKendall.ts';
import { medianSlope, senSlope } from '../../../src/trend/senSlope.ts';
import { orderPoints } from '../../../src/trend/trendPoints.ts';
import { full, some } from '../../volume.ts';

interface Series {
  readonly times: number[];
  readonly values: number[];
}

/**
 * The slopes of all pairs of different time, ascending, and rising less falling: O(n^2), straight from the definition.
 */
function byDefinition({ times, values }: Series): { slopes: Float64Array; s: number } {
  const slopes: number[] = [];
  let s = 0;
  for (let i = 0; i < times.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const [a, b] = (times[i] as number) > (times[j] as number) ? [j, i] : [i, j];
      const dx = (times[b] as number) - (times[a] as number);
      if (dx === 0) continue;
      const dy = (values[b] as number) - (values[a] as number);
      s += Math.sign(dy);
      slopes.push(dy / dx + 0);
    }
  }
  return { slopes: Float64Array.from(slopes).sort(), s };
}

function medianOfSorted(sorted: Float64Array): number {
  const half = sorted.length / 2;
  if (sorted.length % 2 === 1) return sorted[Math.floor(half)] as number;
  const [below, above] = [sorted[half - 1] as number, sorted[half] as number];
  return below === above ? below : (below + above) / 2;
}

function limitsOfSorted(sorted: Float64Array, variance: number, confidence: number): (number | null)[] {
  const spread = -normalQuantile((1 - confidence) / 2) * Math.sqrt(variance);
  const at = (rank: number) => {
    const below = sorted[Math.floor(rank) - 1] as number;
    const above = sorted[Math.ceil(rank) - 1] as number;
    return below + (rank - Math.floor(rank)) * (above - below);
  };
  const [low, high] = [(sorted.length - spread) / 2, (sorted.length + spread) / 2 + 1];
  return low < 1 || high > sorted.length ? [null, null] : [at(low), at(high)];
}

/** Kendall's variance with ties in both, straight from the printed formula. */
function varianceByFormula({ times, values }: Series): number {
  const sizes = (list: number[]) => {
    const groups: Record<string, number> = {};
    for (const x of list) groups[String(x + 0)] = (groups[String(x + 0)] ?? 0) + 1;
    return Object.values(groups);
  };
  const sum = (groups: number[], f: (t: number) => number) => groups.reduce((total, t) => total + f(t), 0);
  const [t, u, n] = [sizes(values), sizes(times), times.length];
  const five = (k: number) => k * (k - 1) * (2 * k + 5);
  const three = (k: number) => k * (k - 1) * (k - 2);
  const two = (k: number) => k * (k - 1);
  return (
    (five(n) - sum(t, five) - sum(u, five)) / 18 +
    (n > 2 ? (sum(t, three) * sum(u, three)) / (9 * three(n)) : 0) +
    (sum(t, two) * sum(u, two)) / (2 * two(n))
  );
}

/** A stream of numbers from 0 to 1 from a seed, for series too long to shrink. */
function stream(seed: number): () => number {
  let state = seed % 4294967296;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

const shapes: ((next: () => number, i: number) => number)[] = [
  (next) => Math.floor(next() * 4), // many ties
  (next) => Math.floor(next() * 30) / 10,
  (next) => 17 + next() - 0.5, // continuous
  // nearly straight, so that slopes differ in their last bits only
  (next, i) => 10 + 0.1 * i + (next() < 0.1 ? next() : 0),
  (_next, i) => 0.1 * i, // straight, and inexact
  (next, i) => Math.round(14 + i / 40 + 3 * next()),
  (next) => (next() - 0.5) / (next() + 1e-6), // far outliers
  (next, i) => (i % 7) + next() * 1e-9,
  () => 3,
];
const clocks: ((next: () => number, i: number) => number)[] = [
  (_next, i) => i,
  (next, i) => 1.7e12 + i * 120000 + Math.floor(next() * 200000), // late ones among them
  (next) => Math.floor(next() * 40), // many of one time
  (next) => next() * 1000,
  (_next, i) => 0.1 * i,
];

function seriesOf(seed: number, n: number): Series {
  const next = stream(seed * 2654435761 + 12345);
  const shape = shapes[seed % shapes.length] as (typeof shapes)[number];
  const clock = clocks[Math.floor(seed / shapes.length) % clocks.length] as (typeof clocks)[number];
  const times: number[] = [];
  const values: number[] = [];
  for (let i = 0; i < n; i += 1) {
    times.push(clock(next, i));
    values.push(shape(next, i));
  }
  return { times, values };
}

function expectAsDefined(series: Series): void {
  const { slopes, s } = byDefinition(series);
  const kendall = mannKendall(series.values, { times: series.times });
  expect(kendall.s).toBe(s);
  expect(Math.abs(kendall.variance - varianceByFormula(series))).toBeLessThan(1e-9 * (1 + kendall.variance));
  if (slopes.length === 0) return;
  const line = senSlope(series.times, series.values, { confidence: 0.9 });
  expect(line.pairs).toBe(slopes.length);
  expect([line.slope, line.low, line.high]).toEqual([
    medianOfSorted(slopes),
    ...limitsOfSorted(slopes, kendall.variance, 0.9),
  ]);
}

/** The slope and its limits with room for so many slopes only, and what they must be. */
function narrowed(series: Series, room: number): { found: (number | null)[]; expected: (number | null)[] } {
  const points = orderPoints(series.times, series.values);
  const counts = countPairs(points, 0);
  const { slopes } = byDefinition(series);
  const line = medianSlope(points, counts, 0.95, room);
  return {
    found: [line.slope, line.low, line.high],
    expected: [medianOfSorted(slopes), ...limitsOfSorted(slopes, counts.variance, 0.95)],
  };
}

function expectNarrowed(series: Series, room: number): void {
  const { found, expected } = narrowed(series, room);
  expect(found).toEqual(expected);
}

function straight(n: number, value: (i: number) => number): Series {
  const times = Array.from({ length: n }, (_x, i) => i);
  return { times, values: times.map(value) };
}

describe('equal to the definition, bit for bit', () => {
  test('random series with ties and irregular times, up to 300 points', () => {
    for (let seed = 0; seed < some(10_000, 200); seed += 1) {
      expectAsDefined(seriesOf(seed, seed % 20 === 0 ? 100 + (seed % 201) : 2 + (seed % 60)));
    }
  });

  test('narrowing: with little room, in series long enough to need it', () => {
    for (let seed = 0; seed < some(450, 25); seed += 1) {
      const series = seriesOf(seed, 60 + (seed % 200));
      const { found, expected } = narrowed(series, 2 * series.times.length);
      const straightAndInexact =
        [3, 4].includes(seed % shapes.length) || Math.floor(seed / shapes.length) % clocks.length >= 3;
      if (!straightAndInexact) expect(found).toEqual(expected);
      // where differences round and slopes agree to their last bits, the documented exception: those last bits
      else
        found.forEach((x, i) => {
          if (x === null) expect(expected[i]).toBeNull();
          else expect(Math.abs(x - (expected[i] as number))).toBeLessThanOrEqual(1e-15 * Math.abs(x));
        });
    }
  });

  test('half of the pairs lie level, and the middle rank is among the first that rise', () => {
    const step = (n: number, low: number) => straight(n, (i) => (i < low ? 0 : 1 + i / n));
    // all that rise are formed from no order known; or there are too many, and the first cut would lie beside them
    for (const low of [82, 84, 85]) expectNarrowed(step(120, low), 5000);
    for (const low of [12, 13, 14]) expectNarrowed(step(20, low), 60);
  });

  test('slopes that differ in their last bits only: too many to form, where differences are exact', () => {
    for (let seed = 0; seed < 120; seed += 1) {
      const n = 40 + seed;
      const step = 0.01 + seed / 10000;
      // all values within 8 to 16: their differences fit a double
      expectNarrowed(
        straight(n, (i) => 8 + step * i),
        2 * n,
      );
      expectNarrowed(
        straight(n, (i) => 8 + step * i + (i % 5 === 0 ? 2 ** -49 : 0)),
        n,
      );
    }
  });

  test('slopes that differ in their last bits only: just few enough to form, where differences are not exact', () => {
    for (let seed = 0; seed < some(150, 8); seed += 1) {
      const next = stream(seed * 7919 + 3);
      const n = 60 + seed;
      // half of the points lie on a line that rounding bends, half scatter about it: the median is one of very many
      // slopes near 0.1
      const series = straight(n, (i) => 0.1 * i + (next() < 0.5 ? 0 : next() - 0.5));
      expectNarrowed(series, Math.floor((n * (n - 1)) / 6));
      const times = series.times.map((time) => 0.3 * time + 1e-3 * (seed % 7));
      expectNarrowed({ times, values: series.values }, Math.floor((n * (n - 1)) / 6));
    }
  });

  test('at 1,500 points, with the room it really has', () => {
    const seeds = [0, 5, 11, 18, 36, 1, 2, 10, 14, 20, 24, 29, 32];
    for (const seed of seeds.slice(0, some(seeds.length, 2))) expectAsDefined(seriesOf(seed, 1500));
  });

  // as many as there may be: their pairs do not fit 32 bits
  const points = 300_000;
  test.runIf(full)(`at ${points} points, where the answer is known`, () => {
    const times = Array.from({ length: points }, (_x, i) => 1.7e12 + i * 105000);
    const straight = times.map((_time, i) => 12 + i / 64);
    const slope = 1 / 64 / 105000;
    expect(senSlope(times, straight)).toMatchObject({
      slope,
      low: slope,
      high: slope,
      pairs: (points * (points - 1)) / 2,
    });
    expect(mannKendall(straight)).toMatchObject({ s: (points * (points - 1)) / 2, tau: 1, p: 0 });
    // two halves, level each: of the pairs, just over half lie within a half and are level
    const stepped = times.map((_time, i) => (i < points / 2 ? 14 : 18));
    expect(mannKendall(stepped).s).toBe((points / 2) ** 2);
  });

  test('the order in which points come does not matter', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: -5, max: 5 })), { minLength: 3 }),
        (points) => {
          fc.pre(new Set(points.map(([time]) => time)).size > 1);
          const line = (list: readonly (readonly [number, number])[]) =>
            senSlope(
              list.map(([time]) => time),
              list.map(([, value]) => value),
            );
          expect(line([...points].reverse())).toEqual(line(points));
        },
      ),
    );
  });
});

describe('Mann-Kendall, exact chance', () => {
  test('equals counting all arrangements, ties included', () => {
    const arrangements = (list: number[]): number[][] =>
      list.length < 2
        ? [list]
        : list.flatMap((x, i) => arrangements([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [x, ...rest]));
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 2, maxLength: 6 }), (values) => {
        const s = (list: number[]) => byDefinition({ times: list.map((_x, i) => i), values: list }).s;
        const all = arrangements(values).map(s);
        const asFar = all.filter((other) => Math.abs(other) >= Math.abs(s(values))).length;
        expect(mannKendall(values).p).toBeCloseTo(asFar / all.length, 14);
      }),
      { numRuns: 60 },
    );
  });

  test('the normal distribution is within 0.01 of it from 11 points', () => {
    for (let n = 11; n <= 18; n += 1) {
      for (let seed = 0; seed < 60; seed += 1) {
        const next = stream(seed * 977 + n);
        const values = Array.from({ length: n }, (_x, i) => next() + (i * seed) / 600);
        const gap = mannKendall(values, { method: 'exact' }).p - mannKendall(values, { method: 'normal' }).p;
        expect(Math.abs(gap)).toBeLessThan(0.01);
      }
    }
  });

  test('turned round, s and z change sign and p stays', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -9, max: 9, noNaN: true }).map(Math.fround), { minLength: 2, maxLength: 40 }),
        (values) => {
          const forward = mannKendall(values);
          const backward = mannKendall([...values].reverse());
          expect(backward.s + forward.s).toBe(0);
          expect(backward.z + forward.z).toBe(0);
          expect(backward.p).toBe(forward.p);
        },
      ),
    );
  });
});

describe('seasonal Kendall', () => {
  const hour = 3600000;
  const readings = fc.array(fc.tuple(fc.integer({ min: 0, max: 10 * 24 * 4 }), fc.integer({ min: 10, max: 20 })), {
    minLength: 12,
    maxLength: 120,
  });

  test('is the sum over seasons, and the median of slopes within seasons', () => {
    fc.assert(
      fc.property(readings, (list) => {
        const times = list.map(([quarter]) => quarter * (hour / 4));
        const values = list.map(([, value]) => value);
        const season = times.map((time) => Math.floor(time / hour) % 24);
        const slopes: number[] = [];
        let [s, variance] = [0, 0];
        for (let h = 0; h < 24; h += 1) {
          const own = { times: [] as number[], values: [] as number[] };
          times.forEach((time, i) => {
            if (season[i] !== h) return;
            own.times.push(Math.floor(time / (24 * hour)));
            own.values.push(values[i] as number);
          });
          if (own.times.length < 2) continue;
          const defined = byDefinition(own);
          s += defined.s;
          variance += varianceByFormula(own);
          slopes.push(...defined.slopes);
        }
        fc.pre(slopes.length > 0);
        const result = seasonalKendall(times, values);
        expect(result.s).toBe(s);
        expect(result.variance).toBeCloseTo(variance, 8);
        expect(result.slope).toBe(medianOfSorted(Float64Array.from(slopes).sort()) / (24 * hour));
      }),
    );
  });

  test('a daily rhythm alone is no trend; a trend beside it is found', () => {
    const times = Array.from({ length: 24 * 20 }, (_x, i) => i * hour);
    const rhythm = times.map((_time, i) => 16 + 2 * Math.sin((i * Math.PI) / 12));
    const rounded = rhythm.map((value) => Math.round(value * 100) / 100);
    expect(seasonalKendall(times, rounded)).toMatchObject({ s: 0, slope: 0, p: 1 });
    const dirtier = rounded.map((value, i) => value + i / 2400);
    const found = seasonalKendall(times, dirtier);
    expect(found.slope * hour).toBeCloseTo(1 / 2400, 9);
    expect(found.seasons).toHaveLength(24);
    // the rhythm hides it from the plain test, whose scatter is far larger than the trend
    expect(found.z).toBeGreaterThan(5 * mannKendall(dirtier).z);
  });

  test('the offset moves the day', () => {
    const result = seasonalKendall([0, 24 * hour], [1, 2], { offset: 23 * hour });
    expect(result.seasons[0]?.season).toBe(1);
  });
});

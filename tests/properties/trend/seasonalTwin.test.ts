/** The seasonal Kendall test from its definition: every pair looked at, in decimals of 50 digits. */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { seasonalKendall } from '../../../src/trend/index.ts';
import { Exact } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { normalQuantileTwin, normalUpTo } from '../distributionTwins.ts';
import { agrees, between, d, near, short, sum } from '../twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;

interface Point {
  readonly cycle: Decimal;
  readonly y: Decimal;
}

/** How often each number occurs. */
function ties(list: readonly Decimal[]): Decimal[] {
  const sizes: Record<string, number> = {};
  for (const one of list) sizes[one.toString()] = (sizes[one.toString()] ?? 0) + 1;
  return Object.values(sizes).map((size) => d(size));
}

/** Kendall 1970, chapter 4: the variance of S with ties in both rankings. */
function varianceOf(group: readonly Point[]): Decimal {
  const n = d(group.length);
  if (n.lt(2)) return d(0);
  const [values, times] = [ties(group.map(({ y }) => y)), ties(group.map(({ cycle }) => cycle))];
  const over = (list: Decimal[], term: (t: Decimal) => Decimal) => sum(list.map(term));
  const two = (t: Decimal) => t.times(t.minus(1));
  const three = (t: Decimal) => two(t).times(t.minus(2));
  const spread = (t: Decimal) => two(t).times(t.times(2).plus(5));
  const main = spread(n).minus(over(values, spread)).minus(over(times, spread)).div(18);
  const pairs = over(values, two).times(over(times, two)).div(two(n).times(2));
  const triples = n.lt(3) ? d(0) : over(values, three).times(over(times, three)).div(three(n).times(9));
  return main.plus(pairs).plus(triples);
}

const standardised = (s: number, variance: Decimal) =>
  s === 0 || variance.isZero() ? d(0) : d(s).minus(Math.sign(s)).div(variance.sqrt());

test('S, its variance, z, p, the slope and its limits: 1e-14', () => {
  const hour = 3600000;
  const point = fc.tuple(fc.integer({ min: 0, max: 14 * 24 }), fc.oneof(between(10, 20), short(10, 20, 0)));
  const shapes = fc.record({
    points: fc.array(point, { minLength: 2, maxLength: 40 }),
    seasons: fc.constantFrom(1, 2, 3, 24),
    offsetHours: fc.constantFrom(0, 23, -5),
    confidence: fc.constantFrom(0.5, 0.8, 0.95, 0.99),
  });
  const seen = { limits: 0, none: 0 };
  fc.assert(
    fc.property(shapes, ({ points, seasons, offsetHours, confidence }) => {
      const groups: Record<number, Point[]> = {};
      for (const [hours, value] of points) {
        const cycle = d(hours - offsetHours)
          .div(24)
          .floor();
        const phase = d(hours - offsetHours).minus(cycle.times(24));
        const season = phase.times(seasons).div(24).floor().toNumber();
        groups[season] = [...(groups[season] ?? []), { cycle, y: d(value) }];
      }
      const slopes: Decimal[] = [];
      const found = Object.entries(groups).map(([season, group]) => {
        let s = 0;
        group.forEach((a, i) => {
          for (const b of group.slice(i + 1)) {
            const apart = b.cycle.minus(a.cycle);
            if (apart.isZero()) continue;
            const slope = b.y.minus(a.y).div(apart);
            s += slope.cmp(0);
            slopes.push(slope);
          }
        });
        return { season: Number(season), n: group.length, s, variance: varianceOf(group) };
      });
      fc.pre(slopes.length > 0);
      const options = { seasons, offset: offsetHours * hour, confidence };
      const trend = seasonalKendall(
        points.map(([hours]) => hours * hour),
        points.map(([, value]) => value),
        options,
      );
      const s = found.reduce((total, group) => total + group.s, 0);
      const variance = sum(found.map((group) => group.variance));
      const z = standardised(s, variance);
      expect(trend.s).toBe(s);
      agrees(trend.variance, variance, 1e-14);
      agrees(trend.z, z, 1e-14);
      agrees(trend.p, normalUpTo(z.abs().neg()).times(2), 1e-13);
      expect(trend.seasons.map(({ season, n, s: own }) => ({ season, n, s: own }))).toEqual(
        found.map(({ season, n, s: own }) => ({ season, n, s: own })),
      );
      found.forEach((group, i) => {
        agrees(at(trend.seasons, i).z, standardised(group.s, group.variance), 1e-14);
      });

      slopes.sort((a, b) => a.cmp(b));
      const size = Exact.max(...slopes.map((slope) => slope.abs())).toNumber();
      // between ranks in proportion, ranks from 1
      const ranked = (rank: Decimal) => {
        const [below, above] = [at(slopes, rank.floor().toNumber() - 1), at(slopes, rank.ceil().toNumber() - 1)];
        return below.plus(above.minus(below).times(rank.minus(rank.floor())));
      };
      const count = d(slopes.length);
      const perMs = (slope: Decimal) => slope.div(24 * hour);
      const by = (1e-14 * size) / (24 * hour);
      near(trend.slope, perMs(ranked(count.plus(1).div(2))), by);
      const reach = normalQuantileTwin(d(1).plus(d(confidence)).div(2)).times(variance.sqrt());
      const [low, high] = [count.minus(reach).div(2), count.plus(reach).div(2).plus(1)];
      const told = low.gte(1) && high.lte(count);
      seen[told ? 'limits' : 'none'] += 1;
      expect([trend.low === null, trend.high === null]).toEqual([!told, !told]);
      if (!told) return;
      near(trend.low as number, perMs(ranked(low)), by);
      near(trend.high as number, perMs(ranked(high)), by);
    }),
    { numRuns: some(150, 30) },
  );
  expect(Math.min(seen.limits, seen.none)).toBeGreaterThan(some(10, 1));
});

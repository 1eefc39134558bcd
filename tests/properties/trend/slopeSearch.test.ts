/**
 * The search for slopes of given ranks where few may be formed at once: the slopes themselves against all of them
 * sorted, and how often the points were sorted on the way.
 */
import { expect, test } from 'vitest';
import { normalQuantile } from '../../../src/numeric/normal.ts';
import { countPairs } from '../../../src/trend/kendall.ts';
import { medianSlope, senSlopeOf, senSlopeOfFew } from '../../../src/trend/senSlope.ts';
import { sampleSlopes, samplesBetween } from '../../../src/trend/slopeSample.ts';
import { slopesOfRanks } from '../../../src/trend/slopeSelection.ts';
import { orderPoints, type TrendPoints } from '../../../src/trend/trendPoints.ts';
import { draws } from './trendCorrelated.ts';

type Course = (i: number, chance: ReturnType<typeof draws>) => number;

const courses: Record<string, Course> = {
  scatter: (_i, { normal }) => normal(),
  rising: (i, { normal }) => i / 4 + normal(),
  falling: (i, { normal }) => -3 * i + normal(),
  'of every scale': (_i, { share }) => (1 + share()) * 2 ** Math.floor(260 * share() - 130),
  'falling, of every scale': (i, { share }) => -(1 + share()) * 2 ** (2 * i - 130),
  'of both signs, tiny': (_i, { normal, share }) => normal() * 2 ** Math.floor(-130 * share()),
  'whole numbers': (_i, { normal }) => Math.floor(2 * normal()),
  'a line': (i) => i / 8,
  // slopes that rounding alone tells apart
  'a line of tenths': (i) => 0.1 * i,
  'level but for three': (i) => (i % 30 === 7 ? 5 : 2),
  'two levels': (i, { normal }) => (i < 40 ? 0 : 1e6) + 1e-3 * normal(),
};

/** How many times the points were sorted along a line, or their slopes sampled: each looks up the groups once. */
function counted(points: TrendPoints): { points: TrendPoints; sorts: () => number } {
  const { x, y, starts } = points;
  let sorts = 0;
  const watched = {
    x,
    y,
    get starts() {
      sorts += 1;
      return starts;
    },
  };
  return { points: watched, sorts: () => sorts };
}

function near(found: number, wanted: number, course: Course): void {
  if (course === courses['a line of tenths']) expect(Math.abs(found - wanted)).toBeLessThan(1e-15);
  else expect(found + 0).toBe(wanted);
}

function searched(course: Course, most: number) {
  const n = 80;
  const chance = draws(7);
  const x = Array.from({ length: n }, (_x, i) => (i % 9 === 0 ? i + 1 : i));
  const y = x.map((_x, i) => course(i, chance));
  const points = orderPoints(x, y);
  const counts = countPairs(points, 0);
  const slopes: number[] = [];
  x.forEach((time, i) => {
    for (let j = i + 1; j < n; j += 1) {
      const apart = (x[j] as number) - time;
      if (apart !== 0) slopes.push(((y[j] as number) - (y[i] as number)) / apart + 0);
    }
  });
  slopes.sort((a, b) => a - b);
  const all = slopes.length;
  let sorts = 0;
  for (const rank of [1, 2, Math.floor(all / 7), Math.floor(all / 2), Math.ceil((2 * all) / 3), all - 1, all]) {
    const watched = counted(points);
    const [found] = slopesOfRanks(watched.points, counts, [rank], most);
    near(found as number, slopes[rank - 1] as number, course);
    sorts += watched.sorts();
  }
  const together = counted(points);
  const ranks = [all, 1, Math.floor(all / 2), Math.floor(all / 2) + 1, 1];
  slopesOfRanks(together.points, counts, ranks, most).forEach((slope, i) => {
    near(slope, slopes[(ranks[i] as number) - 1] as number, course);
  });
  return [sorts, together.sorts()];
}

// The slopes are checked; the counts are those of the search as it stands, so that one that wanders is noticed.
test.each([
  [
    4,
    {
      scatter: [47, 16],
      rising: [54, 20],
      falling: [41, 18],
      'of every scale': [37, 13],
      'falling, of every scale': [44, 22],
      'of both signs, tiny': [42, 18],
      'whole numbers': [158, 59],
      'a line': [773, 398],
      'a line of tenths': [474, 282],
      'level but for three': [53, 26],
      'two levels': [92, 41],
    },
  ],
  [
    64,
    {
      scatter: [29, 13],
      rising: [24, 9],
      falling: [29, 13],
      'of every scale': [28, 12],
      'falling, of every scale': [32, 16],
      'of both signs, tiny': [31, 14],
      'whole numbers': [48, 15],
      'a line': [220, 84],
      'a line of tenths': [66, 29],
      'level but for three': [27, 11],
      'two levels': [49, 19],
    },
  ],
  [
    1000,
    {
      scatter: [28, 13],
      rising: [22, 8],
      falling: [29, 13],
      'of every scale': [28, 12],
      'falling, of every scale': [32, 16],
      'of both signs, tiny': [31, 14],
      'whole numbers': [41, 15],
      'a line': [206, 69],
      'a line of tenths': [109, 19],
      'level but for three': [13, 4],
      'two levels': [24, 11],
    },
  ],
])('slopes of seven ranks, %d formed at once', (most, wanted) => {
  const sorts: Record<string, number[]> = {};
  for (const name of Object.keys(courses)) sorts[name] = searched(courses[name] as Course, most);
  expect(sorts).toEqual(wanted);
});

test('the limits of a slope: told where the rank of the lower one is 1 or more', () => {
  // 4 points: 6 slopes of variance 26/3; two spreads of the normal chance on either side
  const points = orderPoints([0, 1, 2, 3], [0, 1, 4, 9]);
  const counts = countPairs(points, 0);
  const slopes = [1, 2, 3, 3, 4, 5];
  expect(slopesOfRanks(points, counts, [1, 2, 3, 4, 5, 6])).toEqual(slopes);
  const of = (variance: number) => medianSlope(points, { ...counts, variance }, 0.5);
  expect(of(0)).toEqual({ slope: 3, low: 3, high: 3, pairs: 6 });
  // a spread of 4 puts the lower rank at 1 and the upper one at 6
  const spread = -normalQuantile(0.25);
  expect(spread).toBeCloseTo(0.6744897501960817, 14);
  const exactly = (4 / spread) ** 2;
  expect(spread * Math.sqrt(exactly)).toBe(4);
  expect(of(exactly)).toEqual({ slope: 3, low: 1, high: 5, pairs: 6 });
  const told = of((3.999999 / spread) ** 2);
  expect(told.low).toBeCloseTo(1, 5);
  expect(told.high).toBeCloseTo(5, 5);
  expect(of((4.000001 / spread) ** 2)).toEqual({ slope: 3, low: null, high: null, pairs: 6 });
  // ranks 2.5 and 4.5: half way between 2 and 3, and between 3 and 4
  const half = of((1 / spread) ** 2);
  expect(half.low).toBeCloseTo(2.5, 12);
  expect(half.high).toBeCloseTo(3.5, 12);
});

test('a sample of slopes is taken within the groups alone, ascending, and the same each time', () => {
  // seasons of ten: one rises by 1, the other by 2 from 1000 on; between them lie other slopes
  const times = Array.from({ length: 20 }, (_x, i) => i % 10);
  const groups = times.map((_time, i) => (i < 10 ? 0 : 1));
  const points = orderPoints(
    times,
    times.map((time, i) => (i < 10 ? time : 1000 + 2 * time)),
    groups,
  );
  const sample = sampleSlopes(points);
  expect([...new Set(sample)]).toEqual([1, 2]);
  // 64 for each point, of which one in ten finds itself
  expect(sample.length).toBeGreaterThan(0.85 * 64 * 20);
  expect(sample.length).toBeLessThan(0.95 * 64 * 20);
  expect(sampleSlopes(points)).toEqual(sample);
});

test('which of a sample lie strictly between two slopes', () => {
  const sample = [1, 2, 2, 3, 5];
  expect(samplesBetween(sample, 1, 3)).toEqual({ first: 1, count: 2 });
  expect(samplesBetween(sample, 0, 9)).toEqual({ first: 0, count: 5 });
  expect(samplesBetween(sample, 2, 3).count).toBe(0);
  expect(samplesBetween(sample, 3, 2).count).toBe(0);
  expect(samplesBetween([], 0, 1)).toEqual({ first: 0, count: 0 });
});

test.each(Object.keys(courses))('of few points the same slope, bit for bit: %s', (name) => {
  for (const n of [2, 3, 16, 17, 60]) {
    const chance = draws(n);
    const times = Array.from({ length: n }, (_x, i) => i + Math.floor(i / 7));
    const points = orderPoints(
      times,
      times.map((_time, i) => (courses[name] as Course)(i, chance)),
    );
    expect(senSlopeOfFew(points)).toBe(senSlopeOf(points, countPairs(points, 0)));
  }
});

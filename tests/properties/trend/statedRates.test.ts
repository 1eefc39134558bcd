/** Rates that doc comments and docs/rates.md state of tests used where they do not belong, and what helps. */
import { describe, expect, test } from 'vitest';
import { autocorrelatedTrend } from '../../../src/trend/autocorrelatedTrend.ts';
import { addDay, advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { changePoint } from '../../../src/trend/changePoint.ts';
import { cusum } from '../../../src/trend/cusum.ts';
import { ewma } from '../../../src/trend/ewma.ts';
import { forecastCrossing } from '../../../src/trend/forecastCrossing.ts';
import { leastSquaresLine } from '../../../src/trend/leastSquares.ts';
import { seasonalKendall } from '../../../src/trend/seasonalKendall.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';
import { some } from '../../volume.ts';
import { draws, machineDays, withMemory } from './trendCorrelated.ts';

const upTo = (n: number) => Array.from({ length: n }, (_x, i) => i);

/** In how many of so many tries, as a share. */
function shareOf(count: number, seed: number, holds: (from: ReturnType<typeof draws>) => boolean): number {
  const from = draws(seed);
  let held = 0;
  for (let i = 0; i < count; i += 1) if (holds(from)) held += 1;
  return held / count;
}

/** The share stated, within four standard errors of so many tries. */
function expectNear(found: number, stated: number, count: number): void {
  const room = 4 * Math.sqrt((stated * (1 - stated)) / count);
  expect(found).toBeGreaterThanOrEqual(stated - room);
  expect(found).toBeLessThanOrEqual(stated + room);
}

describe('hourly values in 14 days', () => {
  const hours = 24 * 14;
  const times = upTo(hours).map((hour) => hour * 3600000);
  const rhythm = (hour: number) => 2 * Math.sin((2 * Math.PI * hour) / 24);
  const medianOfDay = (values: number[], day: number) => {
    const ordered = values.slice(24 * day, 24 * day + 24).sort((a, b) => a - b);
    return ((ordered[11] as number) + (ordered[12] as number)) / 2;
  };
  const count = some(400, 60);

  test.each([
    [0, 0.05],
    [0.5, 0.2],
    [0.9, 0.59],
    [0.97, 0.8],
  ])('correlation %d from hour to hour: the seasonal test finds a trend in a share of %d', (correlation, stated) => {
    const trend = shareOf(
      count,
      81,
      ({ normal }) => seasonalKendall(times, withMemory(normal, hours, correlation)).p < 0.05,
    );
    expectNear(trend, stated, count);
    const medians = shareOf(count, 82, ({ normal }) => {
      const values = withMemory(normal, hours, correlation).map((value, hour) => value + rhythm(hour));
      return autocorrelatedTrend(upTo(14).map((day) => medianOfDay(values, day))).verdict !== 'not_distinguishable';
    });
    expect(medians).toBeLessThanOrEqual(0.06 + 4 * Math.sqrt((0.06 * 0.94) / count));
  });
});

describe('charts and lines that take values for independent', () => {
  const count = some(1000, 150);

  test.each([
    [0, 0.17, 0.4, 0.16],
    [0.5, 0.75, 0.94, 0.84],
    [0.9, 0.9, 0.98, 0.96],
  ])('correlation %d: false signals within 90 values', (correlation, average, four, five) => {
    const sums = (decision: number) =>
      shareOf(count, 91, ({ normal }) => {
        const { signals } = cusum(withMemory(normal, 90, correlation), { target: 0, slack: 0.5, decision });
        return signals.length > 0;
      });
    const signalled = shareOf(
      count,
      92,
      ({ normal }) =>
        (ewma(withMemory(normal, 90, correlation), { lambda: 0.3, start: 0, sigma: 1 }).signals ?? []).length > 0,
    );
    expectNear(signalled, average, count);
    expectNear(sums(4), four, count);
    expectNear(sums(5), five, count);
  });

  test.each([
    [30, 0, 0.05],
    [30, 0.5, 0.26],
    [10, 0.9, 0.54],
    [90, 0.9, 0.66],
  ])('n %d, correlation %d: a slope beyond twice its error', (n, correlation, stated) => {
    const beyond = shareOf(count, 93, ({ normal }) => {
      const { slope, slopeError } = leastSquaresLine(upTo(n), withMemory(normal, n, correlation));
      return Math.abs(slope) > 2 * slopeError;
    });
    expectNear(beyond, stated, count);
  });
});

describe('limits of a slope among ties', () => {
  const count = some(2000, 200);
  const held = (n: number, read: (value: number) => number) =>
    shareOf(count, 130, ({ normal }) => {
      const { low, high } = senSlope(
        upTo(n),
        upTo(n).map((i) => read(0.5 * normal() + 0.1 * i)),
      );
      return (low === null || low <= 0.1) && (high === null || high >= 0.1);
    });

  test.each([
    [5, 0.82],
    [10, 0.88],
    [20, 0.93],
    [30, 0.96],
  ])('%d whole values: held in a share of %d', (n, stated) => {
    expectNear(held(n, Math.round), stated, count);
  });

  test('continuous values: 95 to 97 %', () => {
    for (const n of [8, 20])
      expectNear(
        held(n, (value) => value),
        0.955,
        count,
      );
  });
});

test.each([
  [60, 0.95, 0.857],
  [120, 0.95, 0.92],
  [60, 0, 0.97],
])('%d values, a memory of %d, half scatter: the crossing is held in a share of %d', (n, correlation, stated) => {
  const count = some(600, 100);
  const held = shareOf(count, 20, ({ normal }) => {
    const wander = withMemory(normal, n, correlation);
    const values = wander.map((value, i) => Math.sqrt(0.5) * (value + normal()) + (4 * i) / n);
    const { outcome, earliest, latest } = forecastCrossing(upTo(n), values, { level: 8, season: 0 });
    const told = outcome !== 'never' && outcome !== 'reached';
    return told && (earliest === null || earliest <= 2 * n) && (latest === null || latest >= 2 * n);
  });
  expectNear(held, stated, count);
});

test.each([
  [0.98, 0.107, 0.892],
  [0.99, 0.131, 0.83],
])('90 values with a memory of %d: false trends in a share of %d, an end held in %d', (correlation, stated, held) => {
  const count = some(1000, 60);
  const found = shareOf(count, 21, ({ normal }) => {
    return autocorrelatedTrend(withMemory(normal, 90, correlation)).verdict !== 'not_distinguishable';
  });
  expectNear(found, stated, count);
  let given = 0;
  const within = shareOf(count, 22, ({ normal }) => {
    const values = withMemory(normal, 90, correlation).map((value, i) => value + (4 * i) / 90);
    const { earliest, latest } = forecastCrossing(upTo(90), values, { level: 8, season: 0 });
    if (latest === null) return false;
    given += 1;
    return latest >= 180 && (earliest === null || earliest <= 180);
  });
  expectNear((within * count) / given, held, given);
});

test.each([
  [4, 0, 0.017],
  [4, 0.5, 0.363],
  [2, 0.5, 0.487],
])(
  'a saw of %d in its middle, correlation %d: the earliest day is too late in a share of %d',
  (fall, memory, stated) => {
    const count = some(300, 50);
    const late = shareOf(count, 31, ({ normal }) => {
      const values = withMemory(normal, 120, memory).map((value, day) => value + day / 20 - (day >= 60 ? fall : 0));
      const { earliest, flags } = forecastCrossing(upTo(120), values, { level: 12 - fall });
      expect(flags).not.toContain('curved');
      return earliest !== null && earliest > 240;
    });
    expectNear(late, stated, count);
  },
);

test.each([
  [0.3, 3, 0.247],
  [0.6, 3, 0.107],
  [0.3, Infinity, 0.02],
])(
  'memory %d, four of five values above %d lost: an unflagged earliest day too late in a share of %d',
  (memory, most, stated) => {
    const count = some(300, 50);
    const late = shareOf(count, 53, ({ normal, share }) => {
      const values = withMemory(normal, 120, memory).map((value, day) => {
        const dirt = value + (4 * day) / 119;
        return dirt > most && share() < 0.8 ? null : dirt;
      });
      const { outcome, earliest, flags } = forecastCrossing(upTo(120), values, { level: 8, season: 0 });
      if (flags.some((flag) => flag !== 'far_beyond')) return false;
      return outcome === 'never' || (earliest !== null && earliest > 238);
    });
    expectNear(late, stated, count);
  },
);

describe('one change in a file', () => {
  const told = (count: number, seed: number, memory: number, added: (day: number) => number) =>
    shareOf(count, seed, ({ normal }) => {
      const values = withMemory(normal, 120, memory).map((value, day) => value + added(day));
      return changePoint(values).kind !== 'not_distinguishable';
    });

  test('dirt that came on day 30 of 120 and went is not told, however much it was', () => {
    for (const days of [20, 40, 60])
      for (const height of [3, 6])
        expect(told(some(150, 10), 51, 0.3, (day) => (day >= 30 && day < 30 + days ? height : 0))).toBe(0);
  });

  test.each([
    [100, 0.3, 0.803],
    [110, 0.3, 0.123],
    [110, 0, 0.71],
  ])('a step of four standard deviations on day %d of 120, correlation %d: told in a share of %d', (from, ...row) => {
    const [memory, stated] = row;
    const count = some(300, 60);
    expectNear(
      told(count, 52, memory, (day) => (day >= from ? 4 : 0)),
      stated,
      count,
    );
  });
});

describe('the smallest step that would be found by its third value', () => {
  /** A level that is added, and the scatter upon it. */
  type Course = (day: number) => readonly [number, number];
  const steady: Course = () => [0, 0.15];
  const shifts: Course = (day) => [day % 2 === 1 ? 0.4 : 0, 0.12];
  const grown: Course = (day) => [0, day < 60 ? 0.08 : 0.3];

  test.each<[string, Course, number, number]>([
    ['steady', steady, Math.exp(-1 / 3), 0.95],
    ['every second day 0.4 higher', shifts, 0.5, 0.863],
    ['scatter grown on day 60', grown, 0.5, 0.777],
  ])('%s', (_name, course, memory, stated) => {
    const count = some(300, 40);
    const prepared = prepareChange();
    const found = shareOf(count, 54, ({ normal }) => {
      let state = startChange();
      let [size, hit] = [0, false];
      withMemory(normal, 83, memory).forEach((wander, day) => {
        const [level, scatter] = course(day);
        const value = 16 + level + scatter * wander + (day >= 80 ? size : 0);
        const step = advanceChange(prepared, state, { day, value });
        state = step.state;
        if (day === 79) size = step.smallestStep as number;
        if (day >= 80 && step.change?.direction === 'up') hit = true;
      });
      return hit;
    });
    expectNear(found, stated, count);
  });
});

test('days with heavy tails make false changes, and normal ones of the same scale hardly any', () => {
  const years = some(100, 12);
  const prepared = prepareChange();
  const falseChanges = (day: (normal: () => number) => number) => {
    const { normal } = draws(15);
    let told = 0;
    for (let year = 0; year < years; year += 1) {
      let state = startChange();
      for (let i = 0; i < 365; i += 1) {
        const next = addDay(prepared, state, i, 17 + 0.15 * day(normal));
        state = next.state;
        if (next.change !== null) told += 1;
      }
    }
    return told / years;
  };
  // Student's t with three degrees of freedom
  const heavy = (normal: () => number) => normal() / Math.sqrt((normal() ** 2 + normal() ** 2 + normal() ** 2) / 3);
  // 0.32 stated, and four standard errors of Poisson counts
  const room = 4 * Math.sqrt(0.32 / years);
  expect(falseChanges(heavy)).toBeGreaterThanOrEqual(Math.max(0.04, 0.32 - room));
  expect(falseChanges(heavy)).toBeLessThanOrEqual(0.32 + room);
  expect(falseChanges((normal) => normal())).toBeLessThanOrEqual(0.05);
});

describe('the day of a change', () => {
  const count = some(150, 10);
  const prepared = prepareChange();
  /** The first change told of machines that this is added to from day 120 on, and how long after that. */
  const firstOf = (seed: number, days: number, added: (days: number) => number) => {
    const from = draws(seed);
    return upTo(count).flatMap(() => {
      const values = machineDays(from, days, {
        scatter: 0.15,
        memory: 3,
        added: (day) => added(Math.max(0, day - 119)),
      });
      let state = startChange();
      for (let day = 0; day < days; day += 1) {
        const next = addDay(prepared, state, day, values[day] as number);
        state = next.state;
        if (next.change !== null && day >= 120) return [{ ...next.change, after: day - 120 }];
      }
      return [];
    });
  };

  test('of a step is right', () => {
    const steps = firstOf(7, 150, (day) => (day > 0 ? 1 : 0)).filter(({ kind }) => kind === 'step');
    expect(steps.length).toBeGreaterThanOrEqual(0.9 * count);
    expect(steps.filter(({ since }) => since === 120).length).toBeGreaterThanOrEqual(0.93 * steps.length);
  });

  test('of what has crept is not told: the change comes weeks or months after it began', () => {
    for (const [monthly, fewest, days] of [
      [1, 14, 200],
      [0.2, 90, 400],
    ] as const) {
      const told = firstOf(8, days, (day) => (monthly * day) / 30.4375);
      const crept = told.filter(({ kind }) => kind !== 'step');
      expect(crept.length).toBeGreaterThanOrEqual(0.8 * count);
      expect(crept.every(({ since }) => since === null)).toBe(true);
      expect(crept.map(({ after }) => after).sort((a, b) => a - b)[Math.floor(crept.length / 2)]).toBeGreaterThan(
        fewest,
      );
    }
  });
});

describe('whole years with a season, four standard deviations either way', () => {
  const count = some(1000, 150);
  const day = 86400000;
  const found = (years: number, weeks: number, seasons: number, correlation: number, rise: number) =>
    shareOf(count, 401, ({ normal, share }) => {
      const phase = 2 * Math.PI * share();
      const values = withMemory(normal, 52 * years, correlation).map(
        (value, week) => value + (rise * week) / 52 + 4 * Math.sin((2 * Math.PI * week) / 52 + phase),
      );
      const means = upTo((52 * years) / weeks).map(
        (i) => values.slice(weeks * i, weeks * i + weeks).reduce((sum, value) => sum + value, 0) / weeks,
      );
      const times = means.map((_value, i) => (i + 0.5) * weeks * 7 * day);
      return seasonalKendall(times, means, { period: 364 * day, seasons }).p < 0.05;
    });

  test.each([
    [2, 4, 0, 0.02, 0.927],
    [2, 4, 0.5, 0.038, 0.634],
    [2, 4, 0.7, 0.066, 0.521],
    [2, 4, 0.9, 0.228, 0.511],
    [3, 13, 0.5, 0.022, 0.907],
    [3, 13, 0.8, 0.034, 0.608],
    [5, 13, 0.8, 0.063, 1],
  ])(
    '%d years, means of %d weeks correlated by %d: false in %d, a rise of one found in %d',
    (years, weeks, ...told) => {
      const [correlation, no, one] = told;
      expectNear(found(years, weeks, 52 / weeks, correlation, 0), no, count);
      expectNear(found(years, weeks, 52 / weeks, correlation, 1), one, count);
    },
  );

  test('means of weeks are too alike', () => {
    expectNear(found(2, 1, 52, 0.5, 0), 0.17, count);
    expectNear(found(2, 1, 13, 0.5, 0), 0.199, count);
  });
});

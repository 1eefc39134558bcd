/** False trends, trends found, other shapes of memory, and the published corrections beside. */
import { chanceOf } from '../../src/trend/autocorrelatedTrend.ts';
import { type RobustLine, robustLine } from '../../src/trend/dependence/robustLine.ts';
import { countPairs } from '../../src/trend/kendall.ts';
import { type KendallCorrection, mannKendall } from '../../src/trend/mannKendall.ts';
import { senSlopeOf } from '../../src/trend/senSlope.ts';
import { orderPoints, requirePresent } from '../../src/trend/trendPoints.ts';
import { withMemory } from '../../tests/properties/trend/trendCorrelated.ts';
import { memory, missing, noisy, type Series, shapes } from './series.ts';
import { percent, type Run, type Table } from './table.ts';

const correlations = [0, 0.5, 0.8, 0.9, 0.95];
const lengths = [30, 60, 120, 400];

/** The line of autocorrelatedTrend; its flags, which take most of the time, are left out. */
function lineOf(values: (number | null)[]): RobustLine {
  const { x, y } = requirePresent(values, 2);
  const points = orderPoints(x, y);
  return robustLine(points, senSlopeOf(points, countPairs(points, 0)), 0);
}

/** Whether autocorrelatedTrend would give a verdict. */
function honest(values: (number | null)[]): boolean {
  const line = lineOf(values);
  return line.dependence !== null && chanceOf(line) < 0.05;
}

function rate(run: Run, series: Series, n: number, claims: (values: (number | null)[]) => boolean): string {
  const from = run.fresh();
  let hits = 0;
  for (let i = 0; i < run.count; i += 1) if (claims(series(from, n))) hits += 1;
  return percent(hits, run.count);
}

export const falseTrends: Table = (run) => {
  const rows = lengths.flatMap((n) =>
    correlations.map((c) => [
      `${n}`,
      `${c}`,
      rate(run, memory(c), n, honest),
      rate(run, missing(c), n, honest),
      rate(run, noisy(c), n, honest),
    ]),
  );
  return [['n', 'correlation', 'all there', '20 % missing', 'half white noise'], ...rows];
};

/** A rise is added to the slope only: what the line leaves is the same with it and without. */
export const trendsFound: Table = (run) => {
  const rises = [2, 4, 8];
  const rows = lengths.flatMap((n) =>
    correlations.map((c) => {
      const from = run.fresh();
      const series = memory(c);
      const hits = rises.map(() => 0);
      for (let i = 0; i < run.count; i += 1) {
        const line = lineOf(series(from, n));
        rises.forEach((rise, at) => {
          const found = line.dependence !== null && chanceOf({ ...line, slope: line.slope + rise / n }) < 0.05;
          if (found) hits[at] = (hits[at] as number) + 1;
        });
      }
      return [`${n}`, `${c}`, ...hits.map((hit) => percent(hit, run.count))];
    }),
  );
  return [['n', 'correlation', 'rise of 2', 'of 4', 'of 8 standard deviations'], ...rows];
};

export const otherShapes: Table = (run) => {
  const rows = Object.entries(shapes()).map(([name, series]) => [
    name,
    ...[30, 60, 120, 365].map((n) => rate(run, series, n, honest)),
  ]);
  return [['shape', 'n 30', '60', '120', '365'], ...rows];
};

/** A trend over the last 40 days, looked at each day of a year without one. */
export const repeatedLooks: Table = (run) => {
  const rows = [
    { correlation: 0, year: 0 },
    { correlation: 0.3, year: 0 },
    { correlation: 0.6, year: 0 },
    { correlation: 0.9, year: 0 },
    { correlation: 0.6, year: 2 },
  ].map(({ correlation, year }) => {
    const from = run.fresh();
    let [years, times, days, looks] = [0, 0, 0, 0];
    for (let i = 0; i < run.count; i += 1) {
      const phase = 2 * Math.PI * from.share();
      const values = withMemory(from.normal, 365, correlation).map(
        (value, day) => value + year * Math.sin((2 * Math.PI * day) / 365.25 + phase),
      );
      let [before, any] = [false, false];
      for (let last = 40; last <= 365; last += 1) {
        const now = honest(values.slice(last - 40, last));
        looks += 1;
        if (now) days += 1;
        if (now && !before) times += 1;
        any ||= now;
        before = now;
      }
      if (any) years += 1;
    }
    const cells = [percent(years, run.count), (times / run.count).toFixed(1), percent(days, looks)];
    return [`${correlation}`, `${year}`, ...cells];
  });
  return [
    [
      'correlation',
      'half-swing over the year, in scatters',
      'years that show a trend at least once, %',
      'times a year it begins',
      'days that show it, %',
    ],
    ...rows,
  ];
};

/** A rhythm of the week upon a memory, by days and as means of weeks. */
export const weekEnds: Table = (run) => {
  const days =
    (correlation: number, lower: number): Series =>
    ({ normal }, n) =>
      withMemory(normal, n, correlation).map((value, day) => value - (day % 7 > 4 ? lower : 0));
  const weeks =
    (correlation: number, lower: number): Series =>
    (from, n) => {
      const all = days(correlation, lower)(from, 7 * n) as number[];
      return Array.from({ length: n }, (_x, week) => {
        const own = all.slice(7 * week, 7 * week + 7);
        return own.reduce((sum, value) => sum + value, 0) / 7;
      });
    };
  const rows = [0.5, 0.8, 0.9, 0.95].flatMap((correlation) =>
    [0, 1, 2].map((lower) => [
      `${correlation}`,
      `${lower}`,
      ...[40, 91, 119].map((n) => rate(run, days(correlation, lower), n, honest)),
      ...[13, 17, 26, 52].map((n) => rate(run, weeks(correlation, lower), n, honest)),
    ]),
  );
  return [
    [
      'correlation of days',
      'week ends lower by',
      '40 days',
      '91 days',
      '119 days',
      '13 weeks',
      '17 weeks',
      '26 weeks',
      '52 weeks',
    ],
    ...rows,
  ];
};

export const corrections: Table = (run) => {
  const by = (correction?: KendallCorrection) => (values: (number | null)[]) => {
    try {
      return mannKendall(values as number[], correction === undefined ? {} : { correction }).p < 0.05;
    } catch {
      return false;
    }
  };
  const tests: [string, (values: (number | null)[]) => boolean][] = [
    ['Mann-Kendall', by()],
    ['Hamed and Rao', by('hamed_rao')],
    ['Yue and Wang', by('yue_wang')],
    ['pre-whitening', by('pre_whitening')],
    ['trend-free pre-whitening', by('trend_free_pre_whitening')],
    ['autocorrelatedTrend', honest],
  ];
  const cells: [number, number][] = [
    [30, 0],
    [30, 0.5],
    [30, 0.9],
    [120, 0],
    [120, 0.5],
    [120, 0.9],
  ];
  const rows = tests.map(([name, test]) => [name, ...cells.map(([n, c]) => rate(run, memory(c), n, test))]);
  return [['test', ...cells.map(([n, c]) => `n ${n}, ${c}`)], ...rows];
};

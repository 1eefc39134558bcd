/** How often the limits of a crossing hold, and what a yearly swing does to them. */
import { forecastCrossing } from '../../src/trend/forecastCrossing.ts';
import { withMemory } from '../../tests/properties/trend/trendCorrelated.ts';
import { percent, type Table } from './table.ts';

const correlations = [0, 0.5, 0.8, 0.9, 0.95];

export const crossings: Table = (run) => {
  const rows = [30, 60, 120, 365].flatMap((n) =>
    correlations.map((c) => {
      const from = run.fresh();
      let [inside, ended, endedInside] = [0, 0, 0];
      const truth = 2 * n;
      const times = Array.from({ length: n }, (_x, i) => i);
      for (let i = 0; i < run.count; i += 1) {
        const values = withMemory(from.normal, n, c).map((value, i) => value + (4 * i) / n);
        const { outcome, earliest, latest } = forecastCrossing(times, values, { level: (4 * truth) / n, season: 0 });
        const holds =
          outcome !== 'never' &&
          outcome !== 'reached' &&
          (earliest === null || earliest <= truth) &&
          (latest === null || latest >= truth);
        if (holds) inside += 1;
        if (latest !== null) ended += 1;
        if (latest !== null && holds) endedInside += 1;
      }
      return [`${n}`, `${c}`, percent(inside, run.count), percent(ended, run.count), percent(endedInside, ended)];
    }),
  );
  return [['n', 'correlation', 'crossing held', 'end given', 'held where an end is given'], ...rows];
};

/** Slow growth in oil of a scatter of 0.2: a class is reached in half a class from the last day. */
export const slowCrossings: Table = (run) => {
  const rows = [10, 25, 50].flatMap((growth) =>
    [90, 120, 365].flatMap((n) =>
      [0, 0.3, 0.6, 0.9].map((c) => {
        const from = run.fresh();
        const slope = Math.log2(1 + growth / 100) / 365.25;
        const level = slope * (n - 1) + 0.5;
        const truth = level / slope;
        let [inside, ended, endedInside] = [0, 0, 0];
        const times = Array.from({ length: n }, (_x, i) => i);
        for (let i = 0; i < run.count; i += 1) {
          const values = withMemory(from.normal, n, c).map((value, day) => 0.2 * value + slope * day);
          const { outcome, earliest, latest } = forecastCrossing(times, values, { level, season: 0 });
          const open = outcome === 'expected' || outcome === 'not_distinguishable';
          const holds = open && (earliest ?? 0) <= truth && (latest ?? Infinity) >= truth;
          if (holds) inside += 1;
          if (latest !== null) ended += 1;
          if (latest !== null && holds) endedInside += 1;
        }
        const cells = [percent(inside, run.count), percent(ended, run.count), percent(endedInside, ended)];
        return [`${growth} %`, `${n}`, `${c}`, ((slope * n) / 0.2).toFixed(1), ...cells];
      }),
    ),
  );
  return [
    [
      'growth a year',
      'days',
      'correlation',
      'rise in standard deviations',
      'crossing held',
      'end given',
      'held where an end is given',
    ],
    ...rows,
  ];
};

export const seasons: Table = (run) => {
  const rows = [60, 120, 240, 365].flatMap((n) =>
    [0, 1].map((season) => {
      const from = run.fresh();
      let [line, value] = [0, 0];
      const times = Array.from({ length: n }, (_x, i) => i);
      for (let i = 0; i < run.count; i += 1) {
        const phase = 2 * Math.PI * from.share();
        const swing = (day: number) => Math.sin((2 * Math.PI * day) / 365.25 + phase);
        const rise = 4 / n;
        const values = withMemory(from.normal, n, 0.5).map((noise, i) => noise + rise * i + swing(i));
        const truth = 2 * n;
        const level = rise * truth;
        let crossing = n;
        while (crossing < truth + 400 && rise * crossing + swing(crossing) < level) crossing += 1;
        const { outcome, earliest, latest } = forecastCrossing(times, values, { level, season });
        const holds = (time: number) =>
          outcome === 'reached'
            ? time <= n
            : outcome !== 'never' && (earliest ?? 0) <= time && (latest ?? Infinity) >= time;
        if (holds(truth)) line += 1;
        if (holds(crossing)) value += 1;
      }
      return [`${n}`, season === 0 ? 'not told' : 'told', percent(line, run.count), percent(value, run.count)];
    }),
  );
  return [['n', 'season', 'crossing of the line held', 'of the swinging value'], ...rows];
};

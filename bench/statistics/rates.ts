/**
 * How often the statistics on a series are wrong, and what they find: the tables of docs/trends.md. Fixed seeds;
 * another first argument, others.
 *
 *     npx esbuild bench/statistics/rates.ts --bundle --platform=node --format=esm --outfile=/tmp/rates.mjs
 *     node /tmp/rates.mjs 1 trend 2000       seed, table, series a cell (machine-years for the change tables)
 *
 * Tables: trend, power, shapes, textbook, crossing, season, false, found, others.
 */
import { chanceOf, requireBlocks } from '../../src/trend/autocorrelatedTrend.ts';
import { addDay, prepareChange, startChange } from '../../src/trend/change/advance.ts';
import type { Change, ChangeOptions } from '../../src/trend/change/types.ts';
import { robustLine } from '../../src/trend/dependence/robustLine.ts';
import { forecastCrossing } from '../../src/trend/forecastCrossing.ts';
import { countPairs } from '../../src/trend/kendall.ts';
import { type KendallCorrection, mannKendall } from '../../src/trend/mannKendall.ts';
import { orderPoints } from '../../src/trend/trendPoints.ts';
import { draws, type MachineDays, machineDays, withMemory } from '../../tests/properties/trendCorrelated.ts';

const [seedText = '1', table = 'trend', countText = '200'] = process.argv.slice(2);
const seed = Number(seedText);
const count = Number(countText);
type Draws = ReturnType<typeof draws>;
type Series = (from: Draws, n: number) => (number | null)[];

const percent = (hits: number, of = count) => (of === 0 ? '-' : ((100 * hits) / of).toFixed(1));
function print(header: readonly string[], rows: readonly (readonly string[])[]): void {
  console.log([header, header.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n'));
}
let cell = 0;
/** Draws of a cell's own. */
const fresh = () => draws(seed * 1000003 + 7919 * ++cell);

function rate(series: Series, n: number, claims: (values: (number | null)[]) => boolean): string {
  const from = fresh();
  let hits = 0;
  for (let run = 0; run < count; run += 1) if (claims(series(from, n))) hits += 1;
  return percent(hits);
}
/** Whether autocorrelatedTrend would give a verdict; its flags, which take most of the time, are left out. */
function honest(values: (number | null)[]): boolean {
  const { blocks, present } = requireBlocks(values);
  const points = orderPoints(blocks, present);
  const line = robustLine(points, countPairs(points, 0), 0);
  return line.dependence !== null && chanceOf(line) < 0.05;
}
const memory =
  (correlation: number, rise = 0): Series =>
  ({ normal }, n) =>
    withMemory(normal, n, correlation).map((value, i) => value + (rise * i) / n);
const missing =
  (correlation: number): Series =>
  ({ normal, share }, n) =>
    withMemory(normal, n, correlation).map((value) => (share() < 0.2 ? null : value));
const noisy =
  (correlation: number): Series =>
  ({ normal }, n) =>
    withMemory(normal, n, correlation).map((value) => (value + normal()) / Math.SQRT2);

const correlations = [0, 0.5, 0.8, 0.9, 0.95];
const lengths = [30, 60, 120, 400];

function shapes(): Record<string, Series> {
  return {
    'AR(2), 0.9 and -0.5': ({ normal }, n) => {
      const values = [normal(), normal()];
      while (values.length < n + 50)
        values.push(0.9 * (values.at(-1) as number) - 0.5 * (values.at(-2) as number) + normal());
      return values.slice(50);
    },
    'AR(2), 0.5 and 0.4': ({ normal }, n) => {
      const values = [normal(), normal()];
      while (values.length < n + 200)
        values.push(0.5 * (values.at(-1) as number) + 0.4 * (values.at(-2) as number) + normal());
      return values.slice(200);
    },
    'moving average of 5': ({ normal }, n) => {
      const raw = Array.from({ length: n + 4 }, normal);
      return Array.from({ length: n }, (_x, i) => raw.slice(i, i + 5).reduce((sum, value) => sum + value, 0));
    },
    '1/f (sum of memories of 1 to 256)': ({ normal }, n) => {
      const parts = [1, 4, 16, 64, 256].map((days) => withMemory(normal, n, Math.exp(-1 / days)));
      return Array.from({ length: n }, (_x, i) => parts.reduce((sum, part) => sum + (part[i] as number), 0));
    },
    'heavy tails (cubed), memory 0.8': ({ normal }, n) => withMemory(normal, n, 0.8).map((value) => value ** 3),
    'rhythm of 7, half as large as the scatter, memory 0.5': ({ normal }, n) =>
      withMemory(normal, n, 0.5).map((value, i) => value + 0.5 * Math.sin((2 * Math.PI * i) / 7)),
    'slow temperature, half a scatter a year': ({ normal, share }, n) => {
      const phase = 2 * Math.PI * share();
      return withMemory(normal, n, 0.5).map((value, i) => value + 0.5 * Math.sin((2 * Math.PI * i) / 365.25 + phase));
    },
    'whole codes, memory 0.8': ({ normal }, n) => withMemory(normal, n, 0.8).map((value) => Math.ceil(17.3 + value)),
  };
}

const options: ChangeOptions = {};
function told(values: readonly (number | null)[], known: ChangeOptions = options): (Change & { day: number })[] {
  const prepared = prepareChange(known);
  let state = startChange();
  const found: (Change & { day: number })[] = [];
  values.forEach((value, day) => {
    if (value === null) return;
    const next = addDay(prepared, state, day, value);
    state = next.state;
    if (next.change !== null) found.push({ day, ...next.change });
  });
  return found;
}
const scatters = [0.1, 0.15, 0.3];
const memories = [0.25, 1, 3, 7];
/** The share of a step that the day on which it happens shows: the hour is any. */
const bump =
  (at: number, part: number, size = 1) =>
  (day: number) =>
    day < at ? 0 : day === at ? size * part : size;

function falseChanges(make: (from: Draws) => (number | null)[], known: ChangeOptions): string {
  const from = fresh();
  let sum = 0;
  for (let run = 0; run < count; run += 1) sum += told(make(from), known).length;
  return (sum / count).toFixed(2);
}

function found(scatter: number, days: number): string[] {
  const from = fresh();
  const hits = [0, 0, 0, 0, 0];
  const within = (list: (Change & { day: number })[], day: number, direction: 'up' | 'down', most = 3) =>
    list.some((one) => one.direction === direction && one.day >= day && one.day <= day + most);
  for (let run = 0; run < count; run += 1) {
    const at = 90 + Math.floor(30 * from.share());
    const part = from.share();
    const base = machineDays(from, at + 125, { scatter, memory: days });
    const short = base.slice(0, at + 15);
    const step = bump(at, part);
    const next = bump(at + 7, part);
    const add = (list: number[], added: (day: number) => number) => list.map((value, day) => value + added(day));
    if (told(add(short, step)).some((one) => one.kind === 'step' && one.day >= at && one.day <= at + 3))
      hits[0] = (hits[0] as number) + 1;
    if (within(told(add(short, (day) => step(day) + next(day))), at + 7, 'up')) hits[1] = (hits[1] as number) + 1;
    if (within(told(add(short, (day) => step(day) - next(day))), at + 7, 'down')) hits[2] = (hits[2] as number) + 1;
    const rise = told(add(base, (day) => (0.5 * Math.max(0, day - at)) / 30.4375)).filter((one) => one.day >= at);
    if (rise.some((one) => one.direction === 'up' && one.day < at + 42)) hits[3] = (hits[3] as number) + 1;
    if (rise.some((one) => one.direction === 'up')) hits[4] = (hits[4] as number) + 1;
  }
  return hits.map((hit) => percent(hit));
}

const tables: Record<string, () => void> = {
  trend: () => {
    const rows = lengths.flatMap((n) =>
      correlations.map((c) => [
        `${n}`,
        `${c}`,
        rate(memory(c), n, honest),
        rate(missing(c), n, honest),
        rate(noisy(c), n, honest),
      ]),
    );
    print(['n', 'correlation', 'all there', '20 % missing', 'half white noise'], rows);
  },
  power: () => {
    const rows = lengths.flatMap((n) =>
      correlations.map((c) => [
        `${n}`,
        `${c}`,
        rate(memory(c, 2), n, honest),
        rate(memory(c, 4), n, honest),
        rate(memory(c, 8), n, honest),
      ]),
    );
    print(['n', 'correlation', 'rise of 2', 'of 4', 'of 8 standard deviations'], rows);
  },
  shapes: () => {
    const rows = Object.entries(shapes()).map(([name, series]) => [
      name,
      ...[30, 60, 120, 365].map((n) => rate(series, n, honest)),
    ]);
    print(['shape', 'n 30', '60', '120', '365'], rows);
  },
  textbook: () => {
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
    const rows = tests.map(([name, test]) => [name, ...cells.map(([n, c]) => rate(memory(c), n, test))]);
    print(['test', ...cells.map(([n, c]) => `n ${n}, ${c}`)], rows);
  },
  crossing: () => {
    const rows = [30, 60, 120, 365].flatMap((n) =>
      correlations.map((c) => {
        const from = fresh();
        let [inside, ended, endedInside] = [0, 0, 0];
        const truth = 2 * n;
        const times = Array.from({ length: n }, (_x, i) => i);
        for (let run = 0; run < count; run += 1) {
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
        return [`${n}`, `${c}`, percent(inside), percent(ended), percent(endedInside, ended)];
      }),
    );
    print(['n', 'correlation', 'crossing held', 'end given', 'held where an end is given'], rows);
  },
  season: () => {
    const rows = [60, 120, 240, 365].flatMap((n) =>
      [0, 1].map((season) => {
        const from = fresh();
        let [line, value] = [0, 0];
        const times = Array.from({ length: n }, (_x, i) => i);
        for (let run = 0; run < count; run += 1) {
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
        return [`${n}`, season === 0 ? 'not told' : 'told', percent(line), percent(value)];
      }),
    );
    print(['n', 'season', 'crossing of the line held', 'of the swinging value'], rows);
  },
  false: () => {
    const rows = scatters.flatMap((scatter) =>
      memories.map((days) => {
        const machine: MachineDays = { scatter, memory: days };
        return [
          `${scatter}`,
          `${days}`,
          falseChanges((from) => machineDays(from, 365, machine), { season: 0 }),
          falseChanges((from) => machineDays(from, 365, machine), {}),
          falseChanges((from) => machineDays(from, 365, { ...machine, year: 0.3 }), {}),
        ];
      }),
    );
    print(['scatter', 'memory, days', 'season: 0', 'season: 0.3', 'a yearly swing of 0.3, season: 0.3'], rows);
  },
  found: () => {
    const rows = scatters.flatMap((scatter) =>
      memories.map((days) => [`${scatter}`, `${days}`, ...found(scatter, days)]),
    );
    print(
      [
        'scatter',
        'memory, days',
        'step in 3 days',
        'second a week later',
        'return of a pulse',
        '0.5 a month in 6 weeks',
        'in 4 months',
      ],
      rows,
    );
  },
  others: () => {
    const base: MachineDays = { scatter: 0.15, memory: 3 };
    const yearOf =
      (change: (value: number, from: Draws, day: number) => number | null, more: Partial<MachineDays> = {}) =>
      (from: Draws) =>
        machineDays(from, 365, { ...base, ...more }).map((value, day) => change(value, from, day));
    const rows: [string, string][] = [
      [
        '20 % of days missing',
        falseChanges(
          yearOf((value, from) => (from.share() < 0.2 ? null : value)),
          {},
        ),
      ],
      [
        '3 % wild days, 3 classes up',
        falseChanges(
          yearOf((value, from) => (from.share() < 0.03 ? value + 3 : value)),
          {},
        ),
      ],
      [
        'dirty first week, 3 classes',
        falseChanges(
          yearOf((value, _from, day) => value + Math.max(0, 3 * (1 - day / 7))),
          {},
        ),
      ],
      [
        'week ends 0.8 lower',
        falseChanges(
          yearOf((value) => value, { week: 0.8 }),
          {},
        ),
      ],
      [
        'whole codes of each day',
        falseChanges(
          yearOf((value, _from) => Math.ceil(value + 0.25)),
          {},
        ),
      ],
      [
        'Monday, Wednesday, Friday',
        falseChanges(
          yearOf((value, _from, day) => (day % 7 === 0 || day % 7 === 2 || day % 7 === 4 ? value : null)),
          {},
        ),
      ],
      [
        'yearly swing of 0.5, season: 0.3',
        falseChanges(
          yearOf((value) => value, { year: 0.5 }),
          {},
        ),
      ],
      [
        'yearly swing of 0.7, season: 0.3',
        falseChanges(
          yearOf((value) => value, { year: 0.7 }),
          {},
        ),
      ],
      [
        'yearly swing of 0.7, season: 0.7',
        falseChanges(
          yearOf((value) => value, { year: 0.7 }),
          { season: 0.7 },
        ),
      ],
    ];
    print(['scatter 0.15, memory 3 days, and', 'false changes a machine-year'], rows);
  },
};

const chosen = tables[table];
if (chosen === undefined) throw new Error(`no table ${table}: one of ${Object.keys(tables).join(', ')}`);
chosen();

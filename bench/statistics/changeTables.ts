/** False changes a machine-year, and changes found. */
import { addDay, prepareChange, startChange } from '../../src/trend/change/advance.ts';
import type { Change, ChangeOptions, ChangeState } from '../../src/trend/change/types.ts';
import { type MachineDays, machineDays } from '../../tests/properties/trend/trendCorrelated.ts';
import { type Draws, percent, type Run, type Table } from './table.ts';

type Told = Change & { day: number };

/** What is told of the days from `first` on, after those that led to the state `before`; and the state after them. */
function follow(
  values: readonly (number | null)[],
  known: ChangeOptions,
  before = startChange(),
  first = 0,
): { found: Told[]; state: ChangeState } {
  const prepared = prepareChange(known);
  let state = before;
  const found: Told[] = [];
  values.forEach((value, i) => {
    if (value === null) return;
    const next = addDay(prepared, state, first + i, value);
    state = next.state;
    if (next.change !== null) found.push({ day: first + i, ...next.change });
  });
  return { found, state };
}

function told(values: readonly (number | null)[], known: ChangeOptions = {}): Told[] {
  return follow(values, known).found;
}
const scatters = [0.1, 0.15, 0.3];
const memories = [0.25, 1, 3, 7];
/** The share of a step that the day on which it happens shows: the hour is any. */
const bump =
  (at: number, part: number, size = 1) =>
  (day: number) =>
    day < at ? 0 : day === at ? size * part : size;

function rateOf(run: Run, make: (from: Draws) => (number | null)[], known: ChangeOptions): string {
  const from = run.fresh();
  let sum = 0;
  for (let i = 0; i < run.count; i += 1) sum += told(make(from), known).length;
  return (sum / run.count).toFixed(2);
}

function found(run: Run, scatter: number, days: number): string[] {
  const from = run.fresh();
  const hits = [0, 0, 0, 0, 0];
  const within = (list: Told[], day: number, direction: 'up' | 'down', most = 3) =>
    list.some((one) => one.direction === direction && one.day >= day && one.day <= day + most);
  for (let i = 0; i < run.count; i += 1) {
    const at = 90 + Math.floor(30 * from.share());
    const part = from.share();
    const base = machineDays(from, at + 125, { scatter, memory: days });
    const { state } = follow(base.slice(0, at), {});
    const after = (until: number, added: (day: number) => number) =>
      follow(
        base.slice(at, until).map((value, i) => value + added(at + i)),
        {},
        state,
        at,
      ).found;
    const step = bump(at, part);
    const next = bump(at + 7, part);
    const short = at + 15;
    if (after(short, step).some((one) => one.kind === 'step' && one.day <= at + 3)) hits[0] = (hits[0] as number) + 1;
    if (
      within(
        after(short, (day) => step(day) + next(day)),
        at + 7,
        'up',
      )
    )
      hits[1] = (hits[1] as number) + 1;
    if (
      within(
        after(short, (day) => step(day) - next(day)),
        at + 7,
        'down',
      )
    )
      hits[2] = (hits[2] as number) + 1;
    const rise = after(at + 125, (day) => (0.5 * (day - at)) / 30.4375);
    if (rise.some((one) => one.direction === 'up' && one.day < at + 42)) hits[3] = (hits[3] as number) + 1;
    if (rise.some((one) => one.direction === 'up')) hits[4] = (hits[4] as number) + 1;
  }
  return hits.map((hit) => percent(hit, run.count));
}

export const falseChanges: Table = (run) => {
  const rows = scatters.flatMap((scatter) =>
    memories.map((days) => {
      const machine: MachineDays = { scatter, memory: days };
      return [
        `${scatter}`,
        `${days}`,
        rateOf(run, (from) => machineDays(from, 365, machine), { season: 0 }),
        rateOf(run, (from) => machineDays(from, 365, machine), {}),
        rateOf(run, (from) => machineDays(from, 365, { ...machine, year: 0.3 }), {}),
      ];
    }),
  );
  return [['scatter', 'memory, days', 'season: 0', 'season: 0.3', 'a yearly swing of 0.3, season: 0.3'], ...rows];
};

export const changesFound: Table = (run) => {
  const rows = scatters.flatMap((scatter) =>
    memories.map((days) => [`${scatter}`, `${days}`, ...found(run, scatter, days)]),
  );
  return [
    [
      'scatter',
      'memory, days',
      'step in 3 days',
      'second a week later',
      'return of a pulse',
      '0.5 a month in 6 weeks',
      'in 4 months',
    ],
    ...rows,
  ];
};

/** What is done to a day's value, what else the machine does, and what the detector is told. */
interface Condition {
  readonly change?: (value: number, from: Draws, day: number) => number | null;
  readonly machine?: Partial<MachineDays>;
  readonly known?: ChangeOptions;
}

const conditions: Readonly<Record<string, Condition>> = {
  '20 % of days missing': { change: (value, from) => (from.share() < 0.2 ? null : value) },
  '3 % wild days, 3 classes up': { change: (value, from) => (from.share() < 0.03 ? value + 3 : value) },
  'dirty first week, 3 classes': { change: (value, _from, day) => value + Math.max(0, 3 * (1 - day / 7)) },
  'week ends 0.8 lower': { machine: { week: 0.8 } },
  'whole codes of each day': { change: (value) => Math.ceil(value + 0.25) },
  'Monday, Wednesday, Friday': {
    change: (value, _from, day) => (day % 7 === 0 || day % 7 === 2 || day % 7 === 4 ? value : null),
  },
  'yearly swing of 0.5, season: 0.3': { machine: { year: 0.5 } },
  'yearly swing of 0.7, season: 0.3': { machine: { year: 0.7 } },
  'yearly swing of 0.7, season: 0.7': { machine: { year: 0.7 }, known: { season: 0.7 } },
  'scatter 2.5 times as large from day 183 on': { change: (value, _from, day) => 17 + (value - 17) * wider(day) },
  '5 idle days in 30, 0.8 lower': { change: (value, _from, day) => value - (day % 30 > 24 ? 0.8 : 0) },
  'values in halves': { change: halved },
  'values in halves, resolution: 0': { change: halved, known: { resolution: 0 } },
  'mean of two whole codes a day': { change: codes(2) },
  'mean of 24 whole codes a day': { change: codes(24) },
  'mean of 24 whole codes a day, resolution: 1': { change: codes(24), known: { resolution: 1 } },
};

function wider(day: number): number {
  return day < 182 ? 1 : 2.5;
}

function halved(value: number): number {
  return Math.round(2 * value + 0.6) / 2;
}

/** The mean of so many codes, of readings that scatter by 0.1 about the value of the day. */
function codes(count: number): (value: number, from: Draws) => number {
  return (value, { normal }) => {
    let sum = 0;
    for (let i = 0; i < count; i += 1) sum += Math.ceil(value + 0.3 + 0.1 * normal());
    return sum / count;
  };
}

export const otherConditions: Table = (run) => {
  const rows = Object.entries(conditions).map(([name, { change, machine, known = {} }]) => {
    const days = (from: Draws, count: number, added?: (day: number) => number) =>
      machineDays(from, count, { scatter: 0.15, memory: 3, ...machine }).map((mean, day) => {
        const value = mean + (added?.(day) ?? 0);
        return change === undefined ? value : change(value, from, day);
      });
    const rate = rateOf(run, (from) => days(from, 365), known);
    const from = run.fresh();
    let hits = 0;
    for (let i = 0; i < run.count; i += 1) {
      const at = 90 + Math.floor(30 * from.share());
      const list = told(days(from, at + 15, bump(at, from.share())), known);
      if (list.some((one) => one.direction === 'up' && one.day >= at && one.day <= at + 3)) hits += 1;
    }
    return [name, rate, percent(hits, run.count)];
  });
  return [['scatter 0.15, memory 3 days, and', 'false changes a machine-year', 'step in 3 days, %'], ...rows];
};

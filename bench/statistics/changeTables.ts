/** False changes a machine-year, and changes found. */
import { addDay, prepareChange, startChange } from '../../src/trend/change/advance.ts';
import type { Change, ChangeOptions } from '../../src/trend/change/types.ts';
import { type MachineDays, machineDays } from '../../tests/properties/trendCorrelated.ts';
import { type Draws, percent, type Run, type Table } from './table.ts';

type Told = Change & { day: number };

function told(values: readonly (number | null)[], known: ChangeOptions = {}): Told[] {
  const prepared = prepareChange(known);
  let state = startChange();
  const found: Told[] = [];
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

export const otherConditions: Table = (run) => {
  const base: MachineDays = { scatter: 0.15, memory: 3 };
  const yearOf =
    (change: (value: number, from: Draws, day: number) => number | null, more: Partial<MachineDays> = {}) =>
    (from: Draws) =>
      machineDays(from, 365, { ...base, ...more }).map((value, day) => change(value, from, day));
  const rows: [string, string][] = [
    [
      '20 % of days missing',
      rateOf(
        run,
        yearOf((value, from) => (from.share() < 0.2 ? null : value)),
        {},
      ),
    ],
    [
      '3 % wild days, 3 classes up',
      rateOf(
        run,
        yearOf((value, from) => (from.share() < 0.03 ? value + 3 : value)),
        {},
      ),
    ],
    [
      'dirty first week, 3 classes',
      rateOf(
        run,
        yearOf((value, _from, day) => value + Math.max(0, 3 * (1 - day / 7))),
        {},
      ),
    ],
    [
      'week ends 0.8 lower',
      rateOf(
        run,
        yearOf((value) => value, { week: 0.8 }),
        {},
      ),
    ],
    [
      'whole codes of each day',
      rateOf(
        run,
        yearOf((value, _from) => Math.ceil(value + 0.25)),
        {},
      ),
    ],
    [
      'Monday, Wednesday, Friday',
      rateOf(
        run,
        yearOf((value, _from, day) => (day % 7 === 0 || day % 7 === 2 || day % 7 === 4 ? value : null)),
        {},
      ),
    ],
    [
      'yearly swing of 0.5, season: 0.3',
      rateOf(
        run,
        yearOf((value) => value, { year: 0.5 }),
        {},
      ),
    ],
    [
      'yearly swing of 0.7, season: 0.3',
      rateOf(
        run,
        yearOf((value) => value, { year: 0.7 }),
        {},
      ),
    ],
    [
      'yearly swing of 0.7, season: 0.7',
      rateOf(
        run,
        yearOf((value) => value, { year: 0.7 }),
        { season: 0.7 },
      ),
    ],
  ];
  return [['scatter 0.15, memory 3 days, and', 'false changes a machine-year'], ...rows];
};

/** When a rise is told, what a step is told of while learning, and what a gap costs. */
import { addDay, prepareChange, startChange } from '../../src/trend/change/advance.ts';
import { sightOf } from '../../src/trend/change/sight.ts';
import type { ChangeState } from '../../src/trend/change/types.ts';
import { viewOf } from '../../src/trend/change/view.ts';
import { type MachineDays, machineDays } from '../../tests/properties/trend/trendCorrelated.ts';
import { percent, type Table } from './table.ts';

const prepared = prepareChange();
const memories = [1, 3, 7];
const month = 30.4375;

/** The state after the days from `first` on, and how many of them it takes to tell a change upwards. */
function days(
  values: readonly number[],
  before: ChangeState = startChange(),
  first = 0,
): { state: ChangeState; told: number } {
  let state = before;
  let told = Infinity;
  values.forEach((value, i) => {
    const next = addDay(prepared, state, first + i, value);
    state = next.state;
    if (told === Infinity && next.change?.direction === 'up') told = i + 1;
  });
  return { state, told };
}

const seen = (state: ChangeState) => sightOf(prepared, viewOf(prepared, state));
const within = (told: readonly number[], most: number) =>
  percent(told.filter((day) => day <= most).length, told.length);
const meanOf = (list: readonly number[]) => (list.reduce((sum, one) => sum + one, 0) / list.length).toFixed(2);

/** Rises of so much a month; null: of as much as the detector says it would find. */
const rises: readonly (number | null)[] = [0.5, 1, 2, 3, null];
const quiet = 120;

export const risesTold: Table = (run) => {
  const rows = [0.15, 0.3].flatMap((scatter) =>
    memories.flatMap((memory) => {
      const from = run.fresh();
      const told = rises.map((): number[] => []);
      const claims: number[] = [];
      for (let i = 0; i < run.count; i += 1) {
        const values = machineDays(from, quiet + 120, { scatter, memory });
        const { state } = days(values.slice(0, quiet));
        const claim = seen(state).smallestMonthlyRise;
        if (claim !== null) claims.push(claim);
        rises.forEach((given, at) => {
          const rise = given ?? claim;
          if (rise === null) return;
          const rising = values.slice(quiet).map((value, day) => value + (rise * (day + 1)) / month);
          told[at]?.push(days(rising, state, quiet).told);
        });
      }
      return rises.map((rise, at) => [
        `${scatter}`,
        `${memory}`,
        rise === null ? `as told: ${meanOf(claims)}` : `${rise}`,
        ...[30, 42, 60, 90].map((most) => within(told[at] as number[], most)),
      ]);
    }),
  );
  return [['scatter', 'memory, days', 'rise a month', 'in 30 days', '42', '60', '90'], ...rows];
};

export const stepsWhileLearning: Table = (run) => {
  const rows = [null, 3, 6, 9, 12, 16, 20, 24, 28].map((at) => {
    const from = run.fresh();
    const cells = [1, 2].flatMap((size) => {
      const steps: number[] = [];
      const told: number[] = [];
      for (let i = 0; i < run.count; i += 1) {
        const values = machineDays(from, 120, { scatter: 0.15, memory: 3 }).map(
          (value, day) => value + (at !== null && day >= at ? size : 0),
        );
        const learned = days(values.slice(0, 29));
        steps.push(seen(learned.state).smallestStep as number);
        told.push(days(values).told);
      }
      return [meanOf(steps), within(told, 120)];
    });
    return [at === null ? 'no step' : `${at + 1}`, ...cells];
  });
  return [
    ['step on day', 'of 1: `smallestStep` on day 29', 'told by day 120, %', 'of 2: `smallestStep`', 'told, %'],
    ...rows,
  ];
};

/** Oil that is still cleaned when it is first learned: three classes above, fading to 37 % in so many days. */
export const whileCleaned: Table = (run) => {
  const rows = [null, 3, 7, 12, 20].map((fading) => {
    const from = run.fresh();
    const cells = [30, 45, 60, 90].flatMap((at) => {
      const steps: number[] = [];
      const told: number[] = [];
      for (let i = 0; i < run.count; i += 1) {
        const values = machineDays(from, at + 3, { scatter: 0.15, memory: 3 }).map(
          (value, day) => value + (fading === null ? 0 : 3 * Math.exp(-day / fading)),
        );
        const { state } = days(values.slice(0, at));
        const step = values.slice(at).map((value) => value + 1);
        steps.push(seen(state).smallestStep as number);
        told.push(days(step, state, at).told);
      }
      return [meanOf(steps), within(told, 3)];
    });
    return [fading === null ? 'clean from the start' : `${fading}`, ...cells];
  });
  const told = 'a step of 1 told in 3 days, %';
  const header = [30, 45, 60, 90].flatMap((at) => [`\`smallestStep\` after ${at} days`, told]);
  return [['fading, days', ...header], ...rows];
};

export const afterGaps: Table = (run) => {
  const machine: MachineDays = { scatter: 0.15, memory: 3 };
  const rows = [0, 7, 14, 21, 30, 45, 60, 70].map((gap) => {
    const from = run.fresh();
    const back = 100 + gap;
    const soon: number[] = [];
    const later: number[] = [];
    const sights = [2, 4, 7].map((): number[] => []);
    const told = [2, 4, 7].map((): number[] => []);
    for (let i = 0; i < run.count; i += 1) {
      const values = machineDays(from, back + 90, machine);
      const { state } = days(values.slice(0, 100));
      const after = values.slice(back);
      const step = days(
        after.map((value) => value + 1),
        state,
        back,
      ).told;
      soon.push(step);
      later.push(step);
      [2, 4, 7].forEach((wait, at) => {
        const before = days(after.slice(0, wait), state, back).state;
        const size = before.settled ? seen(before).smallestStep : null;
        if (size === null) return;
        sights[at]?.push(size);
        const stepped = after.slice(wait, wait + 7).map((value) => value + size);
        told[at]?.push(days(stepped, before, back + wait).told);
      });
    }
    const shown = [0, 1, 2].flatMap((at) => {
      const list = sights[at] as number[];
      return list.length === 0 ? ['-', '-'] : [meanOf(list), within(told[at] as number[], 3)];
    });
    return [`${gap}`, within(soon, 3), within(later, 90), ...shown];
  });
  return [
    [
      'gap, days',
      'a class more after it: told in 3 days, %',
      'in 90 days, %',
      '`smallestStep` after 2 days',
      'told in 3 days, %',
      'after 4 days',
      'told, %',
      'after 7 days',
      'told, %',
    ],
    ...rows,
  ];
};

/** The change detector: what it must tell, what it must not, and what it says where it cannot judge. */
import { describe, expect, test } from 'vitest';
import { addDay, advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { resumeChange } from '../../../src/trend/change/resume.ts';
import type { Change, ChangeOptions, ChangeState, ChangeStep } from '../../../src/trend/change/types.ts';
import { some } from '../../volume.ts';
import { draws, machineDays } from './trendCorrelated.ts';

type Told = Change & { readonly day: number };

/** Runs days through the detector; what it could find is worked out on the last day only. */
function run(values: readonly (number | null)[], options: ChangeOptions = {}, relearnOn = -1) {
  const prepared = prepareChange(options);
  let state: ChangeState = startChange();
  let last: ChangeStep | null = null;
  const told: Told[] = [];
  let bytes = 0;
  values.forEach((value, day) => {
    if (day === relearnOn) state = advanceChange(prepared, state, { day, relearn: true }).state;
    if (value === null) return;
    if (day > values.length - 8) last = advanceChange(prepared, state, { day, value });
    const { state: next, change } = last ?? addDay(prepared, state, day, value);
    if (day % 16 === 0) bytes = Math.max(bytes, JSON.stringify(next).length);
    state = day % 16 === 0 ? resumeChange(JSON.parse(JSON.stringify(next))) : next;
    if (change !== null) told.push({ day, ...change });
  });
  return { told, bytes, last: last as ChangeStep | null, state };
}

const calm = (seed: number, days: number, added?: (day: number) => number) =>
  machineDays(draws(seed), days, { scatter: 0.15, memory: 2, ...(added === undefined ? {} : { added }) });
const stepOn = (day: number, size: number) => (now: number) => (now >= day ? size : 0);
const runs = Array.from({ length: 12 }, (_x, i) => 100 + i);
const six = runs.slice(0, 6);
const few = runs.slice(0, some(6, 3));

describe('what it tells', () => {
  test('a step of one class within three days, up and down, and with every fifth day missing', () => {
    for (const seed of runs) {
      const up = calm(seed, 130, stepOn(100, 1));
      const first = run(up).told.filter(({ day }) => day >= 100)[0] as Told;
      expect(first).toMatchObject({ kind: 'step', direction: 'up' });
      expect(first.day).toBeLessThanOrEqual(103);
      expect(Math.abs((first.since as number) - 100)).toBeLessThanOrEqual(1);
      expect(Math.abs(first.after - first.before - 1)).toBeLessThan(0.6);
      const down = run(up.map((value) => -value)).told.filter(({ day }) => day >= 100)[0] as Told;
      expect(down).toMatchObject({ kind: 'step', direction: 'down', day: first.day });
      const gaps = up.map((value, day) => (day % 5 === 2 ? null : value));
      expect((run(gaps).told.filter(({ day }) => day >= 100)[0] as Told).day).toBeLessThanOrEqual(104);
    }
  });

  test('a second step a week later, and the return of a pulse of three days and of a week', () => {
    let second = 0;
    let returns = 0;
    for (const seed of runs) {
      const two = run(calm(seed, 120, (day) => (day >= 107 ? 2 : day >= 100 ? 1 : 0))).told;
      if (two.some(({ day, direction }) => day >= 107 && day <= 110 && direction === 'up')) second += 1;
      for (const length of [3, 7]) {
        const pulse = run(calm(seed, 120, (day) => (day >= 100 && day < 100 + length ? 1 : 0))).told;
        if (pulse.some(({ day, direction }) => day >= 100 + length && day <= 103 + length && direction === 'down')) {
          returns += 1;
        }
      }
    }
    expect(second).toBeGreaterThanOrEqual(11);
    expect(returns).toBeGreaterThanOrEqual(22);
  });

  test('a slow rise, again and again while it goes on', () => {
    for (const seed of few) {
      const told = run(calm(seed, 260, (day) => (Math.max(0, day - 100) * 1) / 30)).told;
      expect(told.filter(({ direction, day }) => direction === 'up' && day >= 100).length).toBeGreaterThanOrEqual(2);
    }
  });

  test('a rise of two classes a month within a month: it does not hide itself', () => {
    let soon = 0;
    for (const seed of runs) {
      const told = run(calm(seed, 150, (day) => (Math.max(0, day - 100) * 2) / 30)).told;
      if (told.some(({ direction, day }) => direction === 'up' && day >= 100 && day < 130)) soon += 1;
    }
    expect(soon).toBeGreaterThanOrEqual(11);
  });

  test('after a gap, what it says of the smallest step holds for the days that it has', () => {
    let [steps, told] = [0, 0];
    for (const seed of runs) {
      const values = calm(seed, 170);
      const state = run(values.slice(0, 100)).state;
      const back = (wait: number, size: number) => {
        let now = state;
        let last: ChangeStep | null = null;
        let found = false;
        for (let day = 120; day < 120 + wait + 3; day += 1) {
          const value = (values[day] as number) + (day < 120 + wait ? 0 : size);
          const step = advanceChange(prepareChange(), now, { day, value });
          now = step.state;
          if (day === 119 + wait) last = step;
          if (day >= 120 + wait && step.change?.direction === 'up') found = true;
        }
        return { last: last as ChangeStep | null, found };
      };
      expect(back(1, 0).last).toMatchObject({ standing: 'watching', smallestStep: null });
      const before = run(values.slice(0, 100)).last?.smallestStep as number;
      const size = back(2, 0).last?.smallestStep as number;
      expect(size).toBeGreaterThan(1.1 * before);
      steps += 1;
      if (back(2, size).found) told += 1;
    }
    expect(told).toBeGreaterThanOrEqual(steps - 1);
  });

  test('a small step of a nearly constant figure does not hide itself', () => {
    for (const size of [0.45, -0.45]) {
      const values = machineDays(draws(3), 180, { scatter: 0.005, memory: 1, added: stepOn(120, size) });
      expect(run(values).told).toHaveLength(1);
      expect(run(Array.from({ length: 180 }, (_x, day) => 17 + stepOn(120, size)(day))).told).toHaveLength(1);
    }
  });

  test('Monday, Wednesday and Friday will do; weeks alone it cannot judge', () => {
    for (const seed of few) {
      const values = calm(seed, 140, stepOn(105, 1));
      const three = run(values.map((value, day) => (day % 7 === 0 || day % 7 === 2 || day % 7 === 4 ? value : null)));
      expect(three.last?.standing).toBe('watching');
      expect((three.told.filter(({ day }) => day >= 105)[0] as Told).day).toBeLessThanOrEqual(112);
      // six values in two weeks, twelve in four: enough for a slow rise and a drift
      const rising = calm(seed, 200, (day) => Math.max(0, day - 120) / 30);
      const slow = run(rising.map((value, day) => (day % 7 === 0 || day % 7 === 2 || day % 7 === 4 ? value : null)));
      expect(slow.told.some(({ kind, direction, day }) => kind === 'slow' && direction === 'up' && day >= 120)).toBe(
        true,
      );
      const steady = calm(seed, 120).map((value, day) => ([0, 2, 4].includes(day % 7) ? value : null));
      expect(run(steady).last?.smallestMonthlyRise).toBeGreaterThan(0);
      const weekly = run(values.map((value, day) => (day % 7 === 0 ? value : null)));
      expect(weekly.told).toEqual([]);
      expect(weekly.last).toMatchObject({ standing: 'cannot_judge', smallestStep: null, smallestMonthlyRise: null });
    }
  });
});

describe('what it does not tell', () => {
  test('false changes: at most 0.3 in the year of a machine (twelve years here: at most seven)', () => {
    let told = 0;
    for (const seed of runs) {
      const memory = 0.25 + (seed % 4) * 2.25;
      told += run(machineDays(draws(seed + 50), 365, { scatter: 0.15, memory, year: 0.3 })).told.length;
    }
    expect(told).toBeLessThanOrEqual(7);
  });

  test('a dirty first week, a rhythm of the week, single wild days', () => {
    for (const seed of few) {
      expect(run(calm(seed, 110, (day) => (day < 7 ? 3 * (1 - day / 7) : 0))).told).toEqual([]);
    }
    // a wild day beside one that is high by chance may pass for a step, once in twelve
    const wild = (day: number) => (day === 80 || day === 95 ? 4 : 0);
    expect(six.reduce((sum, seed) => sum + run(calm(seed, 110, wild)).told.length, 0)).toBeLessThanOrEqual(2);
    let told = 0;
    for (const seed of runs) {
      told += run(machineDays(draws(seed), 200, { scatter: 0.1, memory: 1, week: 0.8 })).told.length;
    }
    expect(told).toBeLessThanOrEqual(3);
  });

  test('whole codes, rounded: a lasting step of one class is told within four weeks', () => {
    let told = 0;
    for (const seed of runs) {
      told += run(calm(seed, 365, () => 0.25).map(Math.ceil)).told.length;
      const step = run(calm(seed, 160, (day) => 0.5 + stepOn(120, 1)(day)).map(Math.ceil)).told;
      expect(step.filter(({ day }) => day >= 120 && day <= 148)).not.toEqual([]);
    }
    expect(told).toBeLessThanOrEqual(2);
  });

  test('values in halves are known as rounded, as whole ones are', () => {
    const halves = (seed: number) =>
      machineDays(draws(seed), 365, { scatter: 0.15, memory: 3 }).map((value) => Math.round(2 * value + 0.6) / 2);
    let [told, unrounded] = [0, 0];
    for (const seed of few) {
      told += run(halves(seed)).told.length;
      unrounded += run(halves(seed), { resolution: 0 }).told.length;
    }
    expect(told).toBe(0);
    expect(unrounded).toBeGreaterThanOrEqual(few.length);
  });

  test('the season told by the user is no change, the same swing untold is', () => {
    const swing = (day: number) => 1.2 * Math.sin((2 * Math.PI * day) / 365.25);
    let [known, unknown] = [0, 0];
    for (const seed of few) {
      known += run(calm(seed, 365, swing), { season: 1.2 }).told.length;
      unknown += run(calm(seed, 365, swing), { season: 0 }).told.length;
    }
    expect(known).toBeLessThanOrEqual(few.length / 3);
    expect(unknown).toBeGreaterThanOrEqual(2 * few.length);
  });

  test('after announced work the level is learned anew', () => {
    for (const seed of few) {
      const values = calm(seed, 160, stepOn(100, -2));
      expect(run(values).told.length).toBeGreaterThanOrEqual(1);
      expect(run(values, {}, 100).told).toEqual([]);
    }
  });
});

describe('what it says of itself', () => {
  test('learning first; then the smallest step and rise, which are found in nearly all cases', () => {
    let [steps, rises] = [0, 0];
    for (const seed of runs) {
      const start = run(calm(seed, 20)).last as ChangeStep;
      expect(start).toMatchObject({ standing: 'learning', smallestStep: null });
      const { smallestStep, smallestMonthlyRise, standing } = run(calm(seed, 100)).last as ChangeStep;
      expect(standing).toBe('watching');
      const step = run(calm(seed, 104, stepOn(100, smallestStep as number))).told;
      if (step.some(({ day }) => day >= 100)) steps += 1;
      const rise = (day: number) => (Math.max(0, day - 100) * (smallestMonthlyRise as number)) / 30.4375;
      if (run(calm(seed, 200, rise)).told.some(({ day, direction }) => day >= 100 && direction === 'up')) rises += 1;
    }
    expect(steps).toBeGreaterThanOrEqual(10);
    expect(rises).toBeGreaterThanOrEqual(10);
  });

  test('a noisier machine sees less', () => {
    const [quiet, loud] = [0.05, 0.4].map((scatter) => run(machineDays(draws(9), 100, { scatter, memory: 2 })).last);
    expect(loud?.smallestStep).toBeGreaterThan(quiet?.smallestStep as number);
    expect(loud?.smallestMonthlyRise).toBeGreaterThan(quiet?.smallestMonthlyRise as number);
  });

  test('the state stays below 900 bytes, also of awkward figures', () => {
    expect(run(calm(4, 200)).bytes).toBeLessThanOrEqual(900);
    expect(
      run(
        calm(4, 200).map((value) => (value - 17.3) * 1234.5),
        { least: 600 },
      ).bytes,
    ).toBeLessThanOrEqual(900);
  });

  test('shift, scale and reflection change nothing but what they must', () => {
    for (const seed of few) {
      const values = calm(seed, 160, stepOn(120, 1)).map((value) => Math.round(value * 64) / 64);
      const plain = run(values).told;
      expect(plain.length).toBeGreaterThan(0);
      const days = (told: readonly Told[]) => told.map(({ day, kind, since }) => [day, kind, since]);
      expect(days(run(values.map((value) => value + 32)).told)).toEqual(days(plain));
      expect(
        days(
          run(
            values.map((value) => value * 40),
            { least: 20 },
          ).told,
        ),
      ).toEqual(days(plain));
      const turned = run(values.map((value) => -value)).told;
      expect(days(turned)).toEqual(days(plain));
      expect(turned.map(({ direction }) => direction)).toEqual(
        plain.map((one) => (one.direction === 'up' ? 'down' : 'up')),
      );
    }
  });

  test('a gap longer than what is remembered begins anew, days before 1970 count too', () => {
    const prepared = prepareChange();
    let { state } = advanceChange(prepared, startChange(), { day: -500, value: 17 });
    for (let day = -499; day < -440; day += 1)
      state = advanceChange(prepared, state, { day, value: 17 + (day % 3) / 10 }).state;
    expect(state.settled).toBe(true);
    const later = advanceChange(prepared, state, { day: -300, value: 19 });
    expect(later).toMatchObject({ change: null, standing: 'learning' });
  });

  test.each([
    ['options.least', 'out_of_range', () => prepareChange({ least: 0 })],
    ['options.season', 'negative', () => prepareChange({ season: -1 })],
    ['options.sesaon', 'unknown_option', () => prepareChange({ sesaon: 1 } as never)],
    ['input.day', 'not_an_integer', () => advanceChange(prepareChange(), startChange(), { day: 0.5, value: 17 })],
    ['input.value', 'not_a_number', () => advanceChange(prepareChange(), startChange(), { day: 0, value: Number.NaN })],
    [
      'input.value',
      'unknown_option',
      () => advanceChange(prepareChange(), startChange(), { day: 0, value: 1, relearn: true } as never),
    ],
    [
      'input.day',
      'out_of_range',
      () => {
        const { state } = advanceChange(prepareChange(), startChange(), { day: 4, value: 17 });
        advanceChange(prepareChange(), state, { day: 4, value: 17 });
      },
    ],
    [
      'state.ring[1]',
      'not_a_number',
      () => resumeChange({ ...startChange(), last: 2, since: 1, ring: [1, Number.NaN] }),
    ],
    ['state.steps.count', 'out_of_range', () => resumeChange({ ...startChange(), steps: { count: 1e9, square: 1 } })],
    ['state.sinse', 'unknown_option', () => resumeChange({ ...startChange(), sinse: 1 })],
  ])('%s: %s', (parameter, code, call) => {
    expect(call).toThrow(expect.objectContaining({ parameter, code }));
  });
});

/** The parts of the change detector one by one: by hand, and against the second implementation on strange rings. */
import { describe, expect, test } from 'vitest';
import { meanOf } from '../../../src/numeric/lists.ts';
import { advanceChange, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { judge, slowLimit } from '../../../src/trend/change/judge.ts';
import { present, steadyDeviation, steadyMean } from '../../../src/trend/change/ring.ts';
import { contrastErrors, slowContrast } from '../../../src/trend/change/slow.ts';
import { fewness, hadWildDay, jumpAt } from '../../../src/trend/change/step.ts';
import { withoutWeekdays } from '../../../src/trend/change/weekdays.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { contrastOf, errorsOf, jumpOf, withoutWeekdays as weekdaysTwin } from './changeTwin.ts';
import { draws } from './trendCorrelated.ts';

/** Rings with ties, gaps, level stretches and figures of any scale. */
function* rings(count: number): Generator<(number | null)[]> {
  for (let seed = 1; seed <= count; seed += 1) {
    const { share, normal } = draws(seed);
    const n = 1 + Math.floor(share() * 63);
    const scale = [1, 1e-9, 1e9][seed % 3] as number;
    const gaps = [0, 0.1, 0.4][seed % 4] ?? 0;
    const ring = Array.from({ length: n }, (_x, i) => {
      if (share() < gaps && i > 0 && i < n - 1) return null;
      if (seed % 7 === 0) return 3 * scale;
      return scale * (seed % 5 === 0 ? Math.floor(2 * normal()) : normal() + (i % 7 === 0 ? 2 : 0));
    });
    yield ring;
  }
}

const sizeOf = (ring: readonly (number | null)[]) => Math.max(...ring.map((value) => Math.abs(value ?? 0)));

describe('the rhythm of the week', () => {
  const week = (day: number) => (day % 7 === 2 ? 17 : 10);
  const days = Array.from({ length: 28 }, (_x, i) => week(i));

  test('by hand: one day of the week 7 above the six others lies 6 above the mean, they 1 below', () => {
    expect(withoutWeekdays(days, 27)).toEqual(Array(28).fill(11));
    expect(withoutWeekdays(days, -1)).toEqual(Array(28).fill(11));
    expect(withoutWeekdays(days, 7 * 12345 + 6)).toEqual(Array(28).fill(11));
  });

  test('by hand: seen in two weeks only, that day stays', () => {
    const gap = days.map((value, i) => (i === 16 ? null : value));
    expect(withoutWeekdays(gap, 27)).toEqual(gap.map((value) => (value === 10 ? 11 : value)));
    expect(withoutWeekdays(days.slice(0, 20), 19)).toEqual(weekdaysTwin(days.slice(0, 20), 19));
    expect(withoutWeekdays(days.slice(0, 6), 5)).toEqual(days.slice(0, 6));
  });

  test('as written twice', () => {
    let last = -70;
    for (const ring of rings(60)) {
      last += 5;
      const twin = weekdaysTwin(ring, last);
      const found = withoutWeekdays(ring, last);
      expect(found.map((value) => value === null)).toEqual(twin.map((value) => value === null));
      const most = 1e-14 * sizeOf(ring);
      found.forEach((value, i) => {
        expect(Math.abs((value ?? 0) - (twin[i] ?? 0))).toBeLessThanOrEqual(most);
      });
    }
  });
});

describe('a jump', () => {
  const level = [5, 5, 5, 5, 5, 5, 5];

  test('by hand: which days it takes', () => {
    const of = (ring: (number | null)[], since = 0, fewest = 2) => jumpAt(ring, ring.length, since, fewest);
    expect(of([...level, 8, 6])).toEqual({ size: 2, least: 1, most: 3, base: 5, from: 7, start: 7 });
    expect(of([9, ...level, 6, 8])).toMatchObject({ base: 5, from: 7, least: 1, most: 3 });
    // both within four days
    expect(of([...level, 7, null, null, 9])).toMatchObject({ size: 3, start: 7 });
    expect(of([...level, 7, null, null, null, 9])).toBeNull();
    expect(of([...level, 7, 9, null])).toBeNull();
    // the base within fourteen days before, and not before the level began
    expect(of([1, 2, ...Array(12).fill(null), 7, 9])).toMatchObject({ base: 1.5, from: 2, start: 14 });
    expect(of([1, 2, ...Array(13).fill(null), 7, 9])).toBeNull();
    expect(of([1, 2, 3, 7, 9], 1)).toMatchObject({ base: 2.5, from: 2 });
    expect(of([1, 2, 3, 7, 9], 2)).toBeNull();
    expect([of([1, 2, 3, 7, 9], 0, 3)?.from, of([1, 2, 3, 7, 9], 0, 4)]).toEqual([3, null]);
    expect([jumpAt([4], 1, 0, 0), jumpAt([4], 0, 0, 0), jumpAt([], 0, 0, 0)]).toEqual([null, null, null]);
    expect(jumpAt([1, 1, 3, 3, 100], 4, 0, 2)).toMatchObject({ size: 2, start: 2 });
  });

  test('as written twice, at every place', () => {
    for (const ring of rings(40))
      for (let end = 1; end <= ring.length; end += 1)
        for (const [since, fewest] of [
          [0, 2],
          [Math.floor(end / 2), 4],
        ] as const) {
          const twin = ring[end - 1] === null ? null : jumpOf(ring, end, since, fewest);
          const found = jumpAt(ring, end, since, fewest);
          expect(found === null).toBe(twin === null);
          if (found === null || twin === null) continue;
          const { size, ...rest } = twin;
          expect(found).toMatchObject(rest);
          expect(Math.abs(found.size - size)).toBeLessThanOrEqual(1e-15 * sizeOf(ring));
        }
  });

  test('a wild day lies off the three days on either side, beyond one bound and within the other', () => {
    const ring = [0, 0, 0, 4, 0, 0, 0];
    const of = (far: number, farthest: number, list: (number | null)[] = ring, sign = 1) =>
      hadWildDay(list, sign, far, farthest);
    expect([of(3.9, 4.1), of(4, 4.1), of(3.9, 4)]).toEqual([true, false, false]);
    expect(of(3, 5, ring, -1)).toBe(false);
    expect(of(3, 5, [0, 0, 0, -4, 0, 0, 0], -1)).toBe(true);
    // too near an end; a gap is no day; a level that goes on is not wild
    expect(of(3, 5, ring.slice(1))).toBe(false);
    expect(of(3, 5, ring.slice(0, 6))).toBe(false);
    expect(of(3, 5, [0, 0, 0, null, 4, null, null, 0, 0, 0])).toBe(true);
    expect(of(3, 5, [0, 0, 0, 4, 4, 4, 4])).toBe(false);
    expect(of(3, 5, [4, 4, 4, 4, 0, 0, 0])).toBe(false);
    // the days around it alone, whatever the level of later ones
    expect(of(3, 5, [0, 0, 0, 4, 0, 0, 0, 9, 9, 9, 9, 9, 9, 9, 9])).toBe(true);
    // two together, and one nearer to one side
    expect(of(3, 5, [0, 0, 0, 4, 4, 0, 0, 0])).toBe(true);
    expect([of(2, 5, [1, 1, 1, 4, 0, 0, 0]), of(3, 5, [1, 1, 1, 4, 0, 0, 0])]).toEqual([true, false]);
  });

  test('a base of fewer days', () => {
    expect(fewness(7)).toBe(1);
    expect(fewness(2)).toBeCloseTo(Math.sqrt(14 / 9), 14);
  });
});

describe('windows', () => {
  test('by hand', () => {
    expect(present([1, null, 0, 4], -2, 9)).toEqual([0, 2, 3]);
    expect(present([1, null, 0, 4], 1, 3)).toEqual([2]);
    expect(meanOf([1, 2, 6])).toBe(3);
    // median 2, distances 1, 0, 1, 98: reach 3 x 1.4826
    expect(steadyMean([1, 2, 3, 2, 100], 0)).toBeCloseTo((1 + 2 + 3 + 2 + 2 + 3 * 1.4826) / 5, 14);
    expect(steadyMean([1, 2, 3, 2, 100], 2)).toBeCloseTo((1 + 2 + 3 + 2 + 8) / 5, 14);
    expect(steadyMean([1, 2, 3, 2, -100], 2)).toBeCloseTo((1 + 2 + 3 + 2 - 4) / 5, 14);
    expect([steadyDeviation([0, 0, 0], 0.5), steadyDeviation([0, 0, 0], 0)]).toEqual([0.5, 0]);
    // half of one size: the root of their mean square over 0.9776
    expect(steadyDeviation([1, -1, 1, -1], 0)).toBeCloseTo(1 / Math.sqrt(0.9776), 3);
    expect(steadyDeviation([1, -1, 1, -1], 3)).toBe(3);
    // no median distance: begins with the root mean square
    expect(steadyDeviation([0, 0, 0, 2], 0)).toBeGreaterThan(0);
  });

  test('two windows need 6 and 14 values, a week apart', () => {
    const days = (n: number) => Array.from({ length: n }, (_x, i) => i);
    expect(slowContrast(days(34), 0, 0)).toBeNull();
    expect(slowContrast(days(35), 0, 0)).toMatchObject({ before: 6.5, after: 27.5, apart: 21 });
    expect(slowContrast(days(35), 1, 0)).toBeNull();
    const gaps = (from: number) => days(35).map((day) => (day >= from && day < 34 ? null : day));
    expect(slowContrast(gaps(26), 0, 0)?.late).toEqual([21, 22, 23, 24, 25, 34]);
    expect(slowContrast(gaps(25), 0, 0)).toBeNull();
  });

  test('as written twice', () => {
    let told = 0;
    for (const ring of rings(60))
      for (const since of [0, 3]) {
        const floor = 0.01 * sizeOf(ring);
        const [found, twin] = [slowContrast(ring, since, floor), contrastOf(ring, since, floor)];
        expect(found === null).toBe(twin === null);
        if (found === null || twin === null) continue;
        told += 1;
        const near = (one: number, other: number) =>
          expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-11 * sizeOf(ring));
        near(found.before, twin.before);
        near(found.after, twin.after);
        expect(found.apart).toBeCloseTo(twin.apart, 12);
        const [errors, errorsTwin] = [contrastErrors(ring, since, found, floor), errorsOf(twin, floor)];
        near(errors.difference, errorsTwin.difference);
        near(errors.late, errorsTwin.late);
      }
    expect(told).toBeGreaterThan(20);
  });
});

describe('day by day, each decision at its bound', () => {
  const prepared = prepareChange({ least: 0.5, season: 0 });
  const stepOf = (values: readonly (number | null)[], options = prepared) => {
    let state = startChange();
    let step = advanceChange(options, state, { day: 0, value: values[0] as number });
    values.forEach((value, day) => {
      if (day === 0 || value === null) return;
      state = step.state;
      step = advanceChange(options, state, { day, value });
    });
    return step;
  };
  // halves and quarters, so that every difference is exact; not whole, so that nothing passes for a code
  const level = (days: number) => Array<number>(days).fill(16.25);

  test('a step of exactly its limit is told, less is not; up and down', () => {
    for (const sign of [1, -1]) {
      const to = (size: number) => stepOf([...level(40), 16.25 + sign * size, 16.25 + sign * size]).change;
      expect(to(0.5)).toEqual({
        ...{ kind: 'step', direction: sign > 0 ? 'up' : 'down', since: 40 },
        ...{ before: 16.25, after: 16.25 + sign * 0.5, limit: 0.5 },
      });
      expect(to(0.499)).toBeNull();
      // one day is none, and a wild one beside a high one counts little more than that
      expect(stepOf([...level(40), 16.25 + sign * 9]).change).toBeNull();
      expect(stepOf([...level(40), 16.25 + sign * 9, 16.25 + sign * 0.46]).change).toBeNull();
      expect(stepOf([...level(40), 16.25 + sign * 9, 16.25 + sign * 0.475]).change?.after).toBeCloseTo(
        16.25 + sign * 0.5125,
        6,
      );
    }
  });

  test('nothing is told before 28 days; the last of 21 settled ones may tell it', () => {
    const step = (days: number) => [...level(days), 18.25, 18.25];
    expect([stepOf(step(25)).standing, stepOf(step(25)).change]).toEqual(['learning', null]);
    expect([stepOf(step(26)).standing, stepOf(step(26)).change?.kind]).toEqual(['watching', 'step']);
    expect([stepOf(level(27)).standing, stepOf(level(28)).standing]).toEqual(['learning', 'watching']);
  });

  test('where too few days have a value nothing can be judged: 35 % of 28 and more', () => {
    // of 28 days 10 are 36 %, 9 are 32 %; of 27 nothing is said
    const sparse = (values: number, days: number) =>
      Array.from({ length: days }, (_x, i) => (i < values - 1 || i === days - 1 ? 16.25 : null));
    expect(stepOf(sparse(10, 28)).standing).toBe('learning');
    expect(stepOf(sparse(9, 28)).standing).toBe('cannot_judge');
    expect(stepOf(sparse(9, 27)).standing).toBe('learning');
    expect(stepOf(sparse(14, 40)).standing).toBe('learning');
  });

  test('63 days are remembered; a gap of 64 begins anew', () => {
    expect(stepOf([...level(64)]).state.ring).toHaveLength(63);
    // the last of the first three days is the 63rd before the new one, then the 64th
    const gap = (days: number) => stepOf([...level(3), ...Array<null>(days).fill(null), 17.25]).state;
    expect(gap(59).ring.length).toBe(63);
    expect(gap(61).ring.length).toBe(63);
    expect(gap(62).ring).toEqual([17.25]);
    expect(gap(63)).toMatchObject({ ring: [17.25], since: 66 + 7, settled: false, level: null, last: 66 });
  });

  test('a drift is told from 12 values of four weeks on', () => {
    const told = (late: number) => {
      const ring = Array.from({ length: 60 }, (_x, place) => (place < 32 || place >= 60 - late ? 16.25 : null));
      const known = { floor: 0.03, least: 0.5, scatter: null, step: null };
      const view = { ring, since: 0, places: present(ring, 0, 60), ...known };
      return judge(prepared, view, null, 11.25, 100);
    };
    expect(told(11)).toBeNull();
    expect(told(12)).toMatchObject({
      change: { kind: 'drift', direction: 'up', before: 11.25, after: 16.25, since: null },
      since: 73,
    });
  });

  test('of a season a slow change takes what its steepest stretch moves two means so many days apart', () => {
    const view = { least: 0.001 } as Parameters<typeof slowLimit>[1];
    for (const apart of [14, 21, 40, 64]) {
      const limit = slowLimit(prepareChange({ season: 3 }), view, { apart } as never, { difference: 0, late: 0 });
      expect(limit).toBeCloseTo(2 * 3 * Math.sin((Math.PI * apart) / 365.25), 6);
    }
    // half of the smallest step, 6.2 errors, or the season and 4.4 errors: the most of them
    const of = (least: number, difference: number, season: number) =>
      slowLimit(prepareChange({ season }), { least } as never, { apart: 0 } as never, { difference, late: 0 });
    expect([of(1, 0, 0), of(0.1, 0.25, 0), of(10, 0.25, 9)]).toEqual([0.5, 1.55, 5]);
  });

  test('a further step is told after two days by the scatter learned before', () => {
    const days = [...level(60).map((value, day) => value + (day % 2) / 64), ...Array<number>(6).fill(18.25)];
    const to = (size: number) => stepOf([...days, 18.25 + size, 18.25 + size]).change;
    expect(stepOf(days.slice(0, 62)).change).toMatchObject({ kind: 'step', since: 60 });
    expect(to(0.6)).toMatchObject({ kind: 'step', direction: 'up', since: 66 });
    expect(to(-0.6)).toMatchObject({ kind: 'step', direction: 'down', since: 66 });
    expect(to(0.4)).toBeNull();
  });

  test('the level is learned from 42 values, and shortened', () => {
    expect(stepOf(level(48)).state.level).toBeNull();
    expect(stepOf(level(49)).state.level).toBe(16.25);
  });

  test('what is refused', () => {
    const of = (input: object, state: object = startChange()) =>
      advanceChange(prepared, state as never, input as never);
    expectRefused('not_a_number', 'input.value', 'a finite number', () => of({ day: 1, value: Number.NaN }));
    expectRefused('out_of_range', 'input.value', '0, or an amount', () => of({ day: 1, value: 1e61 }));
    const state = of({ day: 5, value: 16.25 }).state;
    expectRefused('out_of_range', 'input.day', 'a day after the last one: above 5', () =>
      of({ day: 5, value: 16 }, state),
    );
    expect(of({ day: 6, value: 16.25 }, state).state.last).toBe(6);
    expectRefused('wrong_type', 'input.relearn', 'true, or left out', () => of({ day: 6, relearn: 1 }, state));
    expectRefused('unknown_option', 'input.value', 'no value beside relearn', () =>
      of({ day: 6, relearn: true, value: 1 }, state),
    );
    expectRefused('out_of_range', 'input.day', '1000000000', () => of({ day: 1000000001, value: 1 }));
    expectRefused('wrong_type', 'state.ring', 'an array', () => of({ day: 1, value: 1 }, { ring: 3 }));
    expect(of({ day: 9, relearn: true }, state)).toEqual({
      ...{ state: { ...startChange(), last: 5, steps: state.steps }, change: null, standing: 'learning' },
      ...{ smallestStep: null, smallestMonthlyRise: null },
    });
  });
});

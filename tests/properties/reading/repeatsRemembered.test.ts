/** What is remembered of readings, reading by reading. */
import { describe, expect, test } from 'vitest';
import type { Reading } from '../../../src/reading/reading.ts';
import { type Level, levelAfter, mostLevel } from '../../../src/reading/remembered/level.ts';
import {
  advanceRepeats,
  mostDays,
  movedRepeats,
  noRepeats,
  type Repeats,
} from '../../../src/reading/remembered/repeats.ts';
import { steadyAfter } from '../../../src/reading/remembered/steady.ts';
import { leastOf, type Tail, tailAfter } from '../../../src/reading/remembered/tail.ts';

const day = 86400000;
const past = (readings: readonly Reading[], from: Repeats = noRepeats) => readings.reduce(advanceRepeats, from);
const countsOf = (perMl: readonly number[], volumeMl?: number) => ({
  ...{ sizing: 'iso11171' as const, sizes: [4, 6, 14].slice(0, perMl.length), perMl },
  ...(volumeMl === undefined ? {} : { volumeMl }),
});

describe('the level of particles', () => {
  const level = (
    perMl: readonly number[],
    change: object = {},
    before?: readonly [number, number, number],
    known = 5,
  ) => levelAfter(before, change, countsOf(perMl, 10), known);

  test('begins with the first particles, and forgets a quarter with each reading', () => {
    expect(level([40, 9, 1])).toEqual([400, 10, 0]);
    expect(level([40, 9, 1], {}, [400, 10, 0])).toEqual([700, 17.5, 0]);
    // of no volume told, one mL
    expect(levelAfter([400, 10, 0], {}, countsOf([40]), 5)).toEqual([340, 8.5, 0]);
  });

  test('of readings of few particles it remembers a hundred', () => {
    expect(level([2.5, 1, 0], {}, [100, 40, 0])).toEqual([100, 40, 0]);
    expect(level([2, 1, 0], {}, [100, 50, 0])).toEqual([100, 50, 0]);
    expect(level([0.2, 0, 0], {}, [100, 500, 0])).toEqual([100, 500, 0]);
    expect(level([0.2, 0, 0])).toEqual([2, 10, 0]);
    expect(level([0.2, 0, 0], {}, [2, 10, 0])).toEqual([3.96, 19.8, 0]);
  });

  test('of fewer than it says, by more than the root of twice their variance, it forgets a half', () => {
    // 18 expected, 12 are fewer by 6, the root of twice 18
    expect(level([1.2, 0, 0], {}, [18, 10, 0])).toEqual([27.8, 18.8, 0]);
    expect(level([1.1, 0, 0], {}, [18, 10, 0])).toEqual([20, 15, 0]);
    // and of one after much oil without any
    expect(level([0.1, 0, 0], {}, [100, 100, 10])).toEqual([51, 70, 0]);
  });

  test('gathers the oil without a particle, which counts when it has ended', () => {
    const empty = level([0, 0, 0], {}, [400, 10, 0]);
    expect(empty).toEqual([400, 10, 10]);
    expect(level([0, 0, 0], {}, empty)).toEqual([400, 10, 20]);
    expect(level([20, 9, 1], {}, [400, 10, 20])).toEqual([400, 35, 0]);
    expect(level([0, 0, 0], {}, [400, 10, 12340])).toEqual([400, 10, 12350]);
    expect(level([0, 0, 0])).toEqual([0, 0, 10]);
  });

  test('stays where far fewer come, and says how much oil is missing', () => {
    // at least 34 per mL: sixty-four times cleaner, 64/34 mL have a particle
    const known = [400, 10, 0] as const;
    const raw = (counted: readonly number[], before: Level = known, readings = 5) => {
      const perMl = counted.map((n) => n / 10);
      return levelAfter(before, {}, { ...countsOf(perMl, 10), counted }, readings);
    };
    expect(raw([1, 0, 0])).toEqual([400, 10, 8.1176]);
    expect(raw([5, 0, 0])).toEqual([400, 10, 0.588]);
    expect(raw([6, 0, 0])).toEqual([206, 15, 0]);
    expect(raw([1, 0, 0], [400, 10, 30])).toEqual([400, 10, 38.118]);
    // one of the next size stands for 25.6 of the smallest, and takes off a twentieth
    expect(raw([1, 1, 0], [400, 10, 50])).toEqual([380, 10, 9.875]);
    expect(raw([20, 20, 0], [4e8, 10, 1e6])).toEqual([200000000, 1000000, 0]);
    // shown per mL alone, a count may be one more; before the fifth reading, and of one size, none is far below
    expect(levelAfter(known, {}, countsOf([1, 0]), 5)).toEqual([201, 6, 0]);
    expect(raw([1, 0, 0], known, 4)).toEqual([201, 15, 0]);
    expect(raw([1])).toEqual([201, 15, 0]);
  });

  test('rises to twice itself at most with one reading, and twenty', () => {
    expect(level([1000, 200, 0], {}, [400, 10, 0])).toEqual([1120, 17.5, 0]);
    expect(level([0.1, 0, 0], {}, [1, 1000, 0])).toEqual([1.99, 1000, 0]);
    expect(level([1000, 200, 0], {}, [0, 0, 50])).toEqual([10000, 60, 0]);
  });

  test('stays where a channel alone is empty, without flow, and of sizes above 6 µm', () => {
    const before = [400, 10, 5] as const;
    expect(level([0, 9, 1], {}, before)).toBe(before);
    expect(level([40, 9, 1], { mlPerMin: 0 }, before)).toBe(before);
    const sized = (first: number) => ({ ...countsOf([40]), sizes: [first], volumeMl: 10 });
    expect(levelAfter(before, {}, sized(6.1), 5)).toBe(before);
    expect(levelAfter(before, {}, sized(6), 5)).toEqual([600, 20, 0]);
  });

  test.each([
    [0.0123449, 0.0123],
    [0.99949, 0.999],
    [1.23456, 1.2346],
    [123.444, 123.44],
    [1234.95, 1235],
    [123454, 123450],
    [123455, 123460],
    [1e9, mostLevel],
    [4e12, mostLevel],
    [9e-10, 0],
    [1e-9, 1e-9],
  ])('has three digits of the oil without, five from 1 mL on: %d as %d', (ml, wanted) => {
    expect(levelAfter(undefined, {}, countsOf([0], ml), 1)).toEqual([0, 0, wanted]);
  });
});

describe('the largest size with particles to tell by', () => {
  const tail = (perMl: readonly number[], before?: Tail, change: object = {}) =>
    tailAfter(before, change, countsOf(perMl, 10));

  test('has twenty or more; its level begins low and rises by a quarter, never above the count', () => {
    expect(tail([400, 40, 2])).toEqual([2, 0.125, 40]);
    expect(tail([400, 40, 1.9])).toEqual([1, 2.5, 400]);
    expect(tail([400, 1, 0])).toBeUndefined();
    expect(tail([400, 40, 8], [2, 4, 50])).toEqual([2, 5, 40]);
    expect(tail([400, 40, 3], [2, 4, 50])).toEqual([2, 3, 40]);
    // of no volume told, one mL
    expect(tailAfter(undefined, {}, countsOf([400, 40, 20]))).toEqual([2, 1.25, 40]);
  });

  test('stays as long as it has five, moves up where a larger one has twenty, and down where it has few', () => {
    expect(tail([400, 40, 0.5], [2, 4, 50])).toEqual([2, 0.5, 40]);
    expect(tail([400, 40, 0.4], [2, 4, 50])).toEqual([1, 2.5, 400]);
    expect(tail([400, 40, 2], [1, 40, 400])).toEqual([2, 0.125, 40]);
    expect(tail([400, 40, 1], [1, 40, 400])).toEqual([1, 40, 400]);
  });

  test('is kept where it shows none, without flow, and of no particles at all', () => {
    const before = [2, 4, 50] as const;
    expect(tail([400, 40, 0], before)).toBe(before);
    expect(tail([0, 0, 0], before)).toBe(before);
    expect(tail([400, 40, 8], before, { mlPerMin: 0 })).toBe(before);
    expect(tail([400])).toBeUndefined();
  });

  test('lets a quarter be expected, and less by the square of the sizes where the smaller one has lost some', () => {
    const counts = (smaller: number) => countsOf([400, smaller, 0], 10);
    expect(leastOf([2, 4, 50], counts(50))).toBe(1);
    expect(leastOf([2, 4, 50], counts(70))).toBe(1);
    expect(leastOf([2, 4, 50], counts(25))).toBeCloseTo(0.5 ** ((14 / 6) ** 2), 12);
    expect(leastOf([2, 4, 50], counts(0))).toBe(0);
    expect(leastOf([2, 4, 0], counts(50))).toBe(0);
    const far = { sizing: 'iso11171' as const, sizes: [4, 6, 70], perMl: [400, 25, 0] };
    expect(leastOf([2, 4, 50], far)).toBeCloseTo(0.5 ** 16, 15);
  });
});

describe('the flow', () => {
  const flowOf = (...readings: Reading[]) => past(readings).flow;

  test('is seen to begin where it stood, at the time of that reading', () => {
    expect(flowOf({ mlPerMin: 50 })).toEqual({ last: 50, swing: 0, swings: 0 });
    expect(flowOf({ mlPerMin: 0 }, { mlPerMin: 50, time: 7 })).toEqual({ last: 50, swing: 0, swings: 0, seen: [0, 0] });
    expect(flowOf({ mlPerMin: 0 }, { mlPerMin: 50 })).toEqual({ last: 50, swing: 0, swings: 0, seen: [0, 0] });
    expect(flowOf({ mlPerMin: 0 }, { mlPerMin: 50, time: 7 }, { celsius: 40 }, { mlPerMin: 50, time: 9 })).toEqual({
      ...{ last: 50, swing: 0, swings: 1, seen: [2, 2] },
    });
    expect(flowOf({ mlPerMin: 50, time: 1 }, { mlPerMin: 0, time: 2 })).toEqual({ last: -50, swing: 0, swings: 0 });
    // what it was stays known
    expect(flowOf({ mlPerMin: 50 }, { mlPerMin: 0 }, { mlPerMin: 0 })).toEqual({ last: -50, swing: 0, swings: 0 });
    expect(flowOf({ mlPerMin: 0 }, { mlPerMin: 0 })).toEqual({ last: 0, swing: 0, swings: 0 });
  });

  test('swings by the share of the mean of two, a quarter of which counts from the fourth on', () => {
    const [a, b] = [40, 60];
    const swing = (readings: number) =>
      flowOf(...Array.from({ length: readings }, (_x, i) => ({ mlPerMin: i % 2 === 0 ? a : b })))?.swing;
    expect([2, 3, 9].map(swing)).toEqual([0.4, 0.4, 0.4]);
    const then = (...flows: number[]) => flowOf(...flows.map((mlPerMin) => ({ mlPerMin })));
    expect(then(a, b, b)).toEqual({ last: b, swing: 0.2, swings: 2 });
    expect(then(a, b, b, b)?.swing).toBe(0.1333);
    expect(then(a, b, b, b, b)?.swing).toBe(0.1);
    expect(then(a, b, b, b, b, b)?.swing).toBe(0.075);
    expect(advanceRepeats({ ...noRepeats, flow: { last: b, swing: 0, swings: 1000 } }, { mlPerMin: b }).flow).toEqual({
      ...{ last: b, swing: 0, swings: 9 },
    });
  });
});

describe('temperature and water', () => {
  const steady = (...celsius: number[]) => past(celsius.map((one) => ({ celsius: one }))).steady?.celsius;
  const of90 = { value: 41, repeats: 20, readings: 90 };

  test('a run that stands is not learned from, one that ended is', () => {
    expect(steady(41)).toEqual({ value: 41, run: 1, longest: 0, repeats: 0, readings: 0 });
    expect(steady(41, 41, 41)).toEqual({ value: 41, run: 3, longest: 0, repeats: 0, readings: 0 });
    expect(steady(41, 41, 41, 42)).toEqual({ value: 42, run: 1, longest: 3, repeats: 2, readings: 3 });
    expect(steady(41, 41, 41, 42, 43)).toEqual({ value: 43, run: 1, longest: 3, repeats: 2, readings: 4 });
    // of more than can be remembered half is forgotten, and the share stays
    const many = { value: 41, run: 101, longest: 4, repeats: 50000, readings: 99899 };
    expect(steadyAfter(noRepeats, many, 42)).toMatchObject({ run: 1, repeats: 25050, readings: 50000 });
    expect(steadyAfter(noRepeats, { ...many, run: 100 }, 42)).toMatchObject({ repeats: 50099, readings: 99999 });
  });

  test('a run that was too long teaches nothing, unless another one ended not long before it began', () => {
    const still = (n: number) => Array<number>(n).fill(41);
    const first = steady(...still(50), 42);
    expect(first).toEqual({ value: 42, run: 1, longest: 1, repeats: 49, readings: 50, ago: 0 });
    const alive = Array.from({ length: 29 }, (_x, i) => 43 + i);
    expect(steady(...still(50), 42, ...alive, ...still(200), 42)).toMatchObject({ longest: 200, ago: 0 });
    expect(steady(...still(50), 42, ...alive, 80, ...still(200), 42)).toMatchObject({ longest: 1, ago: 0 });
    expect(steady(...still(50), 42, 43, 43)).toMatchObject({ run: 2, ago: 1 });
  });

  test('not long before: thirty readings, or eight days by the time between the last two', () => {
    const hour = day / 24;
    const long = { value: 41, run: 300, longest: 2, repeats: 10, readings: 400 };
    const learnt = (ago: number, known: object) =>
      steadyAfter({ ...noRepeats, ...known }, { ...long, ago }, 42)?.longest;
    const hourly = { time: 100 * day, before: 100 * day - hour, sinceDay: 0 };
    expect([192, 193].map((ago) => learnt(ago, hourly))).toEqual([300, 2]);
    expect([30, 31].map((ago) => learnt(ago, {}))).toEqual([300, 2]);
    expect([30, 31].map((ago) => learnt(ago, { ...hourly, before: hourly.time }))).toEqual([300, 2]);
    // while a machine may rest nothing is too long
    expect(steadyAfter({ ...noRepeats, ...hourly, sinceDay: 99 }, long, 42)).toMatchObject({ longest: 300 });
    expect(steadyAfter({ ...noRepeats, ...hourly, sinceDay: 99 }, long, 42)?.ago).toBeUndefined();
    const live = { ...long, run: 2, ago: 99998 };
    expect(steadyAfter({ ...noRepeats, ...hourly }, { ...live, ago: 99997 }, 42)?.ago).toBe(99999);
    expect(steadyAfter({ ...noRepeats, ...hourly }, live, 42)?.ago).toBeUndefined();
    // after a clock has been set no two times tell how far apart readings are, also of one that begins in 1970
    expect(learnt(31, { time: hour, before: null, sinceDay: -99 })).toBe(2);
    // nor does any tell how old the machine is
    expect(steadyAfter({ ...noRepeats, sinceDay: 99 }, long, 42)).toMatchObject({ longest: 2, ago: 0 });
  });

  test('too long is a run from the reading on at which the sensor is called stuck', () => {
    // of 100 readings one in four repeats, 1e-8 is 15 running; the longest was 11, and two and a half times 29 (test of
    // the limit: checksByHand)
    const limits = { 4: 15, 11: 29 };
    for (const [longest, limit] of Object.entries(limits)) {
      const ended = (run: number) => steadyAfter(noRepeats, { ...of90, longest: Number(longest), run }, 42);
      expect(ended(limit - 1)).toMatchObject({ longest: limit - 1 });
      expect(ended(limit - 1)?.ago).toBeUndefined();
      expect(ended(limit)).toMatchObject({ longest: Number(longest), ago: 0 });
    }
  });

  test('each is remembered where it came', () => {
    const one = { value: 0.3, run: 1, longest: 0, repeats: 0, readings: 0 };
    expect(past([{ waterSaturation: 0.3 }]).steady).toEqual({ waterSaturation: one });
    expect(past([{ celsius: 40 }, { waterSaturation: 0.3 }]).steady).toEqual({
      ...{ celsius: { ...one, value: 40 }, waterSaturation: one },
    });
    expect(past([{ mlPerMin: 50 }]).steady).toBeUndefined();
  });
});

describe('times', () => {
  test('the last two, and the day since which readings are known', () => {
    const two = past([{ time: 3 * day + 5 }, { celsius: 40 }, { time: 4 * day }]);
    expect(two).toMatchObject({ time: 4 * day, before: 3 * day + 5, sinceDay: 3, known: 0 });
    expect(past([{ celsius: 40 }])).toEqual({
      ...{ ...noRepeats, steady: { celsius: { value: 40, run: 1, longest: 0, repeats: 0, readings: 0 } } },
    });
  });

  test('a clock set ahead moves the day and forgets the times', () => {
    const known = past([{ time: 3 * day, celsius: 40 }]);
    expect(movedRepeats(known, 2.4 * day)).toEqual({ ...known, time: null, before: null, sinceDay: 5 });
    expect(movedRepeats(known, 2.6 * day).sinceDay).toBe(6);
    expect(movedRepeats(known, -4e8 * day).sinceDay).toBe(-mostDays);
    expect(movedRepeats(noRepeats, day)).toEqual(noRepeats);
  });
});

test('counts are known again size by size, whatever their digits', () => {
  const runs = (...all: (readonly number[])[]) => past(all.map((perMl) => ({ counts: countsOf(perMl) }))).runs;
  expect(runs([1890, 402, 33], [1890, 402, 33])).toEqual([2, 2, 2]);
  expect(runs([1890, 402, 33], [1890, 403, 33])).toEqual([2, 1, 2]);
  expect(runs([1890, 402, 33], [1890, 402])).toEqual([1, 1]);
  // counts that differ in their last bit, by a power of two, or by what a remainder could hide
  const others = [0, 5e-324, 1e-9, 0.1, 0.1 + 2 ** -56, 0.2, 1, 1 + 2 ** -52, 2, 3, 68574961, 137149922, 1e9, 1e60];
  const prints = others.map((count) => past([{ counts: countsOf([count]) }]).perMl);
  expect(prints.filter((print, i) => prints.indexOf(print) !== i)).toEqual([]);
});

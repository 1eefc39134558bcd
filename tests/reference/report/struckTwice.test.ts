/**
 * The hour that is struck twice, in files of one to three sensors with the faults files have: each time read an hour
 * off is told, and where lines in order settle every time nothing is. Berlin's clocks are put back on 2026-10-25 at
 * 01:00 UTC (Directive 2000/84/EC).
 */
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/errors.ts';
import { parseLocalTimes } from '../../../src/report/index.ts';

const minute = 60000;
const hour = 60 * minute;
const back = Date.UTC(2026, 9, 25, 1);
const utcOffsetMinutes = (time: number) => (time < back ? 120 : 60);
const textOf = (time: number) =>
  new Date(time + utcOffsetMinutes(time) * minute).toISOString().slice(0, 16).replace('T', ' ');

/** Sixteen hours of that night: each of the sensors writes a line at each time. */
function written(sensors: number, minutes: number): number[] {
  const times: number[] = [];
  for (let time = back - 7 * hour; time < back + 9 * hour; time += minutes * minute)
    for (let sensor = 0; sensor < sensors; sensor += 1) times.push(time);
  return times;
}

/** Which times are read wrongly, and which are told. */
function readOf(truth: readonly number[]): { wrong: number[]; told: number[]; entries: Problem[] } {
  const entries: Problem[] = [];
  const read = parseLocalTimes(truth.map(textOf), { utcOffsetMinutes }, entries);
  const wrong = truth.map((_time, i) => i).filter((i) => read[i] !== truth[i]);
  return { wrong, told: entries.map(({ path }) => path[0] as number), entries };
}

function moved(times: readonly number[]): number[] {
  const list = times.slice();
  for (let i = 5; i < list.length; i += 9) list.splice(i - 3, 0, ...list.splice(i, 1));
  return list;
}

const faults: Readonly<Record<string, (times: readonly number[], sensors: number) => number[]>> = {
  none: (times) => times.slice(),
  'lost lines': (times) => times.filter((_time, i) => i % 7 !== 3),
  'lines out of order': moved,
  'the newest line first': (times) => times.slice().reverse(),
  'a sensor that dies': (times, sensors) =>
    times.filter((time, i) => sensors === 1 || i % sensors !== 1 || time < back - hour / 2),
  'no line the first time': (times) => times.filter((time) => time < back - hour || time >= back),
  'no line the second time': (times) => times.filter((time) => time < back || time >= back + hour),
  'lines sent twice': (times) => times.flatMap((time, i) => (i % 11 === 4 ? [time, time] : [time])),
};

describe.each(Object.keys(faults))('%s', (fault) => {
  const cases = [1, 2, 3].flatMap((sensors) => [10, 15, 30, 60].map((minutes) => [sensors, minutes] as const));
  test.each(cases)('%d sensors, each %d minutes: what is read an hour off is told', (sensors, minutes) => {
    const truth = (faults[fault] as (typeof faults)[string])(written(sensors, minutes), sensors);
    const { wrong, told } = readOf(truth);
    expect(told).toEqual(expect.arrayContaining(wrong));
    // only times of that hour, each once
    expect(told.every((i) => Math.abs((truth[i] as number) - back + 1) <= hour)).toBe(true);
    expect(new Set(told).size).toBe(told.length);
    const isOrderly = ['none', 'lost lines', 'the newest line first', 'a sensor that dies'].includes(fault);
    if (isOrderly && (sensors === 1 || minutes < 60)) expect(told).toEqual([]);
  });
});

test('it is said which was taken, without and with keepReadable; nothing of it is lost', () => {
  const list = ['2026-10-25 01:30', '2026-10-25 02:10', 'lost', '2026-10-25 03:10'];
  const told: Problem[] = [];
  const format = { utcOffsetMinutes, keepReadable: true } as const;
  expect(parseLocalTimes(list, format, told)[1]).toBe(back - 50 * minute);
  const struck = 'this hour is struck twice, and the lines beside it do not tell which is meant';
  const expected = `read as 2026-10-25 02:10 UTC+02:00: ${struck}`;
  expect(told.filter(({ lost }) => lost !== true)).toEqual([
    { path: [1], code: 'out_of_range', received: "'2026-10-25 02:10'", expected },
  ]);
  const falling: Problem[] = [];
  parseLocalTimes([list[3] as string, list[1] as string, list[0] as string], { utcOffsetMinutes }, falling);
  expect(falling.map((each) => each.expected.split(': ')[0])).toEqual(['read as 2026-10-25 02:10 UTC+01:00']);
});

test('of a year a hundred are told at most', () => {
  const told: Problem[] = [];
  const list = Array.from({ length: 150 }, (_, i) => `2026-10-25 02:00:${String(i % 60).padStart(2, '0')}`);
  parseLocalTimes(list.sort(), { utcOffsetMinutes }, told);
  expect(told).toHaveLength(100);
});

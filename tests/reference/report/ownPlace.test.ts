/** What is wrong with one reading is named by its place in the list of the caller, whatever is left out before it. */
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { isMotescaleError } from '../../../src/errors.ts';
import {
  countBuckets,
  figureBuckets,
  periodFigures,
  type ReportReading,
  trendChart,
} from '../../../src/report/index.ts';

const hour = 3600000;
const day = 24 * hour;
const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const width = { widthMs: day, holdMs: hour };
const edges = { edges: [0, day], holdMs: hour };

function placeOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (isMotescaleError(error)) return `${error.code} ${error.parameter} ${error.received}`;
    throw error;
  }
  return 'nothing';
}

test('a time beyond the edges, or with parts of a ms', () => {
  const repeated: ReportReading[] = [{ time: 100 * day, arrival: 'repeated', counts }];
  const late = [...repeated, { time: 0 }, { time: 100 * day, counts, celsius: 40 }, { time: 1, counts }];
  expect(placeOf(() => countBuckets(late, edges))).toBe(`out_of_range readings[2].time ${100 * day}`);
  expect(placeOf(() => figureBuckets(late, ['celsius'], edges))).toBe(`out_of_range readings[2].time ${100 * day}`);
  const parts = [
    { time: 9, counts },
    { time: 5, celsius: 4 },
    { time: 0.5, counts, celsius: 3 },
  ];
  expect(placeOf(() => countBuckets(parts, width))).toBe('not_an_integer readings[2].time 0.5');
  expect(placeOf(() => figureBuckets(parts, ['celsius'], width))).toBe('not_an_integer readings[2].time 0.5');
  expect(placeOf(() => countBuckets(parts, { ...width, widthMs: 0 }))).toBe('out_of_range options.widthMs 0');
});

test('a code that cannot be read', () => {
  const coded = (time: number, code: string, more: object = {}) => ({ time, codes: { iso4406: code }, ...more });
  const readings = [{ time: 9, counts }, coded(7, '18/16/13'), coded(7, '18/16/13'), coded(5, 'constructor')];
  const found = "bad_code readings[3].codes 'constructor'";
  expect(placeOf(() => trendChart(readings))).toBe(found);
  expect(placeOf(() => periodFigures(readings, { target: '18/16/13' }))).toBe(found);
  // what is not looked at is not read
  expect(placeOf(() => trendChart(readings, { from: 6 }))).toBe('nothing');
  expect(placeOf(() => periodFigures(readings, { target: '18/16/13', from: 6 }))).toBe('nothing');
  expect(placeOf(() => periodFigures(readings))).toBe('nothing');
  const bad = [coded(5, 'x', { quality: 'bad' }), coded(6, 'x', { arrival: 'repeated' })];
  expect(placeOf(() => periodFigures(bad, { target: '18/16/13' }))).toBe('nothing');
});

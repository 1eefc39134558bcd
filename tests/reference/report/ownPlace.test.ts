/** What is wrong with one reading is named by its place in the list of the caller, whatever is left out before it. */
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { isMotescaleError } from '../../../src/errors.ts';
import { countBuckets, figureBuckets, type ReportReading } from '../../../src/report/index.ts';

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

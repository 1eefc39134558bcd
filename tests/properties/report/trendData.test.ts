/** What a trend is drawn of, by hand: which sizes have a panel, and from when to when. */
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { rollUp } from '../../../src/history/index.ts';
import { bucketData, readingData } from '../../../src/report/charts/trend/trendData.ts';
import type { ReportReading } from '../../../src/report/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const hour = 3600000;
/** A clock one hour ahead of UTC. */
const ahead = () => 60;
const at = (hours: number, perMl: Record<number, number>, rest: Partial<ReportReading> = {}): ReportReading => ({
  ...{ time: hours * hour, counts: cumulativeCounts(perMl) },
  ...rest,
});
const coded = (hours: number): ReportReading => ({ time: hours * hour, codes: { iso4406: '18/16/13' } });
const warm = (hours: number): ReportReading => ({ time: hours * hour, codes: {}, celsius: 40 });
const sizesIn = (readings: readonly ReportReading[], table = iso4406) => {
  const { ranges, known, series } = readingData(readings, { table }, ahead);
  expect(series.length).toBe(ranges.length);
  return [ranges.map(({ from, to }) => (to === null ? from : `${from} to ${to}`)), known];
};

describe('the sizes of readings', () => {
  test('those that the table judges, of those that were counted', () => {
    expect(sizesIn([at(0, { 4: 900, 10: 40, 14: 9 })])).toEqual([[4, 14], true]);
    expect(sizesIn([at(0, { 4: 900, 10: 40 }), at(1, { 6: 90, 14: 9 })])).toEqual([[4, 6, 14], true]);
    expect(sizesIn([at(0, { 4: 900, 6: 90, 21: 9 })], as4059Cumulative)).toEqual([[4, 6, 21], true]);
  });

  test('all that were counted where it judges none of them', () => {
    expect(sizesIn([at(0, { 10: 40, 30: 9 })])).toEqual([[10, 30], false]);
  });

  test('all that it judges where codes came beside them, or nothing', () => {
    expect(sizesIn([at(0, { 10: 40, 30: 9 }), coded(1)])).toEqual([[4, 6, 14], true]);
    expect(sizesIn([coded(1)])).toEqual([[4, 6, 14], true]);
    expect(sizesIn([])).toEqual([[4, 6, 14], true]);
    // a thermometer alone is no code
    expect(sizesIn([at(0, { 10: 40 }), warm(1)])).toEqual([[10], false]);
  });
});

describe('from when to when, by the local clock', () => {
  const spanOf = (readings: readonly ReportReading[], figures: readonly string[] = []) => {
    const { span, open, moments } = readingData(readings, { figures }, ahead);
    const hours = span && [span.from / hour, span.to / hour];
    return [hours, open, moments.map((time) => time / hour)];
  };

  test('from the first reading to the last', () => {
    expect(spanOf([at(2, { 4: 9 }), at(3, { 4: 9 }), at(7, { 4: 9 })])).toEqual([[3, 8], false, [2, 3, 7]]);
    expect(spanOf([at(2, { 4: 9 })])).toEqual([[3, 3], false, [2]]);
    expect(spanOf([])).toEqual([null, false, []]);
  });

  test('the last code stands for the usual interval', () => {
    expect(spanOf([coded(2), coded(4), coded(6)])).toEqual([[3, 9], true, [2, 4, 6]]);
    expect(spanOf([at(2, { 4: 9 }), at(4, { 4: 9 }), coded(6)])).toEqual([[3, 9], true, [2, 4, 6]]);
    expect(spanOf([coded(2), coded(4), at(6, { 4: 9 })])).toEqual([[3, 7], false, [2, 4, 6]]);
    // of one no interval is known
    expect(spanOf([coded(2)])).toEqual([[3, 3], false, [2]]);
  });

  test('a figure that is drawn widens it, one that is not does not', () => {
    const counted = [at(2, { 4: 9 }), at(4, { 4: 9 })];
    expect(spanOf([warm(0), ...counted, warm(9)])).toEqual([[3, 5], false, [2, 4]]);
    expect(spanOf([warm(0), ...counted, warm(9)], ['celsius'])).toEqual([[1, 10], false, [0, 2, 4, 9]]);
    // a code stands to 6; the thermometer told until 5, until 6, until 7
    const codes = [coded(2), coded(4)];
    expect(spanOf([...codes, warm(5)], ['celsius'])).toEqual([[3, 7], true, [2, 4, 5]]);
    expect(spanOf([...codes, warm(6)], ['celsius'])).toEqual([[3, 7], false, [2, 4, 6]]);
    expect(spanOf([...codes, warm(7)], ['celsius'])).toEqual([[3, 8], false, [2, 4, 7]]);
    expect(spanOf([warm(7)], ['celsius'])).toEqual([[8, 8], false, [7]]);
  });

  test('a reading that counts as none is refused at its place', () => {
    expectRefused('wrong_type', 'readings[0]', 'reading', () => readingData([7 as never], {}, ahead));
  });
});

describe('buckets', () => {
  const hourly = rollUp(
    [
      { time: 0, value: 5 },
      { time: 3 * hour, value: 5 },
    ],
    { widthMs: hour, holdMs: 4 * hour },
  );
  const drawnOf = (sizes: readonly number[]) => {
    const data = bucketData(
      sizes.map((size) => ({ size, buckets: hourly })),
      {},
      ahead,
    );
    expect(data.series.length).toBe(data.ranges.length);
    return [data.ranges.map(({ from }) => from), data.known];
  };

  test('the sizes that the table judges, all where it judges none', () => {
    expect(drawnOf([4, 10, 14])).toEqual([[4, 14], true]);
    expect(drawnOf([10, 30])).toEqual([[10, 30], false]);
  });

  test('those that lie in the time asked for in part, from the first of all figures to the end of the last', () => {
    const spanOf = (options: { readonly from?: number; readonly to?: number }, start = 0) => {
      const figures = [{ figure: 'celsius', buckets: hourly.slice(start) }];
      const { span, open, moments, qualities } = bucketData(
        [{ size: 4, buckets: hourly.slice(1, 3) }],
        { ...options, figures },
        ahead,
      );
      expect([open, qualities]).toEqual([true, null]);
      return [span && [span.from / hour, span.to / hour], moments.map((time) => time / hour)];
    };
    expect(hourly.map(({ start }) => start / hour)).toEqual([0, 1, 2, 3]);
    expect(spanOf({})).toEqual([
      [1, 5],
      [1, 2, 0, 1, 2, 3],
    ]);
    expect(spanOf({}, 2)).toEqual([
      [2, 5],
      [1, 2, 2, 3],
    ]);
    expect(spanOf({ from: hour + 1 })).toEqual([
      [2, 5],
      [1, 2, 1, 2, 3],
    ]);
    expect(spanOf({ from: 2 * hour })).toEqual([
      [3, 5],
      [2, 2, 3],
    ]);
    expect(spanOf({ to: hour + 1 })).toEqual([
      [1, 3],
      [1, 0, 1],
    ]);
    expect(spanOf({ to: hour })).toEqual([[1, 2], [0]]);
    expect(spanOf({ from: hour, to: 2 * hour })).toEqual([
      [2, 3],
      [1, 1],
    ]);
    expect(spanOf({ from: 9 * hour })).toEqual([null, []]);
  });
});

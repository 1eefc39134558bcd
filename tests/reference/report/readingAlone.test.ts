/** Nothing of a reading is required but its time: a temperature alone goes through report, charts and buckets. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  countBuckets,
  figureBuckets,
  periodFigures,
  type ReportReading,
  reportRows,
  trendChart,
} from '../../../src/report/index.ts';

const hour = 3600000;
const width = { widthMs: 24 * hour, holdMs: 2 * hour };
const bare: ReportReading[] = [0, 1, 2].map((i) => ({ time: i * hour, celsius: 40 + i }));
const empty: ReportReading[] = bare.map((reading) => ({ ...reading, codes: {} }));

describe('a reading with neither counts nor code', () => {
  test('is what `codes: {}` says too', () => {
    expect(figureBuckets(bare, ['celsius'], width)).toEqual(figureBuckets(empty, ['celsius'], width));
    expect(figureBuckets(bare, ['celsius'], width)[0]?.buckets[0]?.max).toBe(42);
    expect(countBuckets(bare, width)).toEqual([]);
    expect(trendChart(bare, { figures: ['celsius'] })).toEqual(trendChart(empty, { figures: ['celsius'] }));
    expect(periodFigures(bare)).toEqual(periodFigures(empty));
    expect(periodFigures(bare).leftOut.withoutSample).toBe(3);
    expect(reportRows(bare)).toEqual(reportRows(empty));
    expect(reportRows([{ time: 0 }]).rows).toEqual([['1970-01-01 00:00:00', 'good', null]]);
  });

  test('stands among others', () => {
    const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
    const rows = reportRows([...bare, { time: 3 * hour, counts }]).rows;
    expect(rows.map((row) => row[1])).toEqual([null, null, null, 1890]);
  });

  test('is still refused for what is no counts', () => {
    expect(() => countBuckets([{ time: 0, counts: null as never }], width)).toThrow('readings[0].counts');
    expect(() => countBuckets([{ time: 0, count: {} } as never], width)).toThrow('readings[0].count');
    expect(() => countBuckets([{ celsius: 40 } as never], width)).toThrow('readings[0].time');
  });
});

/** What a report leaves out it tells: readings that came twice or far ahead, readings of no sample, missing cells. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import {
  countBuckets,
  parseCsv,
  periodFigures,
  periodSummary,
  type ReportReading,
  reportReading,
  reportRows,
  toCsv,
  trendChart,
} from '../../../src/report/index.ts';
import { summaryOf } from './summary.ts';

const day = 86400000;
const start = Date.UTC(2026, 10, 2);
const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] });

/** Every verdict of a monitor, reported. */
function reported(readings: readonly TimedReading[]): ReportReading[] {
  let state = startMonitor(prepared);
  return readings.map((reading) => {
    const step = advanceMonitor(prepared, state, reading);
    state = step.state;
    return reportReading(reading, step.verdict as NonNullable<typeof step.verdict>);
  });
}

const hourly = Array.from({ length: 24 }, (_unused, i) => ({
  time: start + i * 3600000,
  counts: cumulativeCounts({ 4: 18900 + i, 6: 4020 - i, 14: 330 + ((i * 7) % 5) }, { volumeMl: 10 }),
}));
const plain = reported(hourly);
const ahead = { time: start + 365 * day, counts };
const [before, after] = [hourly.slice(0, 12), hourly.slice(12)];
const muddled = reported([...before, ahead, after[0] as TimedReading, ...after]);

describe('a file sent twice, without a monitor', () => {
  const again = [...hourly, ...hourly.slice(3, 9)];
  const once = { setAside: 0, repeated: 0, withoutSample: 0 };

  test('counts once, and is told', () => {
    const figures = periodFigures(again, { target: '18/16/13' });
    expect(figures).toEqual({ ...periodFigures(hourly, { target: '18/16/13' }), leftOut: { ...once, repeated: 6 } });
    expect(periodSummary(figures)).toContain('Not counted among them: 6 repeated.');
    expect(trendChart(again)).toEqual(trendChart(hourly));
    const options = { widthMs: 3 * 3600000, holdMs: 3600000 };
    expect(countBuckets(again, options)).toEqual(countBuckets(hourly, options));
    expect(periodFigures([...again].reverse(), { target: '18/16/13' })).toEqual(figures);
  });

  test('of one time, what differs in any member stays: two bottles, or a figure put right', () => {
    const [first] = hourly;
    const one = { ...first, codes: { 'ISO 4406': '18/16/12' } } as ReportReading;
    for (const other of [
      { ...one, counts: cumulativeCounts({ 4: 18901, 6: 4020, 14: 330 }, { volumeMl: 10 }) },
      { ...one, codes: { 'ISO 4406': '18/16/13' } },
      { ...one, quality: 'bad' },
      { ...one, verdict: 'in target' },
      { ...one, time: one.time + 1 },
    ] as ReportReading[]) {
      expect(periodFigures([one, other]).leftOut).toEqual(once);
      expect(periodFigures([one, other, one, other]).leftOut.repeated).toBe(2);
    }
    expect(periodFigures([one, { ...one, quality: 'good' }]).leftOut.repeated).toBe(1);
  });
});

describe('readings that came twice or a year ahead', () => {
  test('keep how they came', () => {
    expect(muddled.filter(({ arrival }) => arrival !== undefined).map(({ arrival }) => arrival)).toEqual([
      'set_aside',
      'repeated',
    ]);
    expect(plain.some((reading) => 'arrival' in reading)).toBe(false);
  });

  test('are no part of a period, which tells how many they are', () => {
    const figures = periodFigures(muddled, { target: '18/16/13' });
    const without = periodFigures(plain, { target: '18/16/13' });
    expect(figures).toEqual({ ...without, leftOut: { setAside: 1, repeated: 1, withoutSample: 0 } });
    expect(without.leftOut).toEqual({ setAside: 0, repeated: 0, withoutSample: 0 });
    const text = periodSummary(figures);
    expect(text).toContain('2026-11-02 00:00 to 2026-11-02 23:00 (UTC)');
    expect(text).toContain(
      'Readings   24: 24 good, 0 uncertain, 0 bad\n' +
        '           Not counted among them: 1 set aside, with a time far ahead; 1\n           repeated.',
    );
    expect(periodSummary(figures, germanTexts).replace(/\s+/g, ' ')).toContain(
      'Nicht mitgezählt: 1 zurückgehalten, mit einer Zeit weit voraus; 1 doppelt.',
    );
    expect(periodSummary(without)).not.toContain('Not counted');
    // beyond the end of the period it is none of its readings
    expect(periodFigures(muddled, { to: start + 30 * day }).leftOut.setAside).toBe(0);
  });

  test('are no part of charts and buckets', () => {
    expect(trendChart(muddled)).toEqual(trendChart(plain));
    const options = { widthMs: 3600000, holdMs: 3600000 };
    expect(countBuckets(muddled, options)).toEqual(countBuckets(plain, options));
  });

  test('are rows of a table, which says how they came', () => {
    const table = reportRows(muddled);
    expect(table.rows).toHaveLength(26);
    expect(table.header.slice(-2)).toEqual(['verdict', 'arrival']);
    expect(table.rows.map((row) => row[row.length - 1]).filter((cell) => cell !== null)).toEqual([
      'set aside: its time is far ahead',
      'repeated',
    ]);
    expect(parseCsv(toCsv(table))).toEqual(table);
    expect(reportRows(muddled, { texts: germanTexts }).header.slice(-1)).toEqual(['Eingang']);
    expect(reportRows(plain).header.slice(-1)).toEqual(['verdict']);
  });
});

describe('readings without counts and code', () => {
  const warm = [
    { time: start, celsius: 40 },
    { time: start + 1, codes: { iso4406: 'dirty' } },
    { time: start + 2, counts },
  ];
  const rows = reported(warm as TimedReading[]);

  test('are reported as every other', () => {
    expect(rows[0]).toEqual({
      ...{ time: start, celsius: 40, codes: {}, quality: 'good', verdict: 'target not judged' },
    });
    expect(rows[1]?.codes).toEqual({});
    expect(reportRows(rows).rows.map((row) => row.slice(1, 5))).toEqual([
      [null, null, null, null],
      [null, null, null, null],
      [1890, 402, 33, '18/16/12'],
    ]);
  });

  test('say nothing of the oil, in a period and a chart', () => {
    const figures = periodFigures(rows, { target: '18/16/13' });
    expect(figures).toMatchObject({
      readings: { good: 1, uncertain: 0, bad: 1 },
      leftOut: { withoutSample: 1 },
      target: { met: 1, judged: 1, unjudged: 0, last: true },
    });
    expect(summaryOf(rows)).toContain('1 with neither counts nor a code that');
    expect(trendChart(rows)).toEqual(trendChart(rows.slice(1)));
    expect(summaryOf(rows.slice(0, 1))).toContain('none: nothing is known of the oil');
  });
});

describe('a size that some readings lack', () => {
  const sizes = [
    { 4: 1890, 6: 402, 14: 33 },
    { 4: 2100, 14: 40 },
    { 4: 2700, 6: 500, 14: 28 },
  ];
  const readings = sizes.map((at, i) => ({ time: start + i * day, counts: cumulativeCounts(at) }));

  test('is told of those that have it, with their number', () => {
    const { counts: found } = periodFigures(readings);
    expect(found?.readings).toBe(3);
    expect(found?.sizes.map(({ size, readings: number }) => [size, number])).toEqual([
      [4, 3],
      [6, 2],
      [14, 3],
    ]);
    expect(found?.sizes[1]).toMatchObject({ lowest: { perMl: 402 }, median: { perMl: 451 }, last: { perMl: 500 } });
    expect(found?.codes).toEqual({ lowest: '18/16/12', median: '18/16/12', highest: '19/16/12', last: '19/16/12' });
    expect(summaryOf(readings)).toContain('\n  Sizes that not all readings have: 6 µm(c) in 2 of 3.\n');
    expect(periodSummary(periodFigures(readings), germanTexts)).toContain(
      '\n  Größen, die nicht alle Messungen haben: 6 µm(c) in 2 von 3.\n',
    );
    expect(summaryOf(readings.slice(2))).not.toContain('not all readings');
  });

  test('is not known of the last where that lacks it', () => {
    const { counts: found } = periodFigures(readings.slice(0, 2));
    expect(found?.sizes[1]?.last).toBeNull();
    expect(found?.codes?.last).toBe('18/-/12');
    expect(summaryOf(readings.slice(0, 2))).toMatch(/ {2}6 µm\(c\) +402 +402 +402 +not known\n/);
  });

  test('no code is made of counts that rise with size, being of different readings', () => {
    const apart = [{ 4: 100 }, { 6: 402, 14: 33 }].map((at, i) => ({ time: i, counts: cumulativeCounts(at) }));
    expect(periodFigures(apart).counts?.codes).toEqual({ lowest: null, median: null, highest: null, last: '-/16/12' });
  });
});

/**
 * A counter that died, and a thermometer beside it that goes on: no report may end with the last count. Worked by hand:
 * ten days of counts each hour, then 230 days of readings whose counts are called bad.
 */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  countBuckets,
  periodFigures,
  periodSummary,
  type ReportReading,
  trendChart,
} from '../../../src/report/index.ts';

const hour = 3600000;
const day = 24 * hour;
const start = Date.UTC(2025, 0, 1);
const counts = cumulativeCounts({ 4: 1000, 6: 250, 14: 20 });
const alive = (hours: number): ReportReading => ({ time: start + hours * hour, counts, celsius: 40 });
const dead = (hours: number): ReportReading => ({
  ...{ time: start + hours * hour, codes: {}, celsius: 40 },
  ...{ quality: 'bad', qualities: { counts: 'bad' } },
});
const list = (from: number, to: number, make: (hours: number) => ReportReading) =>
  Array.from({ length: to - from }, (_unused, i) => make(from + i));
const readings = [...list(0, 240, alive), ...list(240, 5760, dead)];
const oneLine = (text: string) => text.replace(/\s+/g, ' ');

describe('a period without `to`', () => {
  const figures = periodFigures(readings, { target: '18/16/13' });

  test('ends with the last reading of any kind, and tells the gap', () => {
    expect(figures.to?.time).toBe(start + 5759 * hour);
    expect(figures.coverage.last?.time).toBe(start + 239 * hour);
    expect(figures.coverage.longestGap).toEqual({
      from: { time: start + 239 * hour, utcOffsetMinutes: 0 },
      to: { time: start + 5759 * hour, utcOffsetMinutes: 0 },
    });
    // 5,520 h are 230 d
    expect(oneLine(periodSummary(figures))).toContain(
      'No reading that can be relied on for 230 d: from 2025-01-10 23:00 to 2025-08-28 23:00.',
    );
  });

  test('calls bad what is called bad', () => {
    expect(figures.readings).toEqual({ good: 240, uncertain: 0, bad: 5520 });
    expect(figures.leftOut.withoutSample).toBe(0);
    expect(figures.target).toMatchObject({ met: 240, judged: 240, unjudged: 0 });
  });

  test('of a thermometer that goes on alone too; it begins with its first reading', () => {
    const warm = (hours: number) => ({ time: start + hours * hour, celsius: 40 });
    const { from, to, leftOut, coverage } = periodFigures([warm(0), alive(30), alive(31), warm(5759)]);
    expect([from?.time, to?.time]).toEqual([start, start + 5759 * hour]);
    expect(leftOut.withoutSample).toBe(2);
    expect(coverage.longGaps).toBe(2);
  });

  test('a bad thermometer is no bad counter', () => {
    const reading = { time: start, celsius: 400, quality: 'bad', figureQualities: { celsius: 'bad' } } as const;
    const flagged = { time: start + 1, celsius: 40, quality: 'bad', qualities: { celsius: 'bad' } } as const;
    const said = { time: start + 2, celsius: 400, quality: 'bad', figureQualities: { counts: 'good' } } as const;
    const { readings: qualities, leftOut } = periodFigures([reading, flagged, said]);
    expect(qualities.bad).toBe(0);
    expect(leftOut.withoutSample).toBe(3);
    const both = { ...reading, figureQualities: { celsius: 'bad', counts: 'bad' } } as const;
    expect(periodFigures([both, { time: start + 1, quality: 'bad' }]).readings.bad).toBe(2);
  });
});

describe('an hour whose counts could not be read', () => {
  const width = { widthMs: day, holdMs: 2 * hour };
  const at = (between: Omit<ReportReading, 'time'>) =>
    countBuckets([alive(0), { time: start + hour, ...between }, alive(2)], width).map(({ buckets }) => buckets[0]);

  test('is bad in the bucket, as with counts beside', () => {
    for (const between of [
      { qualities: { counts: 'bad' } },
      { codes: {}, quality: 'bad', qualities: { counts: 'bad' } },
      { figureQualities: { counts: 'bad' } },
      { quality: 'bad' },
      { counts, quality: 'bad' },
    ] as const) {
      const buckets = at(between);
      expect(buckets).toHaveLength(3);
      for (const bucket of buckets)
        expect(bucket).toMatchObject({ count: 3, good: 2, valuedMs: hour, badMs: hour, gapMs: 0 });
    }
  });

  test('is not where a temperature came alone', () => {
    for (const bucket of at({ celsius: 40 })) expect(bucket).toMatchObject({ count: 2, valuedMs: 2 * hour, badMs: 0 });
  });
});

test('the chart hatches it, and says how many are bad', () => {
  const spec = trendChart(readings, { target: '18/16/13' });
  expect(spec.description).toContain('Readings: 5,760, of them 240 good, 0 uncertain, 5,520 bad');
  expect(spec.description).toContain('upright hatching: bad readings');
  const [first] = spec.vconcat as {
    layer: { mark: { type: string; strokeWidth?: number }; data?: { values: { time: number }[] } }[];
  }[];
  const hatched = first?.layer.filter(({ mark }) => mark.type === 'rule' && mark.strokeWidth === 0.8) ?? [];
  expect(hatched).toHaveLength(1);
  const lines = hatched.flatMap(({ data }) => data?.values ?? []).map(({ time }) => time);
  expect(lines[0]).toBe(start + 240 * hour);
  expect(Math.max(...lines)).toBeGreaterThan(start + 5700 * hour);
});

test('a chart of bad readings without a count says that they are bad, not that there are none', () => {
  const spec = trendChart(list(0, 10, dead));
  expect(JSON.stringify(spec)).not.toContain('no readings');
  expect(spec.description).toContain('Readings: 10, of them 0 good, 0 uncertain, 10 bad');
});

test('counts at sizes that the table does not judge keep their panels beside a bad reading without any', () => {
  const odd = { time: start, counts: cumulativeCounts({ 5: 100, 15: 10 }) };
  const titles = JSON.stringify(trendChart([odd, dead(1)]));
  expect(titles).toContain('"5 µm(c)"');
});

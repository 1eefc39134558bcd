/**
 * Laws of pictures: they have the width asked for, they are the same where making code of text is forbidden, no text
 * lies on another, and they hold less than all of very many readings.
 */
import { describe, expect, test } from 'vitest';
import { codeUncertainty, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { cleanUpCounts } from '../../../src/filtration/index.ts';
import {
  type ChartSpec,
  cleanUpChart,
  countBuckets,
  periodFigures,
  probabilityChart,
  type ReportReading,
  sizeChart,
  trendChart,
} from '../../../src/report/index.ts';
import { type Box, boxesIn } from '../../reference/report/boxes.ts';
import { drawn } from '../../reference/report/drawn.ts';
import { sampleReadings } from '../../reference/report/sampleReadings.ts';
import { some } from '../../volume.ts';

const hour = 3600000;
const all = sampleReadings();
const start = (all[0] as ReportReading).time;
const events = [194, 195, 260, 262, 300].map((hours, i) => ({
  time: start + hours * hour,
  text: `Event ${i}: the return filter of the lower gates shows its indicator`,
}));
const looks = { title: 'Lock 3, power unit A: the lower gates', target: '18/16/13', alarm: '20/18/15' };
const year: ReportReading[] = Array.from({ length: 365 * 4 }, (_unused, i) => ({
  time: Date.UTC(2026, 0, 1) + i * 6 * hour,
  counts: cumulativeCounts({ 4: 1500 + ((i * 37) % 900), 6: 300 + ((i * 53) % 200), 14: (i * 7) % 11 }),
})).filter((_reading, i) => i < 500 || i > 600);
const buckets = countBuckets(year, { widthMs: 24 * hour, holdMs: 18 * hour });
const tank = {
  litres: 600,
  litresPerMin: 40,
  counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
  beta: [20, 75, 1000],
};
const measured = [0, 30, 60].map((minutes) => ({ minutes, counts: cleanUpCounts(tank, minutes * 0.9) }));
const raw = cumulativeCounts({ 4: 1250, 6: 212, 10: 60, 14: 9, 21: 3, 25: 1, 38: 0 }, { volumeMl: 10 });
const ranged = cumulativeCounts({ 6: 33450, 14: 1450, 21: 80, 38: 50, 70: 0 }, { volumeMl: 100 });
const last = (all[239] as ReportReading).time;
const forecast = [
  { size: 4, from: last, now: 6000, level: 10000, time: last + 24 * hour, earliest: last + 12 * hour, latest: null },
];

const charts: Record<string, (width: number) => ChartSpec> = {
  'a fortnight with events': (width) => trendChart(all, { ...looks, events, width }),
  'a year of buckets': (width) => trendChart(buckets, { ...looks, width }),
  'one reading': (width) => trendChart(all.slice(0, 1), { ...looks, width }),
  'all bad': (width) =>
    trendChart(
      all.map((r): ReportReading => ({ ...r, quality: 'bad' })),
      { ...looks, width },
    ),
  'no readings': (width) => trendChart([], { ...looks, width, from: start, to: start + 100 * hour }),
  'codes only': (width) =>
    trendChart(
      all.map(({ time, codes }): ReportReading => ({ time, codes: codes ?? {} })),
      { ...looks, width },
    ),
  'a forecast': (width) => trendChart(all.slice(180, 240), { ...looks, forecast, width }),
  'a span of many classes': (width) =>
    trendChart(
      [0.02, 3e6].map((at4, i) => ({ time: i * hour, counts: cumulativeCounts({ 4: at4 }) })),
      { width, target: '18/-/-', alarm: '19/-/-' },
    ),
  sizes: (width) => sizeChart(raw, { target: '13/11/8', width }),
  'sizes with errors': (width) => sizeChart(raw, { errors: {}, width }),
  ranges: (width) => sizeChart(ranged, { table: nas1638, target: '7', errors: {}, width }),
  'clean-up': (width) => cleanUpChart(tank, { minutes: 120, target: '16/14/11', measured, width }),
  'clean-up of one end': (width) =>
    cleanUpChart(
      { ...tank, counts: cumulativeCounts({ 4: 100, 6: 99, 14: 98 }), beta: [75, 75, 75] },
      { minutes: 300, width },
    ),
  probabilities: (width) => probabilityChart(codeUncertainty(iso4406, raw), { width }),
};
const cases = Object.keys(charts).flatMap((name) => [240, 320, 1000, 1600].map((width) => [name, width] as const));
const make = (name: string, width: number) => (charts[name] as (width: number) => ChartSpec)(width);

describe('every chart', () => {
  test.each(cases)('%s at %i px: that width, every text within, none on another', async (name, width) => {
    const { svg, warnings } = await drawn(make(name, width));
    expect(warnings).toEqual([]);
    const [, wide, high] = /^<svg [^>]*width="([\d.]+)" height="([\d.]+)"/.exec(svg) as RegExpExecArray;
    expect(Number(wide)).toBe(width);
    const boxes = boxesIn(svg);
    expect(boxes.length).toBeGreaterThan(5);
    for (const box of boxes) {
      expect(box.left, box.text).toBeGreaterThanOrEqual(0);
      expect(box.right, box.text).toBeLessThanOrEqual(width);
      expect(box.top, box.text).toBeGreaterThanOrEqual(0);
      expect(box.bottom, box.text).toBeLessThanOrEqual(Number(high));
    }
    expect(onEachOther(boxes)).toEqual([]);
  });

  test.each(Object.keys(charts))('%s: the same picture by an interpreter of expressions', async (name) => {
    const free = await drawn(make(name, 640));
    const strict = await drawn(make(name, 640), true);
    expect(strict.warnings).toEqual([]);
    expect(strict.svg === free.svg).toBe(true);
  });

  test.each(Object.keys(charts))('%s: told in words, and for version 5', (name) => {
    const spec = make(name, 640);
    expect(String(spec.description).length).toBeGreaterThan(60);
    expect(String(spec.description)).not.toMatch(/\{|NaN|undefined|null|Infinity/);
    const five = trendChart(all, { vegaLite: 5 });
    expect(five.$schema).toContain('/v5.json');
    expect({ ...five, $schema: '' }).toEqual({ ...trendChart(all), $schema: '' });
  });
});

describe('a trend', () => {
  test('of readings at other times is another picture: no vertical line', async () => {
    const { svg } = await drawn(trendChart(all.slice(0, 50), { width: 640 }), true);
    const paths = [...svg.matchAll(/<g class="mark-line[^>]*><path d="(M[^"]*)"/g)].map((match) => match[1] as string);
    expect(paths.length).toBeGreaterThan(2);
    const xs = paths.flatMap((path) => [...path.matchAll(/[ML]([\d.]+),/g)].map((match) => Number(match[1])));
    expect(Math.max(...xs) - Math.min(...xs)).toBeGreaterThan(400);
  });

  test('gaps of buckets are open, and the band is from the least to the most', () => {
    const panel = trendChart(buckets).vconcat[0] as {
      layer: { mark: { type: string }; data: { values: Record<string, number>[] } }[];
    };
    const edges = panel.layer.filter(({ mark }) => mark.type === 'area').flatMap(({ data }) => data.values);
    // the last edge of each stretch is its end
    const bands = edges.filter(({ stretch }, i) => edges[i + 1]?.stretch === stretch);
    const known = buckets[0]?.buckets.filter(({ min }) => min !== null) ?? [];
    expect(bands.map(({ low, high }) => [low, high])).toEqual(known.map(({ min, max }) => [min, max]));
    const line = panel.layer.filter(({ mark }) => mark.type === 'line').flatMap(({ data }) => data.values);
    expect(new Set(line.map(({ stretch }) => stretch)).size).toBe(2);
    expect(JSON.stringify(trendChart(buckets)).length).toBeLessThan(300000);
  });

  test('a stretch of bad readings is hatched, and single ones have crosses', () => {
    const spoilt = all.map((r, i): ReportReading => ({ ...r, quality: i > 100 && i < 150 ? 'bad' : 'good' }));
    const text = JSON.stringify(trendChart(spoilt));
    expect(text).toContain('upright hatching');
    expect(text).not.toContain('× bad reading');
    const single = JSON.stringify(trendChart(all));
    expect(single).not.toContain('upright hatching');
    expect(single).toContain('× bad reading');
  });

  test('with a clock that is put forward: local times by a function of time', () => {
    const spring = Date.UTC(2026, 2, 29, 1);
    const offset = (time: number) => (time < spring ? 60 : 120);
    const readings = [-2, 0, 2].map((hours) => ({ time: spring + hours * hour, counts: cumulativeCounts({ 4: 100 }) }));
    expect(JSON.stringify(trendChart(readings, { utcOffsetMinutes: offset }))).toContain('(UTC+01:00, UTC+02:00)');
    expect(periodFigures(readings, { utcOffsetMinutes: offset }).to).toEqual({
      time: spring + 2 * hour,
      utcOffsetMinutes: 120,
    });
  });
});

test('of very many readings a chart draws less than all, and a summary counts every one', () => {
  const readings = some(150_000, 20_000);
  const many = Array.from(
    { length: readings },
    (_unused, i): ReportReading => ({
      time: start + i * 60000,
      counts: cumulativeCounts({ 4: 1500 + ((i * 37) % 9000), 6: 300 + ((i * 53) % 200), 14: (i * 7) % 11 }),
      quality: i % 50 === 0 ? 'uncertain' : i % 70 < 3 ? 'bad' : 'good',
    }),
  );
  // three counts of each reading, with their time, would be some 200 characters
  expect(JSON.stringify(trendChart(many, looks)).length).toBeLessThan(100 * readings);
  const { good, uncertain, bad } = periodFigures(many, { target: '18/16/13' }).readings;
  expect([uncertain, good + uncertain + bad]).toEqual([readings / 50, readings]);
});

function onEachOther(boxes: readonly Box[]): string[] {
  const pairs: string[] = [];
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
      if (!apart) pairs.push(`${a.text} / ${b.text}`);
    }
  });
  return pairs;
}

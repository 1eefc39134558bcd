/**
 * The year of a counter that gives codes only, and of one that is bad for a month: neither may look like a year without
 * power. Limits: ISO 4406:2021, table 1 (18 is more than 1300 up to 2500 per mL, 21 more than 10,000 up to 20,000).
 */
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { rollUp } from '../../../src/history/index.ts';
import {
  type ChartSpec,
  countBuckets,
  figureBuckets,
  type ReportReading,
  trendChart,
} from '../../../src/report/index.ts';
import { drawn, rowsIn, textsIn } from './drawn.ts';

const hour = 3600000;
const day = 24 * hour;
const width = { widthMs: day, holdMs: 2 * hour };
const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const coded = (hours: number, code: string, more: object = {}): ReportReading => ({
  ...{ time: hours * hour, codes: { iso4406: code } },
  ...more,
});
const hours = (from: number, to: number) => Array.from({ length: to - from }, (_unused, i) => from + i);

interface Layer {
  readonly data?: { readonly values: readonly Record<string, number>[] };
  readonly mark: Record<string, unknown>;
}

const layersIn = (spec: ChartSpec) => (spec.vconcat as { layer: Layer[] }[])[0]?.layer as Layer[];
const bars = (spec: ChartSpec) =>
  layersIn(spec)
    .filter(({ mark }) => mark.type === 'rect' && mark.opacity === 0.14)
    .flatMap(({ data }) => data?.values ?? []);
const hatched = (spec: ChartSpec) =>
  layersIn(spec)
    .filter(({ mark }) => mark.type === 'rule' && mark.strokeWidth === 0.8)
    .flatMap(({ data }) => data?.values ?? []);

describe('codes alone', () => {
  const rolled = countBuckets(
    hours(0, 100).map((at) => coded(at, '21/19/16')),
    width,
  );

  test('are rolled up to what they allow, at the sizes of the table', () => {
    expect(rolled.map(({ size }) => size)).toEqual([4, 6, 14]);
    expect(rolled[0]?.codes).toEqual(
      [0, 1, 2, 3, 4].map((i) => ({ start: i * day, widthMs: day, low: 10000, high: 20000 })),
    );
    expect(rolled.map(({ buckets }) => buckets)).toEqual([[], [], []]);
  });

  test('are one bar in the picture, as of single readings, and are read aloud', async () => {
    const spec = trendChart(rolled, { target: '18/16/13' });
    expect(bars(spec)).toEqual([{ time: 0, end: 5 * day, low: 10000, high: 20000 }]);
    expect(spec.description).toContain(
      'bars: counts that the codes of 24 h allow (1970-01-01 to 1970-01-05 (UTC)). ' +
        '4 µm(c): codes that allow 10,000 to 20,000 particles per mL.',
    );
    expect(hatched(spec)).toEqual([]);
    const { svg, warnings } = await drawn(spec);
    expect(warnings).toEqual([]);
    expect(textsIn(svg).join(' ')).not.toContain('no readings');
    expect(trendChart(rolled, { texts: germanTexts }).description).toContain(
      'Balken: was die Klassen in 24 h zulassen',
    );
  });

  test('of a day reach from the least to the most; `>=` is open; each stands as long as a reading may', () => {
    const mixed = [coded(0, '18/16/13'), coded(1, '20/16/13'), coded(23, '>=18/16/-')];
    const [at4, , at14] = countBuckets(mixed, { widthMs: day, holdMs: 2 * hour });
    expect(at4?.codes).toEqual([{ start: 0, widthMs: day, low: 1300, high: null }]);
    expect(at14?.codes).toEqual([{ start: 0, widthMs: day, low: 40, high: 80 }]);
    const [carried] = countBuckets([coded(23, '18/16/13'), { time: 26 * hour, counts }], width);
    expect(carried?.codes?.map(({ start }) => start)).toEqual([0, day]);
  });

  test('beside counts stand at the sizes counted', () => {
    const both = countBuckets([{ time: 0, counts: cumulativeCounts({ 4: 1890 }) }, coded(30, '21/19/16')], width);
    expect(both.map(({ size, codes }) => [size, codes?.length])).toEqual([[4, 1]]);
    expect('codes' in (countBuckets([{ time: 0, counts }], width)[0] as object)).toBe(false);
    // a reading with counts is told by them, whatever code stands beside
    const beside = countBuckets([{ ...coded(0, '21/19/16'), counts }], width);
    expect(beside.map(({ size, codes }) => [size, codes])).toEqual([4, 6, 14].map((size) => [size, undefined]));
  });

  test('of another standard are told, of readings and of buckets; its table draws them', () => {
    const readings = [...hours(0, 3).map((at) => ({ time: at * hour, counts })), coded(30, '18/16/13')];
    for (const time of [40, 41]) readings.push({ time: time * hour, codes: { 'SAE AS4059 Table 2': '7B/6C/5D' } });
    const told = 'not drawn: 2 with a code of another standard only';
    expect(trendChart(readings).description).toContain(told);
    expect(trendChart(countBuckets(readings, width)).description).toContain(told);
    expect(countBuckets(readings.slice(4), width).map(({ size, otherCodes }) => [size, otherCodes])).toEqual([
      ...[4, 6, 14].map((size) => [size, 2]),
    ]);
    const own = countBuckets(readings.slice(4), { ...width, table: as4059Cumulative });
    expect(own.some(({ codes }) => codes !== undefined)).toBe(true);
    expect(own[0]?.otherCodes).toBeUndefined();
    const bad = readings.map((reading) => ({ ...reading, quality: 'bad' as const }));
    expect(trendChart(bad).description).not.toContain('another standard');
    expect(countBuckets(bad, { ...width, table: iso4406 })[0]?.otherCodes).toBeUndefined();
  });
});

describe('days on which all counts were bad', () => {
  const alive = hours(0, 48).map((at) => ({ time: at * hour, counts, celsius: 40 }));
  const dead = hours(48, 96).map((at) => ({ time: at * hour, celsius: 40, qualities: { counts: 'bad' as const } }));
  const zeros = hours(48, 96).map((at) => ({ time: at * hour, counts, quality: 'bad' as const }));
  const later = hours(240, 264).map((at) => ({ time: at * hour, counts, celsius: 40 }));

  test('are hatched, and days without a reading are not', () => {
    for (const lost of [dead, zeros, hours(48, 96).map((at) => coded(at, '18/16/13', { quality: 'bad' }))]) {
      const spec = trendChart(countBuckets([...alive, ...lost, ...later], width));
      const lines = hatched(spec).map(({ time }) => time as number);
      expect(lines.length).toBeGreaterThan(10);
      expect([Math.min(...lines) >= 2 * day, Math.max(...lines) <= 5 * day + hour]).toEqual([true, true]);
      expect(spec.description).toContain('upright hatching: bad readings');
      expect(bars(spec)).toEqual([]);
    }
    expect(hatched(trendChart(countBuckets([...alive, ...later], width)))).toEqual([]);
  });

  test('are told where there is nothing else', () => {
    const spec = trendChart(countBuckets(dead, width));
    expect(spec.description).toContain('Particle counts. upright hatching: bad readings (1970-01-03 to 1970-01-04');
    expect(JSON.stringify(spec)).not.toContain('no readings');
  });

  test('a bad reading that stands into the next day hatches it too', () => {
    const [one] = [{ time: 23 * hour, counts, quality: 'bad' as const }];
    const buckets = countBuckets([one as ReportReading, { time: 49 * hour, counts }], { widthMs: day, holdMs: day });
    expect(buckets[0]?.buckets.map(({ badMs }) => badMs / hour)).toEqual([1, 23, 0]);
    const last = hatched(trendChart(buckets)).map(({ time }) => time as number);
    expect(Math.max(...last)).toBeGreaterThan(1.9 * day);
  });

  test('a figure that came seldom is not hatched, one that was bad is', () => {
    const seldom = hours(0, 96).map((at) => ({ time: at * hour, counts, ...(at === 50 && { others: { acid: 0.3 } }) }));
    const acid = figureBuckets(seldom, ['other acid'], width);
    const plain = trendChart(countBuckets(seldom, width), { figures: acid });
    expect(plain.description).not.toContain('hatching');
    const hot = seldom.map((reading) => ({ ...reading, celsius: 400, figureQualities: { celsius: 'bad' as const } }));
    const celsius = figureBuckets(hot, ['celsius'], width);
    expect(trendChart(countBuckets(hot, width), { figures: celsius }).description).toContain('hatching');
    const lacking = rollUp([{ time: 0, value: null }], width);
    expect(trendChart([{ size: 4, buckets: lacking }]).description).toContain('nothing to draw');
  });
});

test('what are no buckets of codes is refused', () => {
  const [first] = countBuckets([coded(0, '18/16/13')], width);
  const given = (code: object) => () => trendChart([{ ...first, codes: [{ ...first?.codes?.[0], ...code }] } as never]);
  expect(given({})).not.toThrow();
  expect(given({ low: -1 })).toThrow('readings[0].codes[0].low');
  expect(given({ high: 1 })).toThrow('readings[0].codes[0].high');
  expect(given({ mean: 1 })).toThrow('readings[0].codes[0].mean');
  expect(given({ widthMs: 0 })).toThrow('readings[0].codes[0].widthMs');
  expect(given({ start: NaN })).toThrow('readings[0].codes[0].start');
  expect(() => trendChart([{ ...first, codes: 5 } as never])).toThrow('readings[0].codes');
  expect(() => trendChart([{ ...first, otherCodes: -1 } as never])).toThrow('readings[0].otherCodes');
  expect(rowsIn(trendChart([first as never])).length).toBeGreaterThan(0);
});

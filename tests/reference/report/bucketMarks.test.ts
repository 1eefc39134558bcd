/**
 * No reading is lost in a chart of buckets: the newest one is drawn and told, a bucket without neighbours is a point,
 * and how much of the time was bad or unknown is said. Worked by hand.
 */
import { describe, expect, test, vi } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  type ChartSpec,
  countBuckets,
  figureBuckets,
  type ReportReading,
  type SizeBuckets,
  trendChart,
} from '../../../src/report/index.ts';

const hour = 3600000;
const day = 24 * hour;
const start = Date.UTC(2026, 0, 1);
const daily = { widthMs: day, holdMs: 2 * hour };
const at = (hours: number, perMl: number, quality: 'good' | 'bad' = 'good'): ReportReading => ({
  time: start + hours * hour,
  counts: cumulativeCounts({ 4: perMl }),
  quality,
});
const every = (hours: number, length: number, perMl: number) =>
  Array.from({ length }, (_unused, i) => at(9 + i * hours, perMl));
const chartOf = (readings: readonly ReportReading[]) =>
  trendChart(countBuckets(readings, daily), { target: '18/16/13' });

interface Row {
  readonly time: number;
  readonly count: number;
  readonly low: number;
  readonly high: number;
  readonly stretch: number;
}

/** The rows of the marks of a kind in the first panel: dots filled with ink, circles with white. */
function rows(spec: ChartSpec, kind: 'area' | 'line' | 'dot' | 'circle'): Row[] {
  const [panel] = spec.vconcat as { layer: { mark: { type: string; fill?: string }; data: { values: Row[] } }[] }[];
  return (panel?.layer ?? []).flatMap(({ mark, data }) => {
    const point = mark.fill === 'white' ? 'circle' : 'dot';
    return (mark.type === 'point' ? point : mark.type) === kind ? data.values : [];
  });
}

describe('the newest reading', () => {
  const cases: [string, ReportReading[]][] = [
    ['bottles each week', [...every(7 * 24, 70, 1800), at(9 + 70 * 7 * 24, 110000)]],
    ['bottles each day', [...every(24, 200, 1800), at(9 + 200 * 24, 110000)]],
    ['each hour, the newest the first of its day', [...every(1, 15 + 24 * 70, 1800), at(24 * 71, 110000)]],
    ['each hour, the newest amid its day', [...every(1, 15 + 24 * 70, 1800), at(24 * 71, 1800), at(1705, 110000)]],
  ];
  test.each(cases)('%s, is drawn where it stands and is the last', (_name, readings) => {
    const spec = chartOf(readings);
    const newest = readings[readings.length - 1] as ReportReading;
    expect(rows(spec, 'dot').slice(-1)[0]).toMatchObject({ time: newest.time, count: 110000 });
    const last = / particles per mL, (last .*?\))\./;
    const told = last.exec(spec.description)?.[1];
    expect(told).toMatch(/^last 110,000 \(202\d-\d\d-\d\d \d\d:00\)$/);
    expect(last.exec(trendChart(readings).description)?.[1]).toBe(told);
    expect(spec.description).toContain('last point: last measured value');
  });

  test('is told as a mean, and is no point, where a bad reading came after it', () => {
    const readings = [...every(1, 15 + 24 * 70, 1800), at(24 * 71, 110000), at(1705, 1, 'bad')];
    const spec = chartOf(readings);
    expect(spec.description).toContain('last mean 110,000 (from 2026-03-13 00:00)');
    expect(spec.description).not.toContain('last point');
    expect(rows(spec, 'dot')).toEqual([]);
    const german = trendChart(countBuckets(readings, daily), { texts: germanTexts }).description;
    expect(german).toContain('letztes Mittel 110.000 (ab 2026-03-13 00:00)');
  });

  test('that stood on from the bucket before is told of its own time', () => {
    const rolled = countBuckets([at(0, 1800), at(47, 2000), at(49, 1, 'bad')], daily);
    expect(trendChart(rolled).description).toContain('last mean 2,000 (from 2026-01-03 00:00)');
    const carried = countBuckets([at(0, 1800), at(23, 2000), at(49, 1800)], daily)[0] as SizeBuckets;
    const upTo = trendChart([{ ...carried, buckets: carried.buckets.slice(0, 2) }]);
    expect(upTo.description).toContain('last 2,000 (2026-01-01 23:00)');
    const from = trendChart([{ ...carried, buckets: carried.buckets.slice(0, 2) }], { from: start + day });
    expect(from.description).toContain('last 2,000 (2026-01-01 23:00)');
    // taken before what is drawn
    expect(rows(from, 'dot')).toEqual([]);
  });

  test('of another figure too', () => {
    const readings = [...every(24, 70, 1800), { time: start + 71 * day, celsius: 88 }].map((one, i) => ({
      celsius: 40 + (i % 3),
      ...one,
    }));
    const spec = trendChart(countBuckets(readings, daily), { figures: figureBuckets(readings, ['celsius'], daily) });
    expect(spec.description).toContain('Temperature: 40 °C to 88 °C, last 88 °C (2026-03-13 00:00).');
  });
});

describe('a bucket that is joined to no neighbour', () => {
  const dirty = (days: number, length: number, perDay: number) =>
    Array.from({ length: length * perDay }, (_unused, i) =>
      at(9 + 24 * days * Math.floor(i / perDay) + (i % perDay) / 4, 110000 + 1000 * (i % perDay)),
    );
  test.each([
    [2, 100, 1],
    [3, 122, 1],
    [2, 183, 4],
    [7, 52, 1],
  ])('every %d days, %d times, %d readings each: is a point', (days, length, perDay) => {
    const readings = dirty(days, length, perDay);
    const buckets = (countBuckets(readings, daily)[0] as SizeBuckets).buckets.filter(({ max }) => max !== null);
    const spec = chartOf(readings);
    const points = [...rows(spec, 'dot'), ...rows(spec, 'circle')];
    expect(buckets).toHaveLength(length);
    for (const { start: from, widthMs, mean, max } of buckets)
      expect(points.some(({ time, count }) => time >= from && time < from + widthMs && count === (mean ?? max))).toBe(
        true,
      );
  });

  test('also where all of its time is known', () => {
    const readings = Array.from({ length: 24 * 80 }, (_unused, i) => at(48 * Math.floor(i / 24) + (i % 24), 1800));
    const spec = trendChart(countBuckets(readings, { widthMs: day, holdMs: hour }));
    expect(rows(spec, 'circle')).toEqual([]);
    // one for each day, and the newest reading
    expect(rows(spec, 'dot')).toHaveLength(80 + 1);
  });

  test('and one with neighbours is not', () => {
    const spec = chartOf(every(1, 24 * 70, 1800));
    // the newest reading alone; the first and the last day are known for less than half
    expect(rows(spec, 'dot')).toHaveLength(1);
    expect(new Set(rows(spec, 'line').map(({ stretch }) => stretch)).size).toBe(1);
  });

  test('a count that stood for no time is a point between others', () => {
    // two of one time: the first stood for 0 ms, and what came after it is bad
    const readings = [...every(1, 15, 1800), at(24, 110000), at(24, 1, 'bad'), ...every(1, 24 * 70, 1800).slice(40)];
    expect(rows(chartOf(readings), 'circle').map(({ time, count }) => [time, count])).toContainEqual([
      start + day,
      110000,
    ]);
  });
});

describe('what is not known', () => {
  const halves = Array.from({ length: 24 * 80 }, (_unused, i) =>
    at(i, 1800, i % 24 >= 10 && i % 24 < 22 ? 'bad' : 'good'),
  );

  test('is told as shares of the time from the first reading to the last', () => {
    // 80 times 12 h of bad readings, of 80 days less the hour that the last reading leaves open
    expect(chartOf(halves).description).toContain('50 % of the time bad, 0 % unknown');
    expect(JSON.stringify(chartOf(halves).title)).toContain('50 % of the time bad, 0 % unknown');
    // 2 h of each 7 d are known: 165 of 168 h are not, which is 98.8 %
    expect(chartOf(every(7 * 24, 52, 1800)).description).toContain('0 % of the time bad, 98.8 % unknown');
    expect(chartOf(every(1, 100, 1800)).description).not.toContain('of the time');
    const german = trendChart(countBuckets(halves, daily), { texts: germanTexts }).description;
    expect(german).toContain('50 % der Zeit ungültig, 0 % unbekannt');
  });

  test('is told figure by figure where it is not the same', () => {
    const warm = halves.map((reading) => ({ ...reading, celsius: 40 }));
    const spec = trendChart(countBuckets(warm, daily), { figures: figureBuckets(warm, ['celsius'], daily) });
    expect(spec.description).toContain('4 µm(c): 50 % of the time bad, 0 % unknown');
    expect(spec.description).toContain('temperature (°C): 0 % of the time bad, 0 % unknown');
  });

  test('marks the buckets that are known for less than half', () => {
    const bad = (from: number, to: number) =>
      Array.from({ length: 24 * 3 }, (_unused, i) => at(i, 1800, i >= from && i < to ? 'bad' : 'good'));
    // the second day is known for 12 h, or 11; the last is open from its last reading on
    expect(rows(chartOf(bad(30, 42)), 'circle')).toEqual([]);
    expect(rows(chartOf(bad(30, 43)), 'circle').map(({ time }) => time)).toEqual([start + 36 * hour]);
    expect(chartOf(bad(30, 43)).description).toContain('○ known for less than half of the time');
    expect(chartOf(bad(30, 42)).description).not.toContain('○');
  });

  test('and says that circles stand where there is room', () => {
    const shifts = Array.from({ length: 24 * 365 }, (_unused, i) => at(i, 1800)).filter((_at, i) => i % 24 < 8);
    const sparse = { widthMs: day, holdMs: 17 * hour };
    const bad = shifts.map((reading, i) => (i % 8 === 7 ? { ...reading, quality: 'bad' as const } : reading));
    const spec = trendChart(countBuckets(bad, sparse));
    // one line through all days, each known for 7 h
    expect(new Set(rows(spec, 'line').map(({ stretch }) => stretch)).size).toBe(1);
    expect(rows(spec, 'circle').length).toBeLessThan(365 / 3);
    expect(spec.description).toContain('○ known for less than half of the time, where there is room');
    const german = trendChart(countBuckets(bad, sparse), { texts: germanTexts }).description;
    expect(german).toContain('○ weniger als die Hälfte der Zeit bekannt, soweit Platz ist');
  });

  test('is reckoned with no more times for more readings', () => {
    const longest = (readings: number) => {
      const buckets = countBuckets(
        Array.from({ length: readings }, (_unused, i) => at((48 * i) / readings, 1800)),
        { widthMs: hour, holdMs: hour },
      );
      const sorted = vi.spyOn(Array.prototype, 'sort');
      trendChart(buckets);
      const lengths = sorted.mock.contexts.map((list) => (list as unknown[]).length);
      sorted.mockRestore();
      return Math.max(...lengths);
    };
    // the first and the last of each hour
    expect([longest(48 * 4), longest(48 * 60)]).toEqual([96, 96]);
  });

  test('is no time in which a code stood', () => {
    const coded = Array.from({ length: 24 }, (_unused, i) => ({
      time: start + (24 + i) * hour,
      codes: { iso4406: '18/16/13' },
    }));
    const readings = [...every(1, 15, 1800), ...coded, ...every(1, 39, 1800).slice(15 + 24)];
    const spec = trendChart(countBuckets([...readings, at(48, 1800), at(49, 1800)], daily));
    expect(spec.description).not.toContain('of the time bad');
  });
});

describe('long gaps', () => {
  const gap = 'No reading that can be relied on for 40 d: from 2026-01-11 00:00 to 2026-02-20 00:00.';
  const before = every(1, 24 * 10 - 8, 1800);
  const readings = [...before, ...Array.from({ length: 24 * 20 + 1 }, (_unused, i) => at(24 * 50 + i, 1800))];

  test('are told of readings and of buckets, in the words of the page', () => {
    expect(trendChart(readings).description).toContain(gap);
    expect(chartOf(readings).description).toContain(gap);
    expect(trendChart(readings, { texts: germanTexts }).description).toContain(
      'Keine gültige Messung während 40 d: von 2026-01-11 00:00 bis 2026-02-20 00:00.',
    );
  });

  test('of a day and more, where readings come each hour', () => {
    const days3 = [...before, ...Array.from({ length: 24 * 20 }, (_unused, i) => at(24 * 13 + i, 1800))];
    const told = 'for 3 d: from 2026-01-11 00:00 to 2026-01-14 00:00.';
    for (const spec of [trendChart(days3), chartOf(days3)]) expect(spec.description).toContain(told);
  });

  test('up to the end of what else was measured: a counter that died', () => {
    const alone = Array.from({ length: 24 * 22 }, (_unused, i) => ({
      time: start + (24 * 10 + i) * hour,
      celsius: 40,
    }));
    const dead = [...before, ...alone];
    const spec = trendChart(dead, { figures: ['celsius'], utcOffsetMinutes: 60 });
    expect(spec.description).toContain('for 21.9 d: from 2026-01-11 01:00 to 2026-02-02 00:00.');
    expect(spec.description).toContain('last 1,800 (2026-01-11 01:00)');
    expect(spec.description).toContain('last 40 °C (2026-02-02 00:00)');
  });

  test('are none where readings are as far apart as is usual', () => {
    for (const spec of [chartOf(every(7 * 24, 52, 1800)), trendChart(every(7 * 24, 52, 1800))])
      expect(spec.description).not.toContain('No reading');
  });
});

test('buckets side by side are one area, with steps where each begins', () => {
  const spec = chartOf([
    ...every(1, 15 + 24, 1800),
    ...every(1, 50, 2000).slice(15 + 24),
    at(240, 1800),
    at(241, 1900),
  ]);
  const edges = rows(spec, 'area').map(({ time, high, stretch }) => [(time - start) / day, high, stretch]);
  expect(edges.map(([days]) => days)).toEqual([0, 1, 2, 3, 10, 11]);
  expect(edges.map(([, high]) => high)).toEqual([1800, 1800, 2000, 2000, 1900, 1900]);
  expect(new Set(edges.map(([, , stretch]) => stretch)).size).toBe(2);
});

test('what is no bucket of a roll-up is refused by its place', () => {
  const [rolled] = countBuckets(every(1, 30, 1800), daily) as [SizeBuckets];
  const [first, ...others] = rolled.buckets as unknown as Record<string, unknown>[];
  for (const wrong of [{ valuedMs: NaN }, { badMs: -1 }, { last: { time: 0 } }, { count: Infinity }]) {
    const buckets = [{ ...first, ...wrong }, ...others] as unknown as SizeBuckets['buckets'];
    expect(() => trendChart([{ ...rolled, buckets }])).toThrow('readings[0].buckets[0]');
  }
});

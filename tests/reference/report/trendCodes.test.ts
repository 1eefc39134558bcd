/**
 * No code is lost in the picture of a trend: one reading alone has a bar to be seen, a bad one is hatched, an uncertain
 * one has a circle. A forecast without a latest crossing has no end in the picture, and events leave the titles free.
 */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { type ChartSpec, type ReportReading, trendChart } from '../../../src/report/index.ts';
import { drawn, rowsIn, textsIn } from './drawn.ts';

const hour = 3600000;
const at = (hours: number, code: string, quality: ReportReading['quality'] = 'good'): ReportReading => ({
  time: hours * hour,
  codes: { 'ISO 4406': code },
  quality,
});

interface Layer {
  readonly data?: { readonly values: readonly Record<string, unknown>[] };
  readonly mark: Record<string, unknown>;
  readonly encoding: Record<string, Record<string, unknown>>;
}

/** The layers of the first panel. */
const layersOf = (spec: ChartSpec) => (spec.vconcat as { layer: Layer[] }[])[0]?.layer as Layer[];

const hatches = (spec: ChartSpec) =>
  layersOf(spec).filter(({ mark }) => mark.type === 'rule' && mark.strokeWidth === 0.8);
const circles = (spec: ChartSpec) =>
  layersOf(spec)
    .filter(({ mark }) => mark.shape === 'circle')
    .flatMap(({ data }) => data?.values ?? []);

describe('a bar can be seen', () => {
  const bars = (readings: ReportReading[]) => {
    const rows = rowsIn({ layer: layersOf(trendChart(readings)) } as unknown as ChartSpec);
    return rows.filter(({ low }) => low !== undefined && low !== null).filter(({ end }) => end !== undefined) as {
      time: number;
      end: number;
      low: number;
    }[];
  };

  test('one reading alone, and two of one time', () => {
    const [one, ...others] = bars([at(5, '18/16/13')]);
    expect(others).toEqual([]);
    // the axis is an hour long and about 600 pixels wide: 4 of them
    expect(((one?.end as number) - (one?.time as number)) / hour).toBeCloseTo(4 / 600, 2);
    const two = bars([at(5, '18/16/13'), at(5, '20/16/13')]);
    expect(two.map(({ end, time }) => end > time)).toEqual([true, true]);
    expect(two.map(({ low }) => low)).toEqual([1300, 5000]);
  });

  test('one long before the others, and at the right edge; those side by side do not reach into each other', () => {
    const list = bars([at(0, '18/16/13'), at(5000, '17/16/13'), at(5001, '18/16/13'), at(5002, '17/16/13')]);
    const [alone, first, second, last] = list as { time: number; end: number }[];
    expect((alone?.end as number) - (alone?.time as number)).toBeGreaterThan(20 * hour);
    expect([first?.time, first?.end, second?.end]).toEqual([5000 * hour, 5001 * hour, 5002 * hour]);
    expect(last?.end).toBe(5003 * hour);
    expect((last?.end as number) - (last?.time as number)).toBeGreaterThan(20 * hour);
  });
});

describe('a code that is not good', () => {
  test('is hatched if it is bad, until the next reading', () => {
    const readings = [at(0, '18/16/13'), at(8, '22/16/13', 'bad'), at(16, '18/16/13'), at(24, '18/16/13')];
    const spec = trendChart(readings);
    const [layer, ...others] = hatches(spec);
    expect(others).toEqual([]);
    const times = (layer?.data?.values ?? []).map(({ time }) => time as number);
    expect(times[0]).toBe(8 * hour);
    expect(times.length).toBeGreaterThan(20);
    expect(Math.max(...times)).toBeLessThanOrEqual(16 * hour);
    expect(spec.description).toContain('upright hatching: bad readings');
    expect(hatches(trendChart(readings.map((each) => ({ ...each, quality: 'good' }) as const)))).toEqual([]);
  });

  test('is hatched where all are bad, and no panel says that there are none', async () => {
    for (const readings of [[at(0, '18/16/13', 'bad')], [0, 8, 16].map((each) => at(each, '18/16/13', 'bad'))]) {
      const spec = trendChart(readings);
      expect(hatches(spec)[0]?.data?.values.length).toBeGreaterThan(0);
      // where nothing can be relied on, the scale is that of the bad ones
      expect(rowsIn(spec).map(({ text }) => text)).toContain('18');
      const { svg, warnings } = await drawn(spec);
      expect(warnings).toEqual([]);
      expect(textsIn(svg).join(' ')).not.toContain('no readings');
    }
    expect(textsIn((await drawn(trendChart([]))).svg).join(' ')).toContain('no readings');
  });

  test('has a circle in the middle of its bar if it is uncertain', () => {
    const spec = trendChart([at(0, '18/16/13'), at(8, '18/16/13', 'uncertain'), at(16, '18/16/13')]);
    // ISO 4406:2021, table 1: 18 is more than 1300 up to 2500 per mL
    expect(circles(spec)).toMatchObject([{ time: 8 * hour, count: Math.sqrt(1300) * Math.sqrt(2500) }]);
    expect(spec.description).toContain('○ uncertain reading');
    expect(trendChart([at(0, '18/16/13')]).description).not.toContain('○');
  });
});

test('a forecast without a latest crossing is drawn to the right edge', () => {
  const readings = [0, 24].map((each) => ({ time: each * hour, counts: cumulativeCounts({ 4: 1000 + each }) }));
  const forecast = { size: 4, from: 24 * hour, now: 1024, level: 10000, earliest: 40 * hour, time: 60 * hour };
  const fan = (latest: number | null) =>
    layersOf(trendChart(readings, { forecast: [{ ...forecast, latest }], to: 200 * hour }))
      .filter(({ mark }) => mark.type === 'area')
      .flatMap(({ data }) => data?.values ?? []);
  expect(fan(null)[2]).toEqual({ time: 200 * hour, low: 1024, high: 10000 });
  expect(fan(80 * hour)[2]?.time).toBe(80 * hour);
});

test('the line of an event begins below the title where it would strike it through', () => {
  const events = [0.5, 20].map((each) => ({ time: each * hour, text: 'Filter changed' }));
  const tops = layersOf(trendChart([], { events, from: 0, to: 24 * hour }))
    .filter(({ mark, encoding }) => mark.type === 'rule' && encoding.y2?.value === 'height')
    .map(({ data, encoding }) => [data?.values[0]?.time, encoding.y?.value]);
  expect(tops).toEqual([
    [20 * hour, -24],
    [0.5 * hour, -4],
  ]);
});

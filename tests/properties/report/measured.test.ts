/**
 * What was measured beside the particles, in a period, a table and a trend: each figure by its own quality, of readings
 * with and without particles.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  type ChartSpec,
  figureBuckets,
  periodFigures,
  periodSummary,
  type ReportReading,
  reportReading,
  reportRows,
  trendChart,
} from '../../../src/report/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { drawn, textsIn } from '../../reference/report/drawn.ts';
import { some } from '../../volume.ts';
import { advanceMonitor, startMonitor } from '../watched.ts';

const hour = 3600000;
const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const quality = fc.constantFrom('good' as const, 'uncertain' as const, 'bad' as const);
const value = fc.oneof(
  fc.integer({ min: -200, max: 1500 }).map((tenths) => tenths / 10),
  fc.constantFrom(0, -273.15, 1000),
);

/** An hourly thermometer that comes and goes, beside a counter that does. */
const readings = fc
  .array(
    fc.record({
      celsius: fc.option(value, { nil: undefined }),
      trust: fc.option(quality, { nil: undefined }),
      counted: fc.boolean(),
      quality,
      acid: fc.option(fc.record({ value, quality }), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 30 },
  )
  .map((list) =>
    list.map((each, i): ReportReading => {
      const reading: Record<string, unknown> = { time: i * hour, quality: each.quality };
      if (each.counted) reading.counts = counts;
      else reading.codes = {};
      if (each.celsius !== undefined) reading.celsius = each.celsius;
      if (each.trust !== undefined) reading.figureQualities = { celsius: each.trust };
      if (each.acid !== undefined) reading.others = { 'acid number': each.acid };
      return reading as unknown as ReportReading;
    }),
  );

/** What a thermometer told that can be relied on. */
function told(list: readonly ReportReading[]): number[] {
  return list.flatMap(({ celsius, figureQualities }) =>
    celsius === undefined || figureQualities?.celsius === 'bad' ? [] : [celsius],
  );
}

interface Panel extends ChartSpec {
  readonly height: number;
  readonly layer: readonly {
    readonly data: { readonly values: readonly Record<string, unknown>[] };
    readonly mark: { readonly type: string; readonly shape?: string };
    readonly encoding: { readonly y?: { readonly scale?: { readonly domain: readonly number[] } } };
  }[];
}

/** The panels of a trend, the words below left out. */
function panelsOf(spec: ChartSpec): Panel[] {
  return (spec.vconcat as Panel[]).slice(0, -1);
}

describe('a period', () => {
  test('lowest, median, highest and last are those of the readings that can be relied on', () => {
    fc.assert(
      fc.property(readings, (list) => {
        const { measured } = periodFigures(list);
        const found = measured?.figures.find(({ figure }) => figure === 'celsius');
        const all = list.filter(({ celsius }) => celsius !== undefined);
        if (all.length === 0) {
          expect(found).toBeUndefined();
          return;
        }
        const trusted = told(list).sort((a, b) => a - b);
        expect(found?.readings).toBe(trusted.length);
        expect(found?.bad).toBe(all.length - trusted.length);
        expect(measured?.readings).toBe(list.length);
        expect(found?.lowest).toBe(trusted[0] ?? null);
        expect(found?.highest).toBe(trusted[trusted.length - 1] ?? null);
        const below = trusted.filter((celsius) => celsius < (found?.median ?? 0)).length;
        const above = trusted.filter((celsius) => celsius > (found?.median ?? 0)).length;
        expect(Math.max(below, above) * 2).toBeLessThanOrEqual(trusted.length);
        const last = list[list.length - 1] as ReportReading;
        expect(found?.last).toBe(told([last])[0] ?? null);
      }),
      { numRuns: some(1000) },
    );
  });

  test('its words keep to 72 characters, with a line for each figure', () => {
    fc.assert(
      fc.property(readings, (list) => {
        const figures = periodFigures(list);
        for (const texts of [undefined, germanTexts]) {
          const lines = periodSummary(figures, texts).split('\n');
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(72);
          const temperatures = lines.filter((line) => line.startsWith(texts ? '  Temperatur ' : '  Temperature '));
          expect(temperatures.length > 0).toBe(list.some(({ celsius }) => celsius !== undefined));
        }
      }),
      { numRuns: some(300) },
    );
  });

  test('a sensor that died has no last value, and is said to be missing', () => {
    const list = [20, 40, undefined].map((celsius, i) => ({ time: i * hour, counts, ...(celsius && { celsius }) }));
    const text = periodSummary(periodFigures(list as ReportReading[]));
    expect(text).toContain('  Temperature              20 °C       30 °C       40 °C   not known');
    expect(text).toContain('  Not in all readings: Temperature in 2 of 3.');
  });

  test('counts that are bad leave the thermometer alone, and a thermometer that is bad the counts', () => {
    const one = periodFigures([{ time: 0, counts, celsius: 41, quality: 'bad' }]);
    expect(one.counts).toBe(null);
    expect(one.measured?.figures[0]?.last).toBe(41);
    const other = periodFigures([{ time: 0, counts, celsius: 850, qualities: { celsius: 'bad' } }]);
    expect(other.readings).toEqual({ good: 1, uncertain: 0, bad: 0 });
    expect(other.measured?.figures[0]).toEqual({
      ...{ figure: 'celsius', readings: 0, bad: 1, lowest: null, median: null, highest: null, last: null },
    });
    // what the instrument says of its counts holds where nothing else does
    expect(periodFigures([{ time: 0, counts, qualities: { counts: 'bad' } }]).readings.bad).toBe(1);
  });

  test('what came twice counts once, whatever the order of its members and when it came in', () => {
    const one = { time: 0, counts, celsius: 41, others: { acid: 0.3, base: 2 }, receivedAt: 5 };
    const again = { receivedAt: 9, others: { base: 2, acid: 0.3 }, celsius: 41, counts, time: 0 };
    const { measured, leftOut } = periodFigures([one, again]);
    expect(measured?.readings).toBe(1);
    expect(leftOut.repeated).toBe(1);
    expect(periodFigures([one, { ...again, celsius: 42 }]).measured?.readings).toBe(2);
  });

  test('figures saved before there were any of these are written all the same', () => {
    const { measured: _measured, ...before } = periodFigures([{ time: 0, counts }]);
    expect(periodSummary(before as never)).toBe(periodSummary(periodFigures([{ time: 0, counts }])));
  });
});

describe('a table', () => {
  test('a column for each figure, a share as exactly its percentage, and what is doubtful', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), (thousandths) => {
        const reading = { time: 0, codes: {}, waterSaturation: thousandths / 1000 };
        const { header, rows } = reportRows([reading]);
        expect(header).toEqual(['time (UTC)', 'water saturation (%)', 'quality', 'verdict']);
        expect(String(rows[0]?.[1])).toBe(String(Number(`${thousandths}e-1`)));
      }),
      { numRuns: some(1000) },
    );
    // a share so small that it is written with an exponent itself
    expect(reportRows([{ time: 0, codes: {}, waterSaturation: 2.5e-9 }]).rows[0]?.[1]).toBe(2.5e-7);
    const doubted = { time: 0, counts, celsius: 850, mlPerMin: 1, figureQualities: { celsius: 'bad' as const } };
    const { header, rows } = reportRows([doubted, { time: hour, counts, others: { acid: 0.3 } }]);
    expect(header.slice(4)).toEqual([
      ...['flow (mL/min)', 'temperature (°C)', 'acid', 'quality', 'verdict', 'doubtful figures'],
    ]);
    expect(rows.map((row) => row.slice(4))).toEqual([
      [1, 850, null, 'good', null, 'Temperature: bad'],
      [null, null, 0.3, 'good', null, null],
    ]);
  });

  test('a figure named like another column is refused by its own name', () => {
    const named = [{ time: 0, counts, others: { quality: 1 } }];
    expect(() => reportRows(named)).toThrow("readings.others: received 'quality'");
  });
});

describe('a trend', () => {
  const figures = ['celsius', 'other acid number'];

  test('every value that can be relied on lies on its line, every bad one is marked, all within the scale', () => {
    fc.assert(
      fc.property(readings, (list) => {
        const panels = panelsOf(trendChart(list, { figures })).slice(3);
        expect(panels.length).toBe(2);
        const panel = panels[0] as Panel;
        const rows = (type: string) =>
          panel.layer
            .filter(({ mark }) => mark.type === type)
            .flatMap(({ data }) => data.values)
            .filter((row) => 'count' in row && 'quality' in row);
        expect(rows('line').map(({ count }) => count)).toEqual(told(list));
        const domains = panel.layer.flatMap(({ encoding }) => encoding.y?.scale?.domain ?? []);
        const [low, high] = [Math.min(...domains), Math.max(...domains)];
        for (const celsius of told(list)) expect(celsius >= low && celsius <= high).toBe(true);
        const bad = list.filter(({ celsius, figureQualities }) => {
          return celsius !== undefined && figureQualities?.celsius === 'bad';
        });
        const crosses = rows('point').filter((row) => row.quality === 'bad').length;
        const hatched = panel.layer.filter(({ mark }) => mark.type === 'rule').length;
        expect(crosses + hatched > 0).toBe(bad.length > 0);
      }),
      { numRuns: some(300) },
    );
  });

  test('pictures without a warning, of readings and of buckets', async () => {
    await fc.assert(
      fc.asyncProperty(readings, async (list) => {
        const options = { widthMs: 6 * hour, holdMs: 2 * hour };
        const buckets = [{ size: 4, buckets: [] }];
        for (const spec of [
          trendChart(list, { figures: [...figures, 'kPa'] }),
          trendChart(buckets, { figures: figureBuckets(list, figures, options) }),
        ]) {
          const { svg, warnings } = await drawn(spec);
          expect(warnings).toEqual([]);
          expect(textsIn(svg).join(' ')).not.toMatch(/NaN|Infinity|undefined|null/);
        }
      }),
      { numRuns: some(15, 4) },
    );
  });

  test('the marks of the scale are few round numbers, and no picture stretches it to 0', async () => {
    const list = [0.31, 0.33, 0.39].map((waterSaturation, i) => ({ time: i * hour, codes: {}, waterSaturation }));
    const { svg } = await drawn(trendChart(list, { figures: ['waterSaturation'] }));
    const texts = textsIn(svg);
    const from = texts.indexOf('14 µm(c): no readings') + 1;
    const to = texts.indexOf('water saturation (%)');
    expect(texts.slice(from, to).filter((text) => /^[\d.]+$/.test(text))).toEqual(['30', '32.5', '35', '37.5', '40']);
  });

  test('it is read aloud in the words of a language', () => {
    const list = [12.5, -3].map((celsius, i) => ({ time: i * hour, codes: {}, celsius }));
    const spoken = (texts?: typeof germanTexts) =>
      String(trendChart(list, { figures: ['celsius', 'kPa'], ...(texts && { texts }) }).description);
    expect(spoken()).toContain(
      'Temperature: -3 °C to 12.5 °C, last -3 °C (1970-01-01 01:00). Pressure: no usable value.',
    );
    expect(spoken(germanTexts)).toContain(
      'Temperatur: -3 °C bis 12,5 °C, zuletzt -3 °C (1970-01-01 01:00). Druck: kein gültiger',
    );
  });

  test('what is no figure is refused, and buckets where readings are drawn', () => {
    const list = [{ time: 0, counts }];
    expectRefused(
      'unknown_option',
      'options.figures[0]',
      "one of 'mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation', or 'other' and a name of others",
      () => trendChart(list, { figures: ['temperature'] }),
    );
    expect(() => trendChart(list, { figures: ['other '] })).toThrow('options.figures[0]');
    expect(() => trendChart(list, { figures: [{ figure: 'celsius', buckets: [] }] })).toThrow('options.figures[0]');
    expect(() => trendChart([{ size: 4, buckets: [] }], { figures: ['celsius'] })).toThrow('options.figures[0]');
    expect(trendChart(list, { figures: [] })).toEqual(trendChart(list));
  });
});

test('a verdict takes all along that the instruments gave', () => {
  const config = { codes: [{ table: iso4406 }] };
  const given = { time: hour, counts, celsius: 41, mm2PerS: 46, others: { acid: 0.3 }, qualities: {} };
  const reading = { kind: 'reading' as const, ...given, qualities: { celsius: 'uncertain' as const } };
  const { verdict } = advanceMonitor(config, startMonitor(config), reading);
  const reported = reportReading(reading, verdict as never);
  expect(reported).toMatchObject({ celsius: 41, mm2PerS: 46, others: { acid: 0.3 }, time: hour });
  expect(reported.figureQualities?.celsius).toBe('uncertain');
  expect(Object.keys(reported)).not.toContain('kind');
  expect(periodFigures([reported]).measured?.figures.map(({ figure }) => figure)).toEqual([
    ...['celsius', 'mm2PerS', 'other acid'],
  ]);
});

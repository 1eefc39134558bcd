/**
 * What a chart shows can be read off it: when a forecast reaches its level, how long a bucket is, what each grey means,
 * on which side a code is open, of which sizes none was counted, and which time it was.
 */
import { describe, expect, test } from 'vitest';
import { continuousScaleNumber } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { type ChartSpec, cleanUpChart, countBuckets, type Texts, trendChart } from '../../../src/report/index.ts';
import { forecastCrossing } from '../../../src/trend/index.ts';
import { drawn, rowsIn, textsIn } from './drawn.ts';

const hour = 3600000;
const day = 24 * hour;
const start = Date.UTC(2026, 10, 2);
const limits = { target: '18/16/13', alarm: '20/18/15' };
const reading = (time: number) => ({ time, counts: cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }) });
const readings = (step: number, to: number) =>
  Array.from({ length: to / step + 1 }, (_, i) => reading(start + i * step));
const written = async (spec: ChartSpec) => textsIn((await drawn(spec)).svg);

interface Layer {
  readonly data: { readonly values: readonly Record<string, number>[] };
  readonly mark: Readonly<Record<string, unknown>>;
}
const layersOf = (spec: ChartSpec) => (spec.vconcat as { layer: Layer[] }[])[0]?.layer as Layer[];

describe('a forecast', () => {
  const crossing = { size: 4, from: start + 5 * day, now: 1890, level: 2500, time: start + 30 * day };
  const spec = (latest: number | null, texts?: Texts) =>
    trendChart(readings(hour, 5 * day), {
      ...(texts === undefined ? {} : { texts }),
      forecast: [{ ...crossing, earliest: start + 24 * day, latest }],
    });

  test('tells the date on which it reaches its level, in the picture and in its description', async () => {
    const told = '4 µm(c): 2,500 per mL about 2026-12-02 (2026-11-26 to 2026-12-17)';
    expect((await written(spec(start + 45 * day))).join(' ')).toContain(told);
    expect(spec(start + 45 * day).description).toContain(told);
    const open = '4 µm(c): 2,500 per mL about 2026-12-02, not before 2026-11-26';
    expect((await written(spec(null))).join(' ')).toContain(open);
    const inGerman = '4 µm(c): 2.500 je mL etwa am 2026-12-02, nicht vor 2026-11-26';
    expect((await written(spec(null, germanTexts))).join(' ')).toContain(inGerman);
  });

  test('is told apart from the period of the readings', async () => {
    const footer = '2026-11-02 to 2026-11-07 (UTC); forecast to 2026-12-17';
    expect(await written(spec(start + 45 * day))).toContain(footer);
    expect(spec(start + 45 * day).description).toContain(`(${footer})`);
    expect(spec(start + 45 * day, germanTexts).description).toContain(
      '2026-11-02 bis 2026-11-07 (UTC); Prognose bis 2026-12-17',
    );
    // what was asked for is said, and the forecast beyond it
    const asked = trendChart(readings(hour, 5 * day), {
      ...{ from: start - 2 * day, to: start + 9 * day },
      forecast: [{ ...crossing, earliest: start + 24 * day, latest: start + 45 * day }],
    });
    expect(asked.description).toContain('(2026-10-31 to 2026-11-11 (UTC); forecast to 2026-12-17)');
    const buckets = countBuckets(readings(hour, 5 * day), { widthMs: day, holdMs: 2 * hour });
    const forecast = [{ ...crossing, earliest: start + 24 * day, latest: start + 45 * day }];
    expect(trendChart(buckets, { forecast }).description).toContain(
      '(2026-11-02 to 2026-11-07 (UTC); forecast to 2026-12-17)',
    );
  });

  test('says where it is cut off: at thrice the way to the line, or at half as far again without an end', async () => {
    // 5 d and 3 x 25 d after 2 November; 5 d and 1.5 x 25 d
    const cut = spec(start + 200 * day);
    expect((await written(cut)).join(' ')).toContain('4 µm(c): limits of the forecast cut off at 2027-01-21');
    expect(cut.description).toContain('(UTC); forecast to 2027-01-21)');
    expect(spec(null).description).toContain('4 µm(c): no latest date can be told; cut off at 2026-12-14');
    expect(spec(null).description).toContain('(UTC); forecast to 2026-12-14)');
    expect(spec(start + 45 * day).description).not.toContain('cut off');
    expect(spec(start + 200 * day, germanTexts).description).toContain(
      '4 µm(c): Grenzen der Prognose abgeschnitten am 2027-01-21',
    );
  });

  test('is drawn as forecastCrossing tells it, in continuous scale numbers', () => {
    const days = Array.from({ length: 60 }, (_, i) => ({
      time: start + i * day,
      counts: cumulativeCounts({ 4: 900 * 1.005 ** i * (1 + 0.2 * Math.sin(7 * i * i)), 6: 90, 14: 7 }),
    }));
    const times = days.map(({ time }) => time);
    const numbers = days.map(({ counts }) => continuousScaleNumber(counts.perMl[0] as number));
    const from = times[59] as number;
    const told = forecastCrossing(times, numbers, { level: 17, unitsPerDay: day });
    const { now, time, earliest, latest } = told as typeof told & { time: number; earliest: number };
    expect(told.outcome).toBe('expected');
    // "from now on" is the last time, also where rounding takes a little of it
    for (const first of [earliest, from, from - 1e-3]) {
      const one = { size: 4, unit: 'scale_number' as const, from, now, level: 17, time, earliest: first, latest };
      const chart = trendChart(days, { forecast: [one] });
      expect(chart.description).toContain('4 µm(c): 1,300 per mL about ');
      const line = layersOf(chart).filter(({ mark }) => mark.type === 'line' && mark.strokeDash !== undefined)[0];
      const [begin, end] = line?.data.values ?? [];
      expect(end).toEqual({ time, count: 1300 });
      expect(continuousScaleNumber(begin?.count as number)).toBeCloseTo(now, 12);
      expect(JSON.stringify(chart)).not.toMatch(/"(low|high)":null/);
    }
    const wrong = (member: object) =>
      trendChart(days, { forecast: [{ size: 4, from, now, level: 17, time, earliest, latest, ...member } as never] });
    const bad = (code: string, name: string) =>
      expect.objectContaining({ code, parameter: `options.forecast[0].${name}` });
    expect(() => wrong({ unit: 'scale' })).toThrowError(bad('unknown_option', 'unit'));
    expect(() => wrong({ unit: 'scale_number', now: 900 })).toThrowError(bad('out_of_range', 'now'));
    expect(() => wrong({ unit: 'scale_number', level: -1 })).toThrowError(bad('out_of_range', 'level'));
    expect(() => wrong({ earliest: from - day })).toThrowError(bad('out_of_range', 'earliest'));
    expect(() => wrong({ earliest: from, time: from })).toThrowError(bad('out_of_range', 'time'));
  });
});

describe('limits', () => {
  test('of target and alarm are both named where a scale of many classes brings them close', async () => {
    const rising = Array.from({ length: 30 }, (_, i) => ({
      time: start + i * day,
      counts: cumulativeCounts({ 4: 10 ** (1.5 + i / 7), 6: 10 ** (1 + i / 8), 14: 10 ** (i / 9) }),
    }));
    for (const width of [240, 360, 640]) {
      const chart = trendChart(rising, { target: '16/14/11', alarm: '17/15/12', width });
      const named = (await written(chart)).filter((text) => /^(target|alarm) \d+$/.test(text));
      expect(named.sort()).toEqual(['alarm 12', 'alarm 15', 'alarm 17', 'target 11', 'target 14', 'target 16']);
      const places = rowsIn(chart).filter(({ key, text }) => key === true && text !== undefined);
      for (const [target, alarm] of [
        ['target 16', 'alarm 17'],
        ['target 14', 'alarm 15'],
        ['target 11', 'alarm 12'],
      ]) {
        const countOf = (name = '') => places.filter(({ text }) => text === name)[0]?.count as number;
        // a class is twice the one before: each name is nearest to its own line
        expect(countOf(alarm) / countOf(target)).toBeGreaterThan(2);
        expect(countOf(alarm) / countOf(target)).toBeLessThan(4);
      }
    }
  });

  test('are named within a narrow plot', () => {
    const tank = { litres: 400, litresPerMin: 40, counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 830 }) };
    const worn = { ...tank, beta: [20, 60, 200], ingressionPerMin: [4e6, 1e6, 5e4] };
    const names = (width: number) =>
      rowsIn(cleanUpChart(worn, { minutes: 120, target: '16/14/11', width })).filter(({ end }) => end !== undefined);
    // the white behind a name is as wide as the name, and the plot of 240 is 69 pixels wide
    const ends = names(240).flatMap(({ end, low }) => (low === undefined ? [] : [end as number]));
    expect(ends.length).toBe(3);
    expect(Math.max(...ends)).toBeLessThan(69);
  });
});

describe('buckets', () => {
  test('say how long they are', async () => {
    const rolled = countBuckets(readings(hour, 5 * day), { widthMs: 6 * hour, holdMs: 2 * hour });
    expect((await written(trendChart(rolled))).join(' ')).toContain(
      'band: least to most in 6 h, line and points: mean',
    );
    const [first, ...others] = rolled;
    const wider = (first as (typeof rolled)[number]).buckets.map((one) => ({ ...one, widthMs: 72 * hour }));
    const mixed = [{ ...(first as (typeof rolled)[number]), buckets: wider }, ...others];
    expect(trendChart(mixed).description).toContain('least to most in 6 h–3 d');
  });

  test('of which nothing is known say so', () => {
    expect(trendChart([{ size: 4, buckets: [] }], { from: start, to: start + day }).description).toContain(
      'no readings (2026-11-02',
    );
  });
});

test('light grey has its words, as white and dark grey have', async () => {
  const words = (await written(trendChart(readings(hour, day), limits))).join(' ');
  expect(words).toContain('white: within target 18/16/13, light grey: above it');
  expect(words).toContain('dark grey: above alarm limit 20/18/15');
});

describe('a code', () => {
  const codes = (...list: string[]) =>
    trendChart(
      list.map((text, i) => ({ time: start + i * hour, codes: { iso4406: text } })),
      { ...limits, target: '18/16/13' },
    );
  const bars = (spec: ChartSpec) => layersOf(spec).filter(({ mark }) => mark.opacity === 0.14);
  const ends = (spec: ChartSpec) => layersOf(spec).filter(({ mark }) => mark.strokeWidth === 1.6);

  test('has a line at both ends; one with >= is open above, up to the edge', () => {
    const counts = (spec: ChartSpec) => ends(spec).flatMap(({ data }) => data.values.map(({ count }) => count));
    expect(counts(codes('18/16/13'))).toEqual([1300, 2500]);
    expect(counts(codes('>=18/16/13'))).toEqual([1300]);
    const [closed, open] = ['18/16/13', '>=18/16/13'].map((text) => bars(codes(text, '22/16/13'))[0]?.data.values[0]);
    expect([closed?.low, closed?.high]).toEqual([1300, 2500]);
    expect([open?.low, open?.high]).toEqual([1300, 80000]);
    expect(codes('>=18/16/13').description).toContain('1,300 to ∞');
  });

  test('has a bar no darker in grey print than the span of the alarm', () => {
    const grey = (colour: string) =>
      [0.299, 0.587, 0.114].reduce(
        (sum, weight, i) => sum + weight * Number(`0x${colour.slice(1 + 2 * i, 3 + 2 * i)}`),
        0,
      );
    const layers = layersOf(codes('18/16/13', '22/20/17'));
    const spans = layers.filter(({ mark }) => mark.type === 'rect' && mark.opacity === 1);
    const [light, dark] = spans.map(({ mark }) => grey(mark.color as string)) as [number, number];
    const { color, opacity } = (bars(codes('18/16/13'))[0] as Layer).mark as { color: string; opacity: number };
    expect(dark).toBeLessThan(light);
    expect(opacity * grey(color) + (1 - opacity) * light).toBeGreaterThanOrEqual(dark);
  });
});

test('marks of sizes of which none was counted stand beside each other, within the picture', async () => {
  const tank = {
    litres: 600,
    litresPerMin: 40,
    counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
    beta: [200, 200, 200],
  };
  const at = (minutes: number, four: number) => ({ minutes, counts: cumulativeCounts({ 4: four, 6: 0, 14: 0 }) });
  const measured = [at(0, 0), at(60, 0), at(90, 5), at(120, 0)];
  const spec = cleanUpChart(tank, { minutes: 120, width: 320, measured });
  const { svg } = await drawn(spec);
  const plot = Number(/class="background"[^>]*d="M[\d.]+,[\d.]+h(\d+)/.exec(svg)?.[1]);
  const none = layersOf(spec).filter(({ mark }) => mark.shape === 'triangle-down');
  const times = rowsIn({ layer: none } as unknown as ChartSpec).map(({ time }) => time as number);
  expect(times).toHaveLength(11);
  const sorted = times.slice().sort((a, b) => a - b);
  sorted.forEach((time, i) => {
    if (i > 0) expect(((time - (sorted[i - 1] as number)) * plot) / 120).toBeGreaterThan(9.9);
  });
  expect(sorted[0]).toBeCloseTo(0, 9);
  expect(sorted[10]).toBeCloseTo(120, 9);
  // of three the middle one stands at its time
  expect(times).toContain(60);
});

test.each([
  ['a day', hour, day - hour],
  ['a fortnight', 6 * hour, 14 * day],
  ['seven weeks', 6 * hour, 53 * day],
  ['a quarter', day, 90 * day],
  ['a year', 7 * day, 364 * day],
])('at 320 pixels %s has three marks of time or more, and none lies on another', async (_name, step, to) => {
  const { svg } = await drawn(trendChart(readings(step, to), { ...limits, width: 320 }));
  const marks = [...svg.matchAll(/transform="translate\(([\d.]+),[\d.]+\)"[^>]*>(\d\d:\d\d|\d+ \w{3}|\w{3}|20\d\d)</g)];
  const places = marks.map(([, x]) => Number(x)).sort((a, b) => a - b);
  expect(places.length).toBeGreaterThanOrEqual(3);
  places.forEach((x, i) => {
    if (i > 0) expect(x - (places[i - 1] as number)).toBeGreaterThan(34);
  });
});

describe('the names of the limits in a clean-up chart', () => {
  const tank = {
    litres: 600,
    litresPerMin: 40,
    counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
    beta: [20, 75, 1000],
  };
  const fed = { ...tank, ingressionPerMin: [4e6, 1e6, 4e4] };

  test.each([
    [tank, { minutes: 120, target: '16/14/11' }],
    [tank, { minutes: 100, target: '17/15/12' }],
    [fed, { minutes: 90, target: '18/16/13', width: 480 }],
  ])('lie on no line: %#', (given, options) => {
    const spec = cleanUpChart(given, { ...options, texts: germanTexts });
    const [part] = spec.vconcat as { width: number; height: number; encoding: Encoding; layer: Layer[] }[];
    const { width, height, encoding, layer } = part as NonNullable<typeof part>;
    const [low, high] = encoding.y.scale.domain as [number, number];
    const x = (time: number) => (width * time) / (encoding.x.scale.domain[1] as number);
    const y = (perMl: number) => (height * Math.log(high / perMl)) / Math.log(high / low);
    const curves = layer.filter(({ mark }) => mark.type === 'line').map(({ data }) => data.values as unknown as Row[]);
    const [upright] = layer.filter(({ mark }) => 'strokeDash' in mark && mark.type === 'rule');
    const at = x((upright as Layer).data.values[0]?.time as number);
    const names = layer
      .flatMap(({ data }) => data.values as unknown as { text?: string; x: number; y: number }[])
      .filter(({ text }) => text?.startsWith('Ziel '));
    expect(names).toHaveLength(3);
    for (const name of names) {
      // eight letters of five pixels and more; a small letter is seven high
      const end = name.x + 5 * (name.text as string).length;
      expect(at > name.x && at < end, `the upright through ${name.text}`).toBe(false);
      for (const curve of curves)
        for (const { time, perMl } of curve)
          if (x(time) > name.x && x(time) < end) expect(Math.abs(y(perMl) - name.y), name.text).toBeGreaterThan(3.5);
    }
  });
});

type Encoding = Readonly<Record<'x' | 'y', { readonly scale: { readonly domain: readonly number[] } }>>;
interface Row {
  readonly time: number;
  readonly perMl: number;
}

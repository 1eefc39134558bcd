/**
 * Too many to count, `*` (ISO 4406:2021, from memory), is the dirtiest that a code can say: a trend draws it, in
 * buckets too, and no panel says that there were no readings. Counts that cannot be drawn are told of.
 */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { type ChartSpec, countBuckets, type ReportReading, trendChart } from '../../../src/report/index.ts';
import { drawn, textsIn } from './drawn.ts';

const day = 86400000;
const of = (...codes: string[]): ReportReading[] =>
  codes.map((code, i) => ({ time: i * day, codes: { 'ISO 4406': code }, quality: 'good' }));
const daily = { widthMs: day, holdMs: day };

interface Layer {
  readonly data: { readonly values: readonly Record<string, number>[] };
  readonly mark: Record<string, unknown>;
  readonly encoding: Record<string, { scale?: { domain: [number, number] } }>;
}

/** The bars of codes in each panel: from when to when, and whether they are open above. */
const barsOf = (spec: ChartSpec) =>
  (spec.vconcat as { layer: Layer[] }[]).map(({ layer = [] }) =>
    layer
      .filter(({ mark }) => mark.type === 'rect' && mark.opacity === 0.14)
      .flatMap(({ data, encoding }) =>
        data.values.map(({ time, end, low, high }) => ({
          days: [time, end].map((at) => (at as number) / day),
          low,
          open: high === encoding.y?.scale?.domain[1],
        })),
      ),
  );
const textOf = (spec: ChartSpec) => JSON.stringify(spec);

describe('readings', () => {
  test('of nothing else have a bar open above in each panel, and are no silence', async () => {
    const spec = trendChart(of('*/*/*', '*/*/*'), { target: '18/16/13' });
    for (const bars of barsOf(spec).slice(0, 3)) expect(bars).toMatchObject([{ days: [0, 2], open: true }]);
    expect(textOf(spec)).not.toMatch(/no readings|no usable count/);
    const { svg, warnings } = await drawn(spec);
    expect(warnings).toEqual([]);
    expect(textsIn(svg)).toEqual(expect.arrayContaining(['4 µm(c): too many to count', '*']));
    const german = trendChart(of('*/*/*'), { texts: germanTexts }).description;
    expect(german).toContain('14 µm(c): zu viele zum Zählen.');
  });

  test('beside codes that were read differ from those that say nothing', () => {
    const [many, silent] = ['*', '-'].map((sign) => trendChart(of('18/16/13', `${sign}/18/14`, '18/16/13')));
    const [bars] = barsOf(many as ChartSpec);
    expect(bars?.map(({ days, open }) => [days, open])).toEqual([
      [[0, 1], false],
      [[1, 2], true],
      [[2, 3], false],
    ]);
    expect(barsOf(silent as ChartSpec)[0]).toHaveLength(2);
    expect(many?.description).toContain('4 µm(c): at times too many to count.');
    expect(silent?.description).not.toContain('too many');
    // above the scale, and above `>28`
    const [all] = barsOf(trendChart(of('>28/16/13', '*/16/13')));
    expect(all?.[1]?.low).toBeGreaterThan(all?.[0]?.low as number);
    expect(all?.map(({ open }) => open)).toEqual([true, true]);
  });

  test('of which none says anything of a size are readings all the same', () => {
    const spec = trendChart(of('-/18/14'));
    expect(textOf(spec)).toContain('4 µm(c): nothing to draw');
    expect(textOf(spec)).not.toContain('no readings');
    expect(textOf(trendChart([]))).toContain('4 µm(c): no readings');
  });

  test('bad ones are hatched, uncertain ones have a circle', () => {
    const bad = trendChart(of('*/*/*').map((each) => ({ ...each, quality: 'bad' })));
    expect(bad.description).toContain('upright hatching');
    expect(barsOf(bad)[0]).toEqual([]);
    const uncertain = trendChart(of('*/*/*').map((each) => ({ ...each, quality: 'uncertain' })));
    expect(uncertain.description).toContain('○ uncertain reading');
  });
});

describe('buckets', () => {
  test('of nothing else are no time without readings, and not hatched', () => {
    const rolled = countBuckets(of('*/*/*', '*/*/*'), daily);
    expect(rolled[0]?.tooMany).toEqual([
      { start: 0, widthMs: day },
      { start: day, widthMs: day },
    ]);
    expect(rolled[0]?.codes).toBeUndefined();
    const spec = trendChart(rolled);
    for (const bars of barsOf(spec).slice(0, 3)) expect(bars).toMatchObject([{ days: [0, 2], open: true }]);
    expect(textOf(spec)).not.toMatch(/no readings|no usable count|hatching/);
    expect(trendChart(JSON.parse(JSON.stringify(rolled)))).toEqual(spec);
  });

  test('may hold codes that were read beside it', () => {
    const half = { time: 1.5 * day, codes: { 'ISO 4406': '17/16/13' } };
    const [at4] = countBuckets([...of('18/16/13', '*/18/14'), half, ...of('18/16/13')], daily);
    expect(at4?.tooMany).toEqual([{ start: day, widthMs: day }]);
    expect(at4?.codes?.map(({ low, high }) => [low, high])).toEqual([
      [1300, 2500],
      [640, 1300],
    ]);
    const [bars] = barsOf(trendChart([at4 as never]));
    expect(bars?.map(({ days, open }) => [days, open])).toEqual([
      [[0, 1], false],
      [[1, 2], false],
      [[1, 2], true],
    ]);
  });
});

describe('counts of sizes that the table does not judge', () => {
  const readings = [
    { time: 0, counts: cumulativeCounts({ 4: 1500, 6: 300, 14: 30 }) },
    { time: 3600000, counts: cumulativeCounts({ 5: 90000, 10: 30000, 15: 9000 }) },
  ];

  test('are told of, and the last is that of those drawn', () => {
    const spec = trendChart(readings, { target: '18/16/13' });
    expect(spec.description).toContain(
      '4 µm(c): 1,500 to 1,500 particles per mL, last of those drawn 1,500 (1970-01-01 00:00).',
    );
    expect(spec.description).toContain('not drawn: 1 with counts of other sizes only');
    expect((spec.title as { subtitle: string[] }).subtitle.join(' ')).toContain('not drawn: 1 with counts of other');
    const plain = trendChart(readings.slice(0, 1)).description;
    expect(plain).toContain('last 1,500 (1970-01-01 00:00).');
    expect(plain).not.toContain('not drawn');
  });

  test('in buckets too; where no reading has another, they are drawn', () => {
    const note = 'not drawn: 1 with counts of other sizes only';
    expect(trendChart(countBuckets(readings, daily)).description).toContain(note);
    expect(trendChart(countBuckets(readings.slice(1), daily)).description).not.toContain('not drawn');
    expect(trendChart(readings.slice(1)).description).not.toContain('not drawn');
  });
});

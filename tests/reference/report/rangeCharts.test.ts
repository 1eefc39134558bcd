/**
 * Charts against a table of ranges: NAS 1638 (January 1964, Table I, particles per 100 mL) and SAE AS4059 Table 1,
 * sized for ISO 11171 counters as that one is, 6 to 14 µm(c) and on. What a panel shows is what is judged.
 */
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, as4059Differential, classify, gost17216, nas1638 } from '../../../src/codes/index.ts';
import { countInterval, cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  type ChartSpec,
  cleanUpChart,
  countBuckets,
  type ReportReading,
  sizeChart,
  trendChart,
} from '../../../src/report/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { drawn, textsIn } from './drawn.ts';

const hour = 3600000;
const daily = { widthMs: 24 * hour, holdMs: hour };
/** Class 8 by its 38 to 70 µm(c), 7 by its 6 to 14: exactly the limit of 32,000. */
const counted = { 6: 33450, 14: 1450, 21: 80, 38: 50, 70: 2 };
const reading: ReportReading = { time: 0, counts: cumulativeCounts(counted, { volumeMl: 100 }) };
const nas = { table: nas1638 };
const withCode = (code: string): ReportReading => ({ time: hour, codes: { 'NAS 1638': code } });

interface Layer {
  readonly data: { readonly values: readonly Record<string, number>[] };
  readonly mark: Record<string, unknown>;
  readonly encoding: Record<string, { scale?: { domain: [number, number] } }>;
}
/** Without the line of words below. */
const panelsOf = (spec: ChartSpec) => (spec.vconcat as { layer?: Layer[] }[]).slice(0, -1);
const valuesOf = (spec: ChartSpec, wanted: (layer: Layer) => boolean) =>
  panelsOf(spec).map(({ layer }) => (layer as Layer[]).filter(wanted).flatMap(({ data }) => data.values));
const pointsOf = (spec: ChartSpec) =>
  valuesOf(spec, ({ mark }) => mark.type === 'line' || mark.type === 'point').map(([first]) => first?.count);

describe('counts', () => {
  test('a panel for each range, with the particles between its two sizes', async () => {
    const spec = trendChart([reading, { ...reading, time: hour }], { ...nas, target: '7', alarm: '8' });
    // 32,000, 1,370, 30, 48 and 2 per 100 mL
    expect(pointsOf(spec).slice(0, 5)).toEqual([320, 13.7, 0.3, 0.48, 0.02]);
    const { svg, warnings } = await drawn(spec);
    expect(warnings).toEqual([]);
    const titles = ['6 to 14 µm(c)', '14 to 21 µm(c)', '21 to 38 µm(c)', '38 to 70 µm(c)', '70 µm(c)'];
    expect(textsIn(svg)).toEqual(expect.arrayContaining([...titles, 'target 7', 'alarm 8', '320']));
    expect(spec.description).toContain('particles per mL: between two sizes');
    expect(spec.description).not.toContain('not counted');
    const german = trendChart([reading], { ...nas, target: '7', texts: germanTexts }).description;
    expect(german).toContain('6 bis 14 µm(c): ');
  });

  test('beyond the limit drawn exactly where the class is', () => {
    const limit = 320;
    const [at, above] = [33450, 33451].map((at6) => {
      const counts = cumulativeCounts({ ...counted, 6: at6, 38: 12 }, { volumeMl: 100 });
      return [classify(nas1638, counts).text, (pointsOf(trendChart([{ time: 0, counts }], nas))[0] as number) > limit];
    });
    expect([at, above]).toEqual([
      ['7', false],
      ['8', true],
    ]);
  });

  test('a range that nobody counted has no panel, and is told of beside a target', () => {
    const few = { time: 0, counts: cumulativeCounts({ 4: 1000, 6: 300, 14: 20 }) };
    const spec = trendChart([few], { ...nas, target: '7' });
    expect(panelsOf(spec)).toHaveLength(1);
    const lacking = 'not counted: 14 to 21 µm(c), 21 to 38 µm(c), 38 to 70 µm(c), 70 µm(c)';
    expect(spec.description).toContain(lacking);
    expect(trendChart([few], nas).description).not.toContain('not counted');
    // the same of sizes
    const two = { time: 0, counts: cumulativeCounts({ 6: 300, 14: 20 }) };
    expect(trendChart([two], { target: '18/16/13' }).description).toContain('not counted: 4 µm(c)');
    // counts of which no range is known
    const one = { time: hour, counts: cumulativeCounts({ 4: 1000, 6: 300 }) };
    expect(trendChart([few, one], nas).description).toContain('not drawn: 1 with counts of other sizes only');
  });

  test('of a bad reading that rise with size are none between, and never less', () => {
    const rising = { ...reading.counts, perMl: [10, 20, 1, 1, 1], counted: [1000, 2000, 100, 100, 100] } as never;
    const bad: ReportReading = { time: 0, counts: rising, quality: 'bad' };
    expect(pointsOf(trendChart([bad], nas))[0]).toBeGreaterThan(0);
    expect(JSON.stringify(trendChart([bad], nas))).not.toMatch(/"count":-/);
  });

  test('classes size by size, and a table that not every sizing fills', () => {
    const spec = trendChart([reading], { table: as4059Differential, target: '7' });
    expect(panelsOf(spec)).toHaveLength(5);
    // GOST 17216, sized for counters by its own sizes
    const counts = cumulativeCounts({ 6.4: 402, 9.8: 90, 21.2: 6 });
    const options = { table: gost17216, target: '9', texts: germanTexts };
    expect(JSON.stringify(trendChart([{ time: 0, counts }], options))).toContain('6,4 bis 9,8 µm(c)');
  });
});

describe('one sample', () => {
  const options = { ...nas, target: '7', errors: {} };
  const layersOf = (spec: ChartSpec) => (spec.vconcat[0] as { layer: Layer[] }).layer;
  const rows = (spec: ChartSpec, type: string, color?: string) =>
    layersOf(spec)
      .filter(({ mark }) => mark.type === type && (color === undefined || mark.color === color))
      .flatMap(({ data }) => data.values);

  test('a level over each range, its class and its target likewise, and the mark in the middle', async () => {
    const spec = sizeChart(cumulativeCounts(counted, { volumeMl: 100 }), { ...nas, target: '8' });
    const open = { size: 70, right: expect.closeTo(70 * (70 / 6) ** 0.12, 9) };
    const over = [
      { size: 6, right: 14 },
      { size: 14, right: 21 },
      { size: 21, right: 38 },
      { size: 38, right: 70 },
      open,
    ];
    const [levels, targets] = ['#1d3557', '#222222'].map((color) =>
      rows(spec, 'rule', color).filter((one) => 'right' in one),
    );
    expect(levels).toEqual([320, 13.7, 0.3, 0.48, 0.02].map((perMl, i) => ({ ...over[i], perMl })));
    // NAS 1638 (January 1964), Table I, class 8: 64,000, 11,400, 2,025, 360 and 64 per 100 mL
    expect(targets).toEqual([640, 114, 20.25, 3.6, 0.64].map((perMl, i) => ({ ...over[i], perMl, label: '8' })));
    // 320 per mL is the limit of class 7, not beyond it
    const [first] = rows(spec, 'rect');
    expect(first).toEqual({ size: 6, right: 14, label: '7', perMl: 160, high: 320 });
    const middles = rows(spec, 'point').map(({ size = 0 }, i) => size / (over[i]?.size ?? 0));
    expect(middles[0]).toBeCloseTo(Math.sqrt(14 / 6), 12);
    const { svg, warnings } = await drawn(spec);
    expect(warnings).toEqual([]);
    expect(textsIn(svg)).toEqual(expect.arrayContaining(['6 to 14 µm(c)', '320', '8', '6', '14', '21', '38', '70']));
    expect(spec.description).toContain('6 to 14 µm(c): 320 particles per mL, class 7');
  });

  test('limits are those of the particles counted between the sizes, at the middle', () => {
    const upright = (more: object) =>
      rows(sizeChart(cumulativeCounts(counted, { volumeMl: 100 }), { ...nas, ...more }), 'rule')
        .filter((one) => !('right' in one))
        .map(({ perMl, high }) => [perMl, high]);
    const byCounting = [32000, 1370, 30, 48, 2].map((n) => {
      const { low, high } = countInterval(n);
      return [low / 100, high / 100];
    });
    expect(upright({})).toEqual(byCounting.map(([low, high]) => [expect.closeTo(low as number, 9), high]));
    // with all errors far wider, where many were counted
    const [[low = 0, high = 0] = []] = upright({ errors: {} });
    expect([low < 310, high > 330]).toEqual([true, true]);
  });

  test('ranges whose ends were not counted are not drawn, and of none there is no chart', () => {
    const two = sizeChart(cumulativeCounts({ 4: 1000, 6: 300, 14: 20 }), { ...options, errors: undefined });
    expect(rows(two, 'point')).toHaveLength(1);
    expect(rows(two, 'rect')).toHaveLength(1);
    expect(JSON.stringify(two.vconcat[1])).not.toContain('14 to 21');
    expectRefused('missing_size', 'counts.sizes', '5-15 (6-14)', () => sizeChart(cumulativeCounts({ 4: 1000 }), nas));
  });

  test('a range of which none was counted has its mark in the place of none', () => {
    const none = sizeChart(cumulativeCounts({ ...counted, 38: 0, 70: 0 }, { volumeMl: 100 }), options);
    const empty = layersOf(none).filter(({ mark }) => mark.shape === 'triangle-down')[0];
    expect(empty?.data.values).toHaveLength(2);
    expect(none.description).toContain('none counted');
  });
});

describe('a forecast', () => {
  const days = { from: hour, time: 40 * hour, earliest: 30 * hour, latest: 60 * hour };
  const of = (more: object) => ({ size: 6, now: 320, level: 640, ...days, ...more }) as never;
  const both = [reading, { ...reading, time: hour }];

  test('of a range stands in its panel, one of its size and larger in none, and is told', () => {
    const ofRange = trendChart(both, { ...nas, forecast: [of({ to: 14 })] });
    expect(ofRange.description).toContain('6 to 14 µm(c): 640 per mL about');
    const ofSize = trendChart(both, { ...nas, forecast: [of({})] });
    expect(ofSize.description).toContain('not drawn: forecast of 6 µm(c)');
    expect(ofSize.description).not.toContain('640 per mL about');
    const inScale = of({ unit: 'scale_number', now: 16, level: 17 });
    expect(trendChart(both, { forecast: [inScale] }).description).toContain('6 µm(c): 1,300 per mL about');
  });

  test('in scale numbers, which count a size and larger, is none of a range', () => {
    const inScale = of({ to: 14, unit: 'scale_number', now: 16, level: 17 });
    const words = 'per_ml for a range of sizes';
    expectRefused('not_convertible', 'options.forecast[0].unit', words, () =>
      trendChart(both, { ...nas, forecast: [inScale] }),
    );
    expectRefused('out_of_range', 'options.forecast[0].to', 'a size above 6 µm', () =>
      trendChart(both, { ...nas, forecast: [of({ to: 6 })] }),
    );
  });
});

describe('codes alone', () => {
  const barsOf = (code: string, table = nas1638) => {
    const spec = trendChart([withCode(code), { ...withCode(code), time: 2 * hour }], { table });
    const top = (layer: Layer) => layer.encoding.y?.scale?.domain[1];
    return panelsOf(spec).map(({ layer }) =>
      (layer as Layer[])
        .filter(({ mark }) => mark.type === 'rect' && mark.opacity === 0.14)
        .flatMap((each) => each.data.values.map(({ high }) => (high === top(each) ? 'open' : high))),
    );
  };

  test('a class for all ranges reaches up to its limit in each', () => {
    expect(barsOf('7')).toEqual(
      [[320], [57], [10.12], [1.8], [0.32]].map(([high]) => [expect.closeTo(high as number, 1)]),
    );
  });

  test('one beyond the last, or dirtier, may be any number in any: open above, never left out', () => {
    for (const code of ['>12', '7 or dirtier']) expect(barsOf(code)).toEqual(Array(5).fill(['open']));
    const cumulative = trendChart([{ time: 0, codes: { 'SAE AS4059': '8B-F or dirtier' } }], {
      table: as4059Cumulative,
    });
    expect(cumulative.description).not.toContain('nothing to draw');
  });
});

describe('buckets', () => {
  test('are those of each range, and drawn as the readings are', () => {
    const later = { time: hour / 2, counts: cumulativeCounts({ ...counted, 6: 35450 }, { volumeMl: 100 }) };
    const rolled = countBuckets([reading, later], { ...daily, ...nas });
    expect(rolled.map(({ size, to }) => [size, to])).toEqual([
      [6, 14],
      [14, 21],
      [21, 38],
      [38, 70],
      [70, undefined],
    ]);
    expect(rolled[0]?.buckets[0]).toMatchObject({ min: 320, max: 340 });
    const spec = trendChart(rolled, { ...nas, target: '7' });
    expect(panelsOf(spec)).toHaveLength(5);
    expect(spec.description).toContain('6 to 14 µm(c): 320 to 340 particles per mL');
  });

  test('of codes alone are bars', () => {
    const rolled = countBuckets([withCode('7'), withCode('>12')], { ...daily, ...nas });
    expect(rolled.map(({ codes }) => codes?.[0])).toEqual(
      Array(5).fill(expect.objectContaining({ low: 0, high: null })),
    );
  });

  test('rolled up for another table are refused, those of sizes that it has not are drawn as they are', () => {
    const words = 'buckets that countBuckets made with the table';
    const rolled = countBuckets([reading], { ...daily, ...nas });
    expectRefused('not_convertible', 'readings[0].to', words, () => trendChart(rolled, { target: '18/16/13' }));
    const plain = countBuckets([reading], daily);
    expectRefused('not_convertible', 'readings[0].to', words, () => trendChart(plain, nas));
    const own = rolled.slice(0, 1).map((each) => ({ ...each, size: 5, to: 15 }));
    expect(JSON.stringify(trendChart(own))).toContain('5 to 15 µm(c)');
  });

  test('an end that lies below the beginning is refused', () => {
    const [first] = countBuckets([reading], { ...daily, ...nas });
    const turned = { ...first, to: 5 } as never;
    expectRefused('out_of_range', 'readings[0].to', 'a size above 6 µm', () => trendChart([turned]));
  });
});

describe('a clean-up', () => {
  const counts = cumulativeCounts({ 4: 9000, 6: 3000, 14: 300, 21: 60, 38: 10, 70: 1 });
  const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000, 1000, 1000, 1000] };

  test('has a line, a limit and a row for each range', async () => {
    const measured = [{ minutes: 20, counts: cumulativeCounts({ 6: 700, 14: 50, 21: 8, 38: 0.2, 70: 0 }) }];
    const spec = cleanUpChart(tank, { minutes: 60, ...nas, target: '6', measured });
    const { svg, warnings } = await drawn(spec);
    expect(warnings).toEqual([]);
    const words = textsIn(svg);
    for (const range of ['6 to 14', '14 to 21', '21 to 38', '38 to 70'])
      expect(words.filter((text) => text.includes(`${range} µm(c)`))).toHaveLength(3);
    // by hand: 2,700 to 160 per mL by 75, exp of 40 x (1 - 1 / 75) / 400 and of 0.0999 for what is above 14 µm(c)
    const between = (t: number) => 3000 * Math.exp((-7.4 / 75) * t) - 300 * Math.exp(-0.0999 * t);
    expect([between(28) > 160, between(29) < 160]).toEqual([true, true]);
    expect(spec.description).toContain('target NAS 1638 6: reached after 29 min');
    expect(spec.description).toContain('6 to 14 µm(c): from 2,700 to 7.31 particles per mL in 60 min');
    // a fifth size is told from the first by dashes and shape
    const styles = (spec.vconcat as { layer: Layer[] }[])[0]?.layer.map(({ mark }) => mark) ?? [];
    const distinct = (of: string) => new Set(styles.filter((mark) => of in mark).map((mark) => `${mark[of]}`)).size;
    expect(distinct('strokeDash')).toBeGreaterThanOrEqual(5);
    expect(distinct('shape')).toBeGreaterThanOrEqual(5);
  });

  test('a limit of none, as NAS 1638 class 0 has beyond 100 µm, leaves the others on the scale', () => {
    const spec = cleanUpChart(tank, { minutes: 1, ...nas, target: '0' });
    const [{ encoding }] = spec.vconcat as unknown as [Layer];
    // 2 in 100 mL is the least of them: 0.02 per mL
    expect(encoding.y?.scale?.domain[0]).toBeLessThanOrEqual(0.02);
  });

  test('a range that is never reached is named', () => {
    const fed = { ...tank, ingressionPerMin: [0, 0, 0, 0, 0, 0].fill(4e7, 0, 2) };
    const { description } = cleanUpChart(fed, { minutes: 60, ...nas, target: '6' });
    expect(description).toMatch(/never.*6 to 14 µm\(c\)/);
  });
});

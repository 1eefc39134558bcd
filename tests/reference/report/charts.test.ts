/** Each chart becomes a picture without a warning, says what it should, and loses nothing in grey. */
import { describe, expect, test } from 'vitest';
import {
  as4059Cumulative,
  type ClassTable,
  classify,
  codeUncertainty,
  iso4406,
  limitsOf,
  nas1638,
} from '../../../src/codes/index.ts';
import { type CumulativeCounts, countInterval, cumulativeCounts } from '../../../src/counts/index.ts';
import { cleanUpCounts, timeToReachCode } from '../../../src/filtration/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  type ChartSpec,
  cleanUpChart,
  englishTexts,
  isMotescaleError,
  periodFigures,
  probabilityChart,
  type ReportReading,
  reportRows,
  sampleSheet,
  sheetText,
  sizeChart,
  type Texts,
  trendChart,
} from '../../../src/report/index.ts';
import { durationText as durationIn } from '../../../src/report/texts/fill.ts';
import { drawn, type Part, rowsIn, textsIn } from './drawn.ts';
import { sampleReadings } from './sampleReadings.ts';
import { summaryOf } from './summary.ts';

const durationText = (minutes: number, towards?: 'up' | 'down') => durationIn(minutes, englishTexts, towards);
const tank = {
  litres: 600,
  litresPerMin: 40,
  counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
  beta: [20, 75, 1000],
  ingressionPerMin: [4e6, 1e6, 4e4],
};
const measured = [0, 30, 60].map((minutes) => ({ minutes, counts: cleanUpCounts(tank, minutes * 0.9) }));
const one = (perMl: number, quality: 'good' | 'uncertain' | 'bad' = 'good', i = 0): ReportReading => ({
  time: Date.UTC(2026, 10, 25) + i * 600000,
  counts: cumulativeCounts({ 4: perMl }),
  quality,
});
type Counted = ReportReading & { counts: CumulativeCounts };
const of10 = { 10: 30, 30: 2 };

const charts: Record<string, () => ChartSpec> = {
  'trend with target and alarm': () =>
    trendChart(sampleReadings(), { title: 'Lock 3, power unit A', target: '18/16/13', alarm: '20/18/15' }),
  'trend without': () => trendChart(sampleReadings().slice(0, 60), { utcOffsetMinutes: 60, width: 300 }),
  'trend of one reading': () => trendChart([one(100)]),
  'trend of zeros, all bad': () => trendChart([one(0, 'bad'), one(0, 'bad', 1)]),
  'trend of sizes that no class knows': () => trendChart([{ time: 0, counts: cumulativeCounts(of10) }]),
  'trend beyond the last class': () => trendChart([one(3e6), one(9e6, 'uncertain', 1)], { alarm: '28/-/-' }),
  'trend over a year': () => trendChart(Array.from({ length: 365 }, (_unused, i) => one(1000 + i, 'good', 144 * i))),
  'trend of counts below the scale, in no class': () =>
    trendChart([{ time: 0, counts: cumulativeCounts({ 10: 1e-9, 30: 1e-60 }) }]),
  'size below the scale': () => sizeChart(cumulativeCounts({ 4: 1e-9 })),
  'trend by microscope': () =>
    trendChart([{ time: 0, counts: cumulativeCounts({ 5: 900, 15: 20 }, { sizing: 'microscope' }) }], {
      target: '-/16/13',
    }),
  size: () => sizeChart(cumulativeCounts({ 4: 21800, 6: 8555, 10: 2310, 14: 608, 21: 104 }), { target: '20/18/15' }),
  'size from raw counts, with a zero': () =>
    sizeChart(cumulativeCounts({ 4: 1250, 6: 212, 14: 9, 21: 0 }, { volumeMl: 10 }), { target: '13/11/8', width: 300 }),
  'size with all errors': () =>
    sizeChart(cumulativeCounts({ 4: 1250, 6: 212, 14: 9, 21: 0 }, { volumeMl: 10 }), { errors: {} }),
  probabilities: () =>
    probabilityChart(codeUncertainty(iso4406, cumulativeCounts({ 4: 1250, 6: 212, 14: 9 }, { volumeMl: 10 }))),
  'probabilities, one size': () =>
    probabilityChart(codeUncertainty(iso4406, cumulativeCounts({ 4: 0 }, { volumeMl: 10 })), { title: 'A' }),
  'probabilities of classes for ranges': () =>
    probabilityChart(codeUncertainty(nas1638, cumulativeCounts({ 6: 900, 14: 30, 21: 4 }, { volumeMl: 10 })), {
      width: 300,
    }),
  'size, one only': () => sizeChart(cumulativeCounts({ 4: 0 })),
  'size beyond the last class': () => sizeChart(cumulativeCounts({ 4: 9e6, 6: 1, 14: 0.005 })),
  'clean-up with target': () => cleanUpChart(tank, { minutes: 120, target: '16/14/11', measured }),
  'clean-up without': () =>
    cleanUpChart({ ...tank, counts: cumulativeCounts({ 10: 5, 20: 1, 30: 0 }) }, { minutes: 1 }),
  'clean-up, target never reached': () => cleanUpChart(tank, { minutes: 600, target: '13/11/8' }),
  'clean-up, target met from the start by few particles': () =>
    cleanUpChart(
      { ...tank, counts: cumulativeCounts({ 4: 30, 6: 0, 14: 0 }, { volumeMl: 1 }), ingressionPerMin: [0, 0, 0] },
      { minutes: 60, target: '13/8/5' },
    ),
  'clean-up, target met from the start': () => cleanUpChart(tank, { minutes: 60, target: '24/22/20' }),
  'clean-up, target reached late': () => cleanUpChart(tank, { minutes: 70, target: '16/14/11' }),
};
const names = Object.keys(charts);
const make = (name: string) => (charts[name] as () => ChartSpec)();

describe('every chart', () => {
  test.each(names)('%s: a picture, without a warning', async (name) => {
    const { svg, warnings } = await drawn(make(name));
    expect(warnings).toEqual([]);
    expect(svg).toMatch(/^<svg /);
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  test.each(names.filter((name) => !name.startsWith('probabilities')))(
    '%s: every scale of counts has a length',
    (name) => {
      const scales = [...JSON.stringify(make(name)).matchAll(/"type":"log","domain":\[([^\]]*)\]/g)];
      expect(scales.length).toBeGreaterThan(0);
      for (const [, ends] of scales) {
        const [low, high] = (ends as string).split(',').map(Number) as [number, number];
        expect(low).toBeLessThan(high);
      }
    },
  );

  test.each(names)('%s: plain data that survives JSON', (name) => {
    const spec = make(name);
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  });

  test('all inks differ in grey, and text can be read on every ground (WCAG 2.1, 1.4.3: contrast 4.5)', () => {
    const trend = JSON.stringify(make('trend with target and alarm'));
    const grounds = ['#ffffff', '#ededed', '#d2d2d2'];
    const marks = ['#1d3557', '#222222', '#555555'];
    for (const color of [...grounds.slice(1), ...marks]) expect(trend).toContain(color);
    for (const mark of marks) {
      for (const ground of grounds) expect(contrast(mark, ground), `${mark} on ${ground}`).toBeGreaterThan(4.5);
    }
    expect(contrast('#ffffff', '#ededed')).toBeGreaterThan(1.1);
    expect(contrast('#ededed', '#d2d2d2')).toBeGreaterThan(1.1);
    const used = names.flatMap((name) => JSON.stringify(make(name)).match(/#[0-9a-f]{6}/g) ?? []);
    const hued = [...new Set(used)].filter((color) => !/^#(..)\1\1$/.test(color));
    expect(hued, 'one ink alone has a hue').toEqual(['#1d3557']);
  });
});

describe('trendChart', () => {
  const spec = make('trend with target and alarm');
  const panels = spec.vconcat as ChartSpec[];

  test('names the classes, target and alarm on the right, and what the marks mean', async () => {
    const texts = textsIn((await drawn(spec)).svg);
    const expected = [
      'target 18',
      'target 16',
      'target 13',
      'alarm 20',
      'alarm 18',
      'alarm 15',
      '20',
      '2026-11-02 to 2026-11-15 (UTC)',
    ];
    for (const text of expected) expect(texts).toContain(text);
    for (const mark of ['○ uncertain reading', '× bad reading, not joined']) expect(texts.join('|')).toContain(mark);
    expect(textsIn((await drawn(make('trend of one reading'))).svg).join('|')).not.toMatch(/○|×|target|alarm/);
  });

  test('beyond the last class the standard says so', async () => {
    const texts = textsIn((await drawn(make('trend beyond the last class'))).svg);
    for (const text of ['>28', 'alarm 28']) expect(texts).toContain(text);
  });

  test('limits are those of the standard', () => {
    const spans = rowsIn(panels[0] as ChartSpec).filter((row) => 'low' in row);
    expect(spans).toEqual([
      { low: 2500, high: 10000 },
      { low: 10000, high: 20000 },
    ]);
  });

  test('every reading is there; the line breaks behind a bad one and at a gap', () => {
    const all = sampleReadings();
    const layers = (panels[0] as unknown as Part).layer as {
      data: { values: Record<string, unknown>[] };
      mark: { type: string };
    }[];
    const line = layers.filter(({ mark }) => mark.type === 'line')[0]?.data.values as Record<string, number>[];
    expect(line.map((row) => row.time)).toEqual(all.filter((r) => r.quality !== 'bad').map((r) => r.time));
    const bad = all.filter((r) => r.quality === 'bad');
    const stretchAt = (time: number) => line.filter((row) => row.time === time)[0]?.stretch;
    for (const { time } of bad) expect(stretchAt(time - 3600000)).not.toBe(stretchAt(time + 3600000));
    expect(new Set(line.map((row) => row.stretch)).size).toBe(bad.length + 2);
    const points = layers.filter(({ mark }) => mark.type === 'point').map(({ data }) => data.values.length);
    expect(points).toEqual([all.filter((r) => r.quality === 'uncertain').length, bad.length]);
  });

  test('a zero stands in a place of its own below the scale, with a mark and a 0 beside it', async () => {
    const spec = trendChart([one(40), one(0, 'good', 1)]);
    const panel = (spec.vconcat as ChartSpec[])[0] as ChartSpec;
    const zeros = rowsIn(panel).filter((row) => row.none === true);
    expect(zeros).toHaveLength(2);
    for (const { count } of zeros) expect(count).toBeLessThan(20);
    const texts = textsIn((await drawn(spec)).svg);
    expect(texts).toContain('0');
    expect(texts).toContain('20');
  });
});

describe('probabilityChart', () => {
  const counts = cumulativeCounts({ 4: 12600, 6: 4700, 14: 330 }, { volumeMl: 10 });
  const sure = codeUncertainty(iso4406, counts);

  test('says each probability in per cent, and each class once', async () => {
    const { svg } = await drawn(probabilityChart(sure));
    const texts = textsIn(svg);
    for (const { probabilities } of sure.columns) {
      for (const { probability } of probabilities) {
        const percent = Math.round(100 * probability);
        if (probability >= 0.005) expect(texts).toContain(percent === 100 ? '>99 %' : `${percent} %`);
      }
    }
    for (const name of ['12', '13', '16', '17', '18']) expect(texts).toContain(name);
    expect(texts.join(' ')).toContain(sure.mostProbable.text);
  });

  test('names each size in the sizing of the counts, a range by its sizes there', async () => {
    const headings = async (table: ClassTable, of: CumulativeCounts) => {
      const spec = probabilityChart(codeUncertainty(table, of, { volume: 0.03, sizing: 0.03 }));
      const found = textsIn((await drawn(spec)).svg).filter((text) => text.indexOf('µm') >= 0);
      for (const heading of found) expect(spec.description).toContain(`${heading}: `);
      return found;
    };
    expect(await headings(iso4406, counts)).toEqual(['4 µm(c)', '6 µm(c)', '14 µm(c)']);
    // NAS 1638 writes 5-15 and 15-25 for these: AS4059, the sizes of ISO 11171 beside them
    const ofRanges = { 6: 900, 14: 30, 21: 4, 70: 1 };
    expect(await headings(nas1638, cumulativeCounts(ofRanges, { volumeMl: 10 }))).toEqual([
      '6-14 µm(c)',
      '14-21 µm(c)',
      '>70 µm(c)',
    ]);
    const microscope = cumulativeCounts({ 5: 900, 15: 30 }, { volumeMl: 10, sizing: 'microscope' });
    expect(await headings(nas1638, microscope)).toEqual(['5-15 µm']);
  });

  test('sizeChart with errors draws the limits of codeUncertainty', () => {
    const limits = rowsIn(sizeChart(counts, { errors: {} })).filter((row) => 'high' in row && !('label' in row));
    expect(limits).toEqual(sure.columns.map(({ low, high }, i) => ({ size: [4, 6, 14][i], perMl: low, high })));
    expect(() => sizeChart(counts, { error: {} } as never)).toThrow('options.error');
    expect(() => sizeChart(counts, { errors: { volume: -1 } })).toThrow('options.errors.volume');
    const seen = cumulativeCounts({ 5: 900, 15: 30 }, { volumeMl: 10, sizing: 'microscope' });
    expect(() => sizeChart(seen, { errors: {} })).toThrow('options.errors: received an object, expected volume and');
    // at sizes that the table does not judge too
    const six = cumulativeCounts({ 4: 4500, 6: 900, 14: 30, 21: 8, 38: 2, 70: 1 }, { volumeMl: 10 });
    const ofSix = codeUncertainty(as4059Cumulative, six).columns;
    expect(ofSix.map(({ from }) => from)).toEqual(six.sizes);
    const drawnAtSix = rowsIn(sizeChart(six, { errors: {} })).filter((row) => 'high' in row && !('label' in row));
    expect(drawnAtSix).toEqual(ofSix.map(({ from, low, high }) => ({ size: from, perMl: low, high })));
  });

  test('and the sheet call limits of one class for all sizes those of the class', () => {
    const told = (table: ClassTable) =>
      [englishTexts, germanTexts].map((texts) => [
        probabilityChart(codeUncertainty(table, counts), { texts }).description,
        sheetText(sampleSheet(counts, { tables: [table] }), texts).replace(/\s+/g, ' '),
      ]);
    const ofEach = [
      ['limits of 95 % at each size: ', '95 % limits at each size '],
      ['bei jeder Größe: ', 'je Größe '],
    ];
    const ofClass = [
      ['limits of 95 % of the class: ', '95 % limits of the class '],
      ['der Klasse: ', 'der Klasse '],
    ];
    ofEach.flat().forEach((words, i) => {
      expect(told(iso4406).flat()[i]).toContain(words);
      expect(told(nas1638).flat()[i]).not.toContain(words);
      expect(told(nas1638).flat()[i]).toContain(ofClass.flat()[i]);
      expect(told(iso4406).flat()[i]).not.toContain(ofClass.flat()[i]);
    });
  });

  test('a title that asks keeps its own sign in what is read aloud, any other gets a full stop', () => {
    expect(probabilityChart(sure).description).toMatch(/^How sure is the code\? most/);
    expect(probabilityChart(sure, { title: 'Lock 7' }).description).toMatch(/^Lock 7\. most/);
    for (const spec of [
      cleanUpChart(tank, { minutes: 60, title: 'Clean?' }),
      sizeChart(counts, { title: 'Clean?' }),
      trendChart([one(900)], { title: 'Clean?' }),
    ]) {
      expect(spec.description).toMatch(/^Clean\? /);
    }
  });

  test('what is no finding of codeUncertainty is refused', () => {
    for (const odd of [null, {}, { columns: [] }, { ...sure, low: null }, { ...sure, columns: [null] }]) {
      expect(() => probabilityChart(odd as never)).toThrow('codeUncertainty');
    }
  });
});

describe('a trend of bad readings alone', () => {
  test('is scaled by them: each stands at its own count, within its scale', () => {
    for (const qualities of [['bad', 'bad'] as const, ['bad'] as const]) {
      const readings = qualities.map((quality, i) => one(50000 + i * 3000, quality, i));
      const panel = (trendChart(readings).vconcat as ChartSpec[])[0] as ChartSpec;
      const drawnCounts = rowsIn(panel).filter((row) => row.quality === 'bad');
      expect(drawnCounts.map((row) => row.count)).toEqual(readings.map(({ counts }) => counts?.perMl[0]));
      // the limits of ISO 4406 that stand next to them on both sides
      expect(domainOf(panel)).toEqual([40000, 80000]);
    }
  });

  test('a count just at a limit has the next ones to spare on both sides', () => {
    const panel = (trendChart([one(640)]).vconcat as ChartSpec[])[0] as ChartSpec;
    expect(domainOf(panel)).toEqual([320, 1300]);
  });

  test('among good ones they are held at the edge instead', () => {
    const panel = (trendChart([one(1000), one(50000, 'bad', 1)]).vconcat as ChartSpec[])[0] as ChartSpec;
    expect(domainOf(panel)).toEqual([640, 1300]);
    expect(rowsIn(panel).filter((row) => row.quality === 'bad')).toMatchObject([{ count: 1300 }]);
  });
});

describe('the distance from UTC', () => {
  const readings = [0, 1].map((i) => ({
    time: Date.UTC(2026, 10, 25, 23, 30) + i,
    counts: cumulativeCounts({ 4: 9 }),
  }));

  test.each<[number, string, string, string]>([
    [0, 'UTC', '2026-11-25 23:30:00', '2026-11-25'],
    [60, 'UTC+01:00', '2026-11-26 00:30:00', '2026-11-26'],
    [29, 'UTC+00:29', '2026-11-25 23:59:00', '2026-11-25'],
    [30, 'UTC+00:30', '2026-11-26 00:00:00', '2026-11-26'],
    [-210, 'UTC-03:30', '2026-11-25 20:00:00', '2026-11-25'],
    [-720, 'UTC-12:00', '2026-11-25 11:30:00', '2026-11-25'],
    [840, 'UTC+14:00', '2026-11-26 13:30:00', '2026-11-26'],
  ])('%d minutes', (utcOffsetMinutes, zone, time, date) => {
    const { header, rows } = reportRows(readings, { utcOffsetMinutes });
    expect([header[0], rows[0]?.[0]]).toEqual([`time (${zone})`, time]);
    const spec = trendChart(readings, { utcOffsetMinutes });
    const panel = (spec.vconcat as ChartSpec[])[0] as ChartSpec;
    expect(rowsIn(spec).map(({ text }) => text)).toContain(`${date} (${zone})`);
    // the axis is drawn as UTC: the times themselves are shifted
    expect(rowsIn(panel).filter((row) => 'time' in row)[0]?.time).toBe(readings[0]!.time + utcOffsetMinutes * 60000);
    expect(summaryOf(readings, { utcOffsetMinutes })).toContain(
      `${time.slice(0, 16)} to ${time.slice(0, 16)} (${zone})`,
    );
  });

  test.each([-721, 841])('%d is on no clock', (utcOffsetMinutes) => {
    for (const make of [reportRows, trendChart, periodFigures]) {
      expect(() => make(readings, { utcOffsetMinutes })).toThrowError(
        expect.objectContaining({ code: 'out_of_range', parameter: 'options.utcOffsetMinutes' }),
      );
    }
  });
});

describe('the scale of counts where no limit of a class stands beside them: powers of ten', () => {
  test.each<[readonly number[], number, number, readonly number[]]>([
    [[2, 30], 1, 100, [1, 10, 100]],
    // a count on a power of ten has one to spare on both sides
    [[10], 1, 100, [1, 10, 100]],
    [[1, 100], 0.1, 1000, [0.1, 1, 10, 100, 1000]],
    [[0.1], 0.01, 1, [0.01, 0.1, 1]],
    [[999], 100, 1000, [100, 1000]],
    [[1000], 100, 10000, [100, 1000, 10000]],
    [[1001], 1000, 10000, [1000, 10000]],
    [[0.000001], 0.000001, 0.00001, [0.000001, 0.00001]],
    [[1e-9], 0.000001, 0.00001, [0.000001, 0.00001]],
  ])('of %j', (perMl, low, high, decades) => {
    const readings = perMl.map((count, i) => ({ time: i, counts: cumulativeCounts({ 10: count }) }));
    const panel = (trendChart(readings).vconcat as ChartSpec[])[0] as ChartSpec;
    expect(domainOf(panel)).toEqual([low, high]);
    const [, values] = /"axis":\{[^}]*"values":(\[[^\]]*\])/.exec(JSON.stringify(panel)) ?? [];
    expect(JSON.parse(values as string)).toEqual(decades);
  });
});

describe('sizeChart', () => {
  test('bars span the counts of the class, targets and counting limits stand where they are', async () => {
    const counts = cumulativeCounts({ 4: 1250, 6: 212, 14: 9, 21: 0 }, { volumeMl: 10 });
    const spec = sizeChart(counts, { target: '13/11/8' });
    const rows = rowsIn(spec);
    const bars = rows.filter((row) => 'high' in row && row.label === '12')[0];
    expect(bars).toMatchObject({ size: 6, perMl: 20, high: 40 });
    const { low, high } = countInterval(212);
    expect(rows.filter((row) => row.high === high / 10)[0]).toMatchObject({ size: 6, perMl: low / 10 });
    expect(rows.filter((row) => row.label === '8' && !('high' in row))[0]).toMatchObject({ size: 14, perMl: 2.5 });
    expect(rows.filter((row) => row.label === '11')[0]).toMatchObject({ size: 6, perMl: 20 });
    const texts = textsIn((await drawn(spec)).svg);
    for (const text of ['>=7', '125', '21.2', '0']) expect(texts).toContain(text);
    expect(texts.join(' ')).toContain('ISO 4406 14/12/>=7');
  });
});

describe('cleanUpChart', () => {
  test('says when the target is reached, as timeToReachCode does', async () => {
    const time = timeToReachCode(tank, limitsOf(iso4406, '16/14/11'));
    const minutes = Math.ceil(time.minutes as number);
    const texts = textsIn((await drawn(make('clean-up with target'))).svg);
    expect(texts.join(' ')).toContain(`target ISO 4406 16/14/11: reached after ${minutes} min`);
    for (const { size, minutes: at } of time.sizes) {
      const row = texts.indexOf(`${size} µm(c)`, texts.indexOf('reached after') + 1);
      expect(row, `a row for ${size}`).toBeGreaterThan(0);
      expect(texts).toContain(`${{ 4: 16, 6: 14, 14: 11 }[size]}`);
      expect(texts).toContain(`${Math.ceil(at as number)} min`);
    }
  });

  test('minutes are rounded up, to what holds down; a long time is told without an exponent', () => {
    expect([86.2, 86, 30.000000000000004, 9.01, 2.04, 119.2].map((minutes) => durationText(minutes))).toEqual([
      '87 min',
      '86 min',
      '30 min',
      '9.1 min',
      '2.1 min',
      '120 min',
    ]);
    expect(durationText(86.9, 'down')).toBe('86 min');
    expect(durationText(0)).toBe('0 min');
    expect([121, 2881, 52595999, 52596000, 1e60].map((minutes) => durationText(minutes))).toEqual([
      '2.1 h',
      '2.1 d',
      '36,525 d',
      'more than 100 years',
      'more than 100 years',
    ]);
  });

  test('a measured count of zero is drawn, with a mark of its own, and so is one below the scale', async () => {
    const clean = [{ minutes: 60, counts: cumulativeCounts({ 4: 900, 6: 0.001, 14: 0 }) }];
    const spec = cleanUpChart(tank, { minutes: 120, target: '16/14/11', measured: clean });
    const layers = (spec.vconcat as { layer: { mark: { fill?: string; shape?: string } }[] }[])[0]?.layer ?? [];
    const marks = layers.filter(({ mark }) => mark.fill === 'white');
    const rows = rowsIn({ layer: marks } as unknown as ChartSpec);
    expect(rows).toEqual([
      { time: 60, perMl: 900 },
      { time: 60, perMl: expect.any(Number) },
      { time: 60, perMl: expect.any(Number) },
    ]);
    const shapes = marks.filter((layer) => rowsIn({ layer: [layer] } as unknown as ChartSpec).length > 0);
    expect(shapes.map(({ mark }) => mark.shape)).toEqual(['circle', 'square', 'triangle-down']);
    expect(rows[2]?.perMl as number).toBeLessThan(rows[1]?.perMl as number);
    const { svg, warnings } = await drawn(spec);
    expect(warnings).toEqual([]);
    expect(textsIn(svg).join(' ')).toContain('lines: calculated; marks: measured');
    expect(textsIn(svg).join(' ')).toContain('▽ none counted');
  });

  test('says so where it is never reached, or met from the start', async () => {
    expect(textsIn((await drawn(make('clean-up, target never reached'))).svg).join(' ')).toContain(
      'target ISO 4406 13/11/8: never reached; 4 µm(c) prevents it',
    );
    expect(textsIn((await drawn(make('clean-up, target met from the start'))).svg).join(' ')).toContain(
      'target ISO 4406 24/22/20: met from the start',
    );
    expect(JSON.stringify(make('clean-up, target met from the start by few particles').title)).toContain(
      '13/8/5: met from the start; too few particles to be sure at 6',
    );
  });
});

describe('a target that is reached and lost again', () => {
  // the larger size starts dirty and is cleaned; the smaller starts clean and is carried above its limit by what comes
  // in
  const losing = {
    litres: 400,
    litresPerMin: 40,
    counts: cumulativeCounts({ 4: 300, 6: 300, 14: 20 }),
    beta: [20, 20, 20],
    ingressionPerMin: [3e7, 2e6, 1e3],
  };

  test('the time for which it holds is told, rounded down', () => {
    const time = timeToReachCode(losing, limitsOf(iso4406, '16/14/11'));
    const [reached, held] = [time.minutes as number, time.heldUntil as number];
    expect(reached).toBeGreaterThan(0);
    expect(held).toBeGreaterThan(reached);
    const { subtitle } = cleanUpChart(losing, { minutes: 60, target: '16/14/11' }).title as { subtitle: string[] };
    const expected = `reached after ${durationText(reached)}, lost again after ${durationText(held, 'down')}`;
    expect(subtitle[subtitle.length - 1]).toBe(`target ISO 4406 16/14/11: ${expected}`);
    expect(durationText(held, 'down')).not.toBe(durationText(held));
  });

  test('each target within the scale is named by its size beside its line, and none at its edge', async () => {
    const spec = cleanUpChart(tank, { minutes: 120, target: '16/14/11' });
    const [low, high] = domainOf(spec) as [number, number];
    const time = timeToReachCode(tank, limitsOf(iso4406, '16/14/11'));
    for (const { size, upTo, minutes } of time.sizes) {
      const named = rowsIn(spec).filter(({ text }) => text === `target ${size} µm(c)`)[0] as { x: number; y: number };
      // just above the limit, on the right of the dot: its own line of counts falls and is below there; before the dot
      // and below the limit where the upright stands on the right
      const limit = (300 * Math.log(high / upTo)) / Math.log(high / low);
      const dot = (plotOf(spec) * (minutes as number)) / 120;
      const isLast = minutes === time.minutes;
      expect(limit - named.y).toBeCloseTo(isLast ? 7 : -8, 6);
      if (isLast) expect(named.x).toBeCloseTo(dot + 6, 6);
      else expect(named.x).toBeLessThan(dot - 60);
    }
    const above = cleanUpChart(tank, { minutes: 60, target: '24/22/10' });
    const texts = textsIn((await drawn(above)).svg);
    const lines = rowsIn(above).filter((row) => 'met' in row);
    expect(lines.map(({ size }) => size)).toEqual([6, 14]);
    expect(texts.filter((text) => text.startsWith('target '))).toContain('target 14 µm(c)');
    expect(texts).not.toContain('target 4 µm(c)');
    // 24 and below: the table still has it
    expect(texts).toContain('met from the start');
  });

  test('a line shows although it starts far below the targets', () => {
    const few = { ...tank, counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 0.02 }), ingressionPerMin: [4e6, 1e6, 1] };
    const spec = cleanUpChart(few, { minutes: 120, target: '16/14/11' });
    const layers = spec.vconcat[0].layer as Part[];
    const lines = layers.filter(({ mark }) => (mark as { type: string }).type === 'line');
    expect(lines.length).toBe(3);
    // over so many decades two targets lie close: their names still stand apart
    const names = rowsIn(spec).filter(({ text }) => String(text).startsWith('target ')) as { x: number; y: number }[];
    expect(names.length).toBe(3);
    const ys = names.map(({ y }) => y).sort((one, other) => one - other);
    for (const i of [1, 2]) expect((ys[i] as number) - (ys[i - 1] as number)).toBeGreaterThan(10);
    for (const line of lines) expect((line.data as { values: unknown[] }).values.length).toBeGreaterThan(10);
  });

  test('one that holds for good says nothing of it', () => {
    expect(JSON.stringify(cleanUpChart(tank, { minutes: 60, target: '16/14/11' }))).not.toContain('lost again');
  });
});

describe('periodSummary', () => {
  test('the sample fortnight, word for word (computed; read by eye)', () => {
    const events = [
      {
        time: Date.UTC(2026, 10, 10, 4, 7),
        text: 'Alarm raised: ISO 4406 at 4 µm(c) above 18; the return filter shows its indicator',
      },
      { time: Date.UTC(2026, 10, 7, 1), text: 'Signal lost for 15 hours' },
    ];
    const text = summaryOf(sampleReadings(), { title: 'Lock 3, lower gates', target: '18/16/13', events });
    expect(text).toMatchInlineSnapshot(`
      "Lock 3, lower gates
      2026-11-02 00:00 to 2026-11-15 23:00 (UTC)

      Readings   321: 311 good, 7 uncertain, 3 bad
                 Usually one each 60 min: so they cover 95.5 % of the period.

      Target     ISO 4406 18/16/13: 245 of 318 met, 240 of them good
                 The last reading met it.

      Particles per mL          lowest      median     highest        last
        4 µm(c)                  1,343       1,775      14,264       1,639
        6 µm(c)                    318         431       3,609         406
        14 µm(c)                  26.2        39.7         344        42.5
        ISO 4406              18/15/12    18/16/12    21/19/16    18/16/13

      Verdicts   in target: 247; not to be relied on: 3; above target: 71

      Events
        2026-11-07 01:00  Signal lost for 15 hours
        2026-11-10 04:07  Alarm raised: ISO 4406 at 4 µm(c) above 18; the
                          return filter shows its indicator
      "
    `);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(72);
  });

  test('figures are those of the readings', () => {
    const used = sampleReadings().filter(({ quality }) => quality !== 'bad') as Counted[];
    const at6 = used.map(({ counts }) => counts.perMl[1] as number).sort((a, b) => a - b);
    const median = ((at6[158] as number) + (at6[159] as number)) / 2;
    const text = summaryOf(sampleReadings(), { target: '18/16/13' });
    const row = text
      .split('\n')
      .filter((line) => line.startsWith('  6 µm(c)'))[0]
      ?.split(/ {2,}/)
      .slice(2);
    const last = used[used.length - 1] as Counted;
    expect(row?.map((cell) => cell.replace(',', ''))).toEqual(
      [at6[0], Math.round(median), at6[at6.length - 1], last.counts.perMl[1]].map(String),
    );
    expect(text).toContain(classify(iso4406, last.counts).text);
    const met = used.filter(({ counts }) => [2500, 640, 80].every((limit, i) => (counts.perMl[i] as number) <= limit));
    expect(text).toContain(`${met.length} of ${used.length} met`);
  });

  test('nothing is said of the oil from bad readings alone', () => {
    const text = summaryOf([one(5, 'bad')], { target: '18/16/13', events: [] });
    expect(text).toContain('1: 0 good, 0 uncertain, 1 bad');
    expect(text).toContain('they say nothing of the oil');
    expect(text).not.toMatch(/Target|per mL/);
    expect(text).toContain('Events     none begun in this period');
  });
});

test('what is read aloud for a trend says what it counts', () => {
  const readings = [0, 1, 2].map((time) => ({ time, counts: cumulativeCounts({ 4: 1890 + time }) }));
  const told = (texts: Texts) => trendChart(readings, { texts }).description;
  expect(told(englishTexts)).toMatch(/^Particle counts\. Readings: 3, of them 3 good, 0 uncertain, 0 bad \(/);
  expect(told(germanTexts)).toMatch(/^\S+\. Messungen: 3, davon 3 gut, 0 unsicher, 0 ungültig \(/);
});

test.each([
  ['19/17/14', '19/17/14'],
  ['19/17/14', '18/18/14'],
  ['19/17/14', '-/17/15'],
  ['>28/17/14', '>28/17/14'],
  ['19/-/-', '-/17/14'],
])('an alarm that is not cleaner than the target everywhere is drawn: %s and %s', (target, alarm) => {
  const readings = [{ time: 0, counts: cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }) }];
  expect(trendChart(readings, { target, alarm }).description).toContain(`dark grey: above alarm limit ${alarm}`);
});

describe('every error', () => {
  const counts = cumulativeCounts({ 4: 1 });
  const readings = [{ time: 0, counts }];

  test.each<[string, string, () => unknown]>([
    ['wrong_type', 'readings', () => trendChart({} as never)],
    ['unknown_option', 'options.titel', () => trendChart(readings, { titel: '' } as never)],
    ['unknown_option', 'options.vegaLite', () => trendChart(readings, { vegaLite: 4 as never })],
    ['out_of_range', 'options.width', () => trendChart(readings, { width: 200 })],
    ['wrong_type', 'options.texts.decimalSign', () => trendChart(readings, { texts: {} as never })],
    ['wrong_type', 'options.forecast', () => trendChart(readings, { forecast: {} as never })],
    ['wrong_type', 'readings[0].buckets', () => trendChart([{ size: 4, buckets: 5 as never }])],
    ['not_an_integer', 'options.utcOffsetMinutes(0)', () => trendChart(readings, { utcOffsetMinutes: () => 0.5 })],
    ['bad_code', 'options.target', () => trendChart(readings, { target: 'eighteen' })],
    ['out_of_range', 'options.alarm', () => trendChart(readings, { target: '19/17/14', alarm: '18/16/13' })],
    ['out_of_range', 'options.alarm', () => trendChart(readings, { target: '>28/17/-', alarm: '>28/16/13' })],
    ['out_of_range', 'options.width', () => sizeChart(counts, { width: 0 })],
    ['missing_size', 'counts.sizes', () => sizeChart(cumulativeCounts(of10))],
    ['out_of_range', 'options.minutes', () => cleanUpChart(tank, { minutes: 0 })],
    ['wrong_type', 'options.measured', () => cleanUpChart(tank, { minutes: 1, measured: {} as never })],
    [
      'negative',
      'options.measured[0].minutes',
      () => cleanUpChart(tank, { minutes: 1, measured: [{ minutes: -1, counts }] }),
    ],
    [
      'sizing_not_convertible',
      'options.measured[1].counts.sizing',
      () => {
        const other = { minutes: 1, counts: cumulativeCounts({ 5: 900, 15: 20 }, { sizing: 'microscope' }) };
        return cleanUpChart(tank, { minutes: 60, measured: [{ minutes: 0, counts }, other] });
      },
    ],
    ['unknown_option', 'readings[0].arrival', () => summaryOf([{ ...readings[0], arrival: 'late' } as never])],
    ['wrong_type', 'readings[0].counts', () => summaryOf([{ time: 0, counts: 5 as never }])],
    ['wrong_type', 'options.events', () => summaryOf(readings, { events: 5 as never })],
    ['wrong_type', 'options.events', () => summaryOf(readings, { events: {} as never })],
    ['wrong_type', 'options.events[0]', () => summaryOf(readings, { events: [null as never] })],
    ['wrong_type', 'options.table', () => summaryOf(readings, { table: 5 as never })],
    ['wrong_type', 'options.title', () => summaryOf(readings, { title: 5 as never })],
    ...([trendChart, (_: unknown, own: object) => sizeChart(counts, own)] as const).flatMap(
      (draw) =>
        [
          ['wrong_type', 'options.table', () => draw(readings, { table: { counting: 'cumulative' } as never })],
          ['wrong_type', 'options.table', () => draw(readings, { table: { ...iso4406, title: 5 } as never })],
          ['wrong_type', 'options.title', () => draw(readings, { title: 5 as never })],
        ] as [string, string, () => unknown][],
    ),
    ['wrong_type', 'options.title', () => cleanUpChart(tank, { minutes: 60, title: {} as never })],
    ['wrong_type', 'options.table', () => cleanUpChart(tank, { minutes: 60, table: {} as never })],
    ['wrong_type', 'options.events[0].text', () => summaryOf(readings, { events: [{ time: 0, text: 5 as never }] })],
  ])('%s on %s', (code, parameter, call) => {
    let thrown: unknown;
    try {
      call();
    } catch (error) {
      thrown = error;
    }
    expect(isMotescaleError(thrown)).toBe(true);
    expect(thrown).toMatchObject({ code, parameter });
  });
});

/** From where to where the scale of counts reaches. */
function domainOf(panel: ChartSpec): number[] {
  const [, ends] = /"type":"log","domain":\[([^\]]*)\]/.exec(JSON.stringify(panel)) ?? [];
  return (ends as string).split(',').map(Number);
}

/** The width of the first part. */
function plotOf(spec: ChartSpec): number {
  return spec.vconcat[0].width as number;
}

/** Contrast ratio of two colours as WCAG 2.1 defines it. */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(color: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

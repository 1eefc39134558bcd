/**
 * What stands at the axes of a chart is written in the signs and months of its texts, whatever the locale of the
 * renderer. Marks and words worked by hand.
 */
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { monthOrYearLabel, numberLabel } from '../../../src/report/charts/axisLabels.ts';
import { roundMarks } from '../../../src/report/charts/figureScale.ts';
import {
  type ChartSpec,
  cleanUpChart,
  englishTexts,
  sizeChart,
  type Texts,
  trendChart,
} from '../../../src/report/index.ts';
import { drawn, textsIn } from './drawn.ts';

const hour = 3600000;
const day = 24 * hour;
const start = Date.UTC(2026, 2, 20);
const readings = Array.from({ length: 60 }, (_unused, i) => ({
  time: start + i * day,
  counts: cumulativeCounts({ 4: 1500 + 90 * i, 6: 402, 14: i === 30 ? 0 : 33 }),
  celsius: i - 30,
  waterSaturation: 0.07 * (1 + (i % 3)),
  others: { ppm: 1000 + 30 * i },
}));
const figures = ['celsius', 'waterSaturation', 'other ppm'];
const tank = {
  ...{ litres: 4e5, litresPerMin: 40, beta: [20, 75, 1000] },
  counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
};
const written = async (spec: ChartSpec) => textsIn((await drawn(spec)).svg);
const charts = (texts: Texts) => ({
  trend: trendChart(readings, { figures, target: '18/16/13', texts }),
  size: sizeChart(cumulativeCounts({ 4: 189000, 6.4: 40200, 14: 330 }, { volumeMl: 10 }), { texts }),
  cleanUp: cleanUpChart(tank, { minutes: 1e5, texts }),
});

describe('in German', () => {
  test('a trend: counts, figures, months', async () => {
    const texts = await written(charts(germanTexts).trend);
    expect(texts).toEqual(expect.arrayContaining(['2.500', '10.000', '1.500', '-20', '0', '30. Mär', '11. Mai']));
    expect(texts.filter((text) => /\d,\d{3}|\bMay\b|\bMar\b/.test(text))).toEqual([]);
    // 0.07, 0.14 and 0.21: no mark is 14.000000000000002
    expect(texts).toEqual(expect.arrayContaining(['5', '10', '15', '20', '25']));
  });

  test('sizes, and hours of a clean-up', async () => {
    const { size, cleanUp } = charts(germanTexts);
    expect(await written(size)).toEqual(expect.arrayContaining(['6,4', '10.000']));
    expect(await written(cleanUp)).toEqual(expect.arrayContaining(['0', '200', '1.000', '1.600', '100.000']));
    const short = await written(cleanUpChart(tank, { minutes: 1.3, texts: germanTexts }));
    expect(short).toEqual(expect.arrayContaining(['0', '0,2', '0,4', '1', '1,2']));
  });
});

test('a number with a power of ten has the sign of the language, and January its year on the first', () => {
  const years = [Date.UTC(2027, 0, 1), Date.UTC(2027, 0, 15), Date.UTC(2027, 1, 1)];
  expect([1.5e-7, 1e21, 1234.5].map((value) => numberLabel(value, germanTexts))).toEqual([
    '1,5e-7',
    '1e+21',
    '1.234,5',
  ]);
  expect([1.5e-7, 1e21, 1234.5].map((value) => numberLabel(value, englishTexts))).toEqual([
    '1.5e-7',
    '1e+21',
    '1,234.5',
  ]);
  expect(years.map((time) => monthOrYearLabel(time, englishTexts))).toEqual(['2027', 'Jan', 'Feb']);
});

test('in English as ever', async () => {
  const { trend, size, cleanUp } = charts(englishTexts);
  expect(await written(trend)).toEqual(expect.arrayContaining(['2,500', '10,000', '30 Mar', '11 May']));
  expect(await written(size)).toEqual(expect.arrayContaining(['6.4', '10,000']));
  expect(await written(cleanUp)).toEqual(expect.arrayContaining(['1,000', '1,600']));
  const year = readings.map((reading, i) => ({ ...reading, time: start + 10 * i * day }));
  expect(await written(trendChart(year))).toEqual(expect.arrayContaining(['May', 'Nov', '2027', 'Mar']));
  const hours = readings.map((reading, i) => ({ ...reading, time: start + i * hour }));
  expect(await written(trendChart(hours))).toEqual(expect.arrayContaining(['20 Mar', '06:00', '21 Mar']));
});

test('the locale of the renderer changes nothing', async () => {
  const locale = {
    number: { decimal: '!', thousands: '?', grouping: [3], currency: ['', ''] },
    time: {
      ...{ dateTime: '', date: '', time: '', periods: ['', ''], days: Array(7).fill('x') },
      ...{ shortDays: Array(7).fill('x'), months: Array(12).fill('x'), shortMonths: Array(12).fill('x') },
    },
  };
  for (const spec of Object.values(charts(germanTexts))) {
    const svg = (options: object) => {
      const { spec: whole } = compile(JSON.parse(JSON.stringify(spec)) as TopLevelSpec);
      return new vega.View(vega.parse(whole, options as never), { renderer: 'none' }).toSVG();
    };
    expect(textsIn(await svg({ locale }))).toEqual(textsIn(await svg({})));
  }
});

test('a language with a sign that ends a text in an expression', async () => {
  const { charts: words } = englishTexts;
  const texts = { ...englishTexts, groupSign: "'", charts: { ...words, dayOfMonth: "{month}\\'{day}" } };
  const { trend } = charts(texts);
  expect(await written(trend)).toEqual(expect.arrayContaining(["10'000", "Mar\\'30"]));
  expect((await drawn(trend, true)).svg).toBe((await drawn(trend)).svg);
});

test('marks of a clean-up are round, and about as many as asked for', () => {
  expect(roundMarks(60, 6)).toEqual([0, 10, 20, 30, 40, 50, 60]);
  expect(roundMarks(0.3, 3)).toEqual([0, 0.1, 0.2, 0.3]);
  expect(roundMarks(1666, 8)).toEqual([0, 200, 400, 600, 800, 1000, 1200, 1400, 1600]);
  expect(roundMarks(7e-7, 5)).toEqual([0, 1e-7, 2e-7, 3e-7, 4e-7, 5e-7, 6e-7, 7e-7]);
  for (const end of [1e-12, 0.7, 3.3, 47, 961, 1e9, 1e30])
    for (const about of [3, 8, 20]) {
      const marks = roundMarks(end, about);
      expect([marks.length >= about / 1.6, marks.length <= 1.5 * about + 2]).toEqual([true, true]);
    }
});

/** What a picture leaves to nobody's guess: sizes without a target, whose mark is whose, ticks that can be read. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { cleanUpChart, sizeChart, trendChart } from '../../../src/report/index.ts';
import { boxesIn } from './boxes.ts';
import { drawn, rowsIn, textsIn } from './drawn.ts';

const counts = cumulativeCounts({ 4: 100000, 6: 400, 14: 33 });

test('a size that the target says nothing of has no target by its name', () => {
  const headings = (target?: string) =>
    rowsIn(trendChart([{ time: 0, counts }], target === undefined ? {} : { target }))
      .map(({ text }) => text)
      .filter((text) => /µm/.test(String(text)));
  expect(headings('-/16/13')).toEqual(['4 µm(c): no target', '6 µm(c)', '14 µm(c)']);
  expect(headings('18/16/13')).toEqual(['4 µm(c)', '6 µm(c)', '14 µm(c)']);
  expect(headings()).toEqual(['4 µm(c)', '6 µm(c)', '14 µm(c)']);
});

test('a clean-up tells whose marks are whose, also those of none', async () => {
  const tank = { litres: 600, litresPerMin: 40, beta: [20, 75, 1000], counts };
  const measured = [{ minutes: 20, counts: cumulativeCounts({ 4: 9000, 6: 0, 14: 0 }) }];
  const { svg, warnings } = await drawn(cleanUpChart(tank, { minutes: 60, measured }));
  expect(warnings).toEqual([]);
  const texts = textsIn(svg);
  expect(texts).toEqual(expect.arrayContaining(['○—— 4 µm(c)', '□— – 6 µm(c)', '△- - - 14 µm(c)']));
  const [six, fourteen] = boxesIn(svg).filter(({ text }) => text === '6' || text === '14');
  expect([six?.text, fourteen?.text]).toEqual(['6', '14']);
  expect(fourteen?.left).toBeGreaterThan(six?.right as number);
  expect(JSON.stringify(cleanUpChart(tank, { minutes: 60 }))).not.toContain('○');
});

describe('ticks', () => {
  test.each([
    ['sizes', sizeChart(cumulativeCounts({ 4: 1e12, 6: 1e12, 14: 0 }))],
    ['a trend', trendChart([{ time: 0, counts: cumulativeCounts({ 4: 1e11, 6: 5e9, 14: 0 }) }])],
    ['one size', sizeChart(cumulativeCounts({ 4: 1e12 }))],
  ])('of far too many stand within the picture: %s', async (_name, chart) => {
    const { svg } = await drawn(chart);
    for (const { text, left } of boxesIn(svg)) expect(left, text).toBeGreaterThanOrEqual(0);
  });

  test('are powers of ten where digits would be many', async () => {
    const { svg } = await drawn(sizeChart(cumulativeCounts({ 4: 1e12, 6: 1e12, 14: 0 })));
    expect(textsIn(svg)).toEqual(expect.arrayContaining(['10¹³', '10¹⁰', '1,000,000,000']));
  });

  test('of one size are the ends of its bar', async () => {
    const { svg } = await drawn(sizeChart(cumulativeCounts({ 4: 1890 })));
    expect(textsIn(svg)).toEqual(expect.arrayContaining(['1,300', '2,500']));
  });
});

test('what XML has no form for is a blank in the picture', async () => {
  const title = 'a\u0000b\bc \uD800 d \uDE00 \uFFFF 😀';
  const events = [{ time: 0, text: 'pump\u0007 on' }];
  const others = { 'x\u0001y': 2 };
  const chart = trendChart([{ time: 0, counts, others }], { title, events, figures: ['other x\u0001y'] });
  const { svg } = await drawn(chart);
  for (const text of [svg, JSON.stringify(chart), chart.description])
    for (let i = 0; i < text.length; i += 1) {
      const code = text.codePointAt(i) as number;
      expect(code < 0x20 && code !== 10, String(code)).toBe(false);
      expect(code >= 0xfffe && code <= 0xffff).toBe(false);
      expect(code >= 0xd800 && code <= 0xdfff && !(i > 0 && (text.codePointAt(i - 1) as number) > 0xffff)).toBe(false);
    }
  expect(chart.title.text).toEqual(['a b c d 😀']);
  expect(JSON.stringify(chart)).not.toMatch(/\\u00|\\b/);
});

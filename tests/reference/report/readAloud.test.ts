/**
 * What a picture says to a screen reader comes from the texts: no mark and no axis is read by itself, as the renderer
 * would, with places for counts and local time for UTC. The description is on the element that holds a chart.
 */
import { describe, expect, test } from 'vitest';
import { codeUncertainty, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  type ChartSpec,
  cleanUpChart,
  countBuckets,
  englishTexts,
  probabilityChart,
  sizeChart,
  trendChart,
} from '../../../src/report/index.ts';
import { drawn } from './drawn.ts';
import { sampleReadings } from './sampleReadings.ts';

const hour = 3600000;
const readings = sampleReadings();
const events = [{ time: readings[20]?.time as number, text: 'pump started' }];
const none = cumulativeCounts({ 4: 189, 6: 40, 14: 0 }, { volumeMl: 10 });
const tank = {
  litres: 600,
  litresPerMin: 40,
  beta: [20, 75, 1000],
  counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
};
const measured = [{ minutes: 20, counts: none }];
const forecast = [{ size: 4, from: 0, now: 1000, level: 1300, time: 40 * hour, earliest: 30 * hour, latest: null }];
const growing = [0, 1, 2].map((i) => ({ time: (i - 2) * hour, counts: cumulativeCounts({ 4: 900 + 50 * i, 6: 100 }) }));

const charts: Readonly<Record<string, (texts: typeof englishTexts) => ChartSpec>> = {
  trend: (texts) =>
    trendChart(readings, { target: '18/16/13', alarm: '20/18/15', events, texts, utcOffsetMinutes: 120 }),
  'trend with a forecast': (texts) => trendChart(growing, { forecast, texts }),
  zeros: (texts) => trendChart([{ time: 0, counts: cumulativeCounts({ 4: 0, 6: 0, 14: 0 }) }], { texts }),
  codes: (texts) =>
    trendChart(
      ['18/16/13', '*/*/*'].map((iso4406, i) => ({ time: i, codes: { iso4406 } })),
      { texts },
    ),
  figures: (texts) =>
    trendChart(
      [
        { time: 0, celsius: 41 },
        { time: hour, celsius: 42 },
      ],
      { figures: ['celsius'], texts },
    ),
  buckets: (texts) => trendChart(countBuckets(readings, { widthMs: 24 * hour, holdMs: 2 * hour }), { texts }),
  nothing: (texts) => trendChart([], { texts }),
  size: (texts) => sizeChart(none, { target: '18/16/13', errors: {}, texts }),
  'clean-up': (texts) => cleanUpChart(tank, { minutes: 300, target: '16/14/11', measured, texts }),
  probability: (texts) => probabilityChart(codeUncertainty(iso4406, none), { texts }),
};

/** The labels in a picture, but for those within what is hidden from a screen reader. */
function labelsRead(svg: string): string[] {
  const labels: string[] = [];
  const hidden: boolean[] = [];
  for (const [, closing, attributes = '', alone] of svg.matchAll(/<(\/?)[\w-]+((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>/g)) {
    if (closing === '/') {
      hidden.pop();
      continue;
    }
    const isHidden = hidden[hidden.length - 1] === true || attributes.includes(' aria-hidden="true"');
    const label = / aria-label="([^"]*)"/.exec(attributes)?.[1];
    if (label !== undefined && !isHidden) labels.push(label);
    if (alone !== '/') hidden.push(isHidden);
  }
  expect(hidden).toEqual([]);
  return labels;
}

describe.each([
  ['English', englishTexts],
  ['German', germanTexts],
])('in %s', (_language, texts) => {
  test.each(Object.keys(charts))('%s', async (name) => {
    const { svg, warnings } = await drawn((charts[name] as (typeof charts)[string])(texts));
    expect(warnings).toEqual([]);
    expect(labelsRead(svg)).toEqual([]);
  });
});

test('a label that is not hidden would be seen', async () => {
  const { config, ...rest } = sizeChart(none);
  const { svg } = await drawn({ ...rest, config: { ...config, aria: true } });
  expect(labelsRead(svg).length).toBeGreaterThan(1);
});

test('the description is one of the chart, with the figures that were counted', () => {
  const { description, title } = sizeChart(none, { texts: germanTexts, title: 'Tor 3' });
  expect(title.text).toEqual(['Tor 3']);
  expect(description).toContain('14 µm(c): 0 Partikel je mL');
});

test('events that are sentences end in one full stop, the last one too', () => {
  const told = ['The pump was started.', 'The pump was stopped.'].map((text, i) => ({ time: (i - 1) * hour, text }));
  const { description } = trendChart(growing, { events: told });
  expect(description).toContain('The pump was started; ');
  expect(description).toContain('The pump was stopped. ');
  expect(description).not.toContain('..');
});

/**
 * No reading is lost in the picture of a trend: what no line joins is a point, and readings of one time break no line.
 */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { countBuckets, type ReportReading, trendChart } from '../../../src/report/index.ts';
import { drawn } from './drawn.ts';

const hour = 3600000;
const at = (hours: number, perMl: number, quality: 'good' | 'bad' = 'good'): ReportReading => ({
  time: hours * hour,
  counts: cumulativeCounts({ 4: perMl }),
  quality,
});
const hourly = (from: number, length: number) => Array.from({ length }, (_unused, i) => at(from + i, 1000 + (i % 7)));

/** How many lines of some length, and how many points, the picture has. */
async function marksIn(readings: readonly ReportReading[]): Promise<{ lines: number; points: number }> {
  const { svg } = await drawn(trendChart(readings));
  const lines = [...svg.matchAll(/<g class="mark-line [^>]*>(.*?)<\/g>/gs)]
    .flatMap(([, group]) => [...(group as string).matchAll(/ d="(M[^"]*)"/g)])
    .filter(([, path]) => new Set((path as string).split(/[ML]/)).size > 2);
  const points = [...svg.matchAll(/<g class="mark-symbol [^>]*>(.*?)<\/g>/gs)].flatMap(([, group]) => [
    ...(group as string).matchAll(/<path /g),
  ]);
  return { lines: lines.length, points: points.length };
}

describe('more than 120 readings', () => {
  test('one between two gaps is a point, and no other is', async () => {
    const alone = [...hourly(0, 130), at(140, 99999), ...hourly(150, 10)];
    expect(await marksIn(alone)).toEqual({ lines: 2, points: 1 });
    expect(await marksIn(hourly(0, 140))).toEqual({ lines: 1, points: 0 });
  });

  test('one between two bad ones, and two of one time between gaps, are points', async () => {
    const amidst = [...hourly(0, 130), at(130, 9e4, 'bad'), at(131, 5000), at(132, 9e4, 'bad'), ...hourly(133, 9)];
    expect(await marksIn(amidst)).toEqual({ lines: 2, points: 2 + 1 });
    const ofOneTime = (perMl: number) => [...hourly(0, 130), at(140, 5000), at(140, perMl), ...hourly(150, 9)];
    expect(await marksIn(ofOneTime(6000))).toEqual({ lines: 3, points: 2 });
    // the same count lies on itself
    expect(await marksIn(ofOneTime(5000))).toEqual({ lines: 2, points: 1 });
  });
});

test('readings that come in pairs of one time are one line', async () => {
  const pairs = hourly(0, 80).flatMap((reading) => [reading, { ...reading, verdict: 'once more' }]);
  expect(await marksIn(pairs)).toEqual({ lines: 1, points: 0 });
});

test('hours in which only a code came are no line of the counts beside them', async () => {
  const coded = (hours: number): ReportReading => ({ time: hours * hour, codes: { 'ISO 4406': '21/16/13' } });
  const between = [...hourly(0, 4), ...[4, 5, 6, 7].map(coded), ...hourly(8, 4)];
  expect((await marksIn(between)).lines).toBe(2);
  // one code beside each count is no gap
  const turns = hourly(0, 12).map((reading, i) => (i % 2 === 0 ? reading : coded(i)));
  expect((await marksIn(turns)).lines).toBe(1);
});

test('the mean of a bucket with zeros stands at its height, and not at the edge of the scale', () => {
  const readings = Array.from({ length: 48 }, (_unused, i) => ({
    time: i * hour,
    counts: cumulativeCounts({ 14: i % 6 === 0 ? 0 : i % 6 === 1 ? 31 : 8 }),
  }));
  const rolled = countBuckets(readings, { widthMs: 24 * hour, holdMs: hour });
  const [panel] = trendChart(rolled).vconcat as {
    layer: { mark: { type: string }; data: { values: { count: number }[] } }[];
  }[];
  const line = panel?.layer.filter(({ mark }) => mark.type === 'line').flatMap(({ data }) => data.values);
  expect(line?.map(({ count }) => count)).toEqual(rolled[0]?.buckets.map(({ mean }) => mean));
});

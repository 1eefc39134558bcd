/**
 * A line of many readings keeps its picture with few of its points.
 *
 * Source of the rule: Jugel, Jerzak, Hackenbroich, Markl, M4, PVLDB 7 (2014) 797, section 4: of each column of pixels
 * the first, the least, the most and the last point.
 */
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { linePoints } from '../../../src/report/charts/trend/linePoints.ts';
import { type ChartSpec, trendChart } from '../../../src/report/index.ts';
import { rowsIn } from './drawn.ts';

const scale = { span: { from: 0, to: 100 }, plot: 10 };
const point = (time: number, count: number, stretch = 0) => ({ time, count, stretch });
const times = (list: readonly { readonly time: number }[]) => list.map(({ time }) => time);

test('of a column of half a pixel, the first, the least, the most and the last, in order of time', () => {
  // columns of 5 ms: 0 to 4.9, 5 to 9.9
  const column = [point(0, 5), point(1, 9), point(2, 6), point(3, 1), point(4, 4), point(4.9, 5)];
  expect(times(linePoints([...column, point(5, 7)], scale))).toEqual([0, 1, 3, 4.9, 5]);
  const reversed = column.map(({ count }, i) => point(i * 0.9, 10 - count));
  expect(times(linePoints(reversed, scale))).toEqual([0, 0.9, 2.7, 4.5]);
  expect(times(linePoints([point(3, 1), point(6, 1), point(7, 1), point(9, 1)], scale))).toEqual([3, 6, 9]);
  expect(linePoints([], scale)).toEqual([]);
});

test('stretches stay apart in one column; one that lies on another there is left out, as is one without length', () => {
  const two = [point(0, 1), point(1, 2), point(2, 1, 1), point(3, 3, 1), point(4, 1, 1)];
  expect(times(linePoints(two, scale))).toEqual([0, 1, 2, 3, 4]);
  expect(times(linePoints([...two.slice(2), point(4.2, 2, 2), point(4.4, 3, 2)], scale))).toEqual([2, 3, 4]);
  expect(times(linePoints([...two.slice(2), point(5.2, 2, 2), point(5.4, 3, 2)], scale))).toEqual([2, 3, 4, 5.2, 5.4]);
  // that goes on in the next column
  expect(times(linePoints([...two.slice(2), point(4.2, 2, 2), point(5.4, 3, 2)], scale))).toEqual([2, 3, 4, 4.2, 5.4]);
  expect(linePoints([point(1, 1, 0), point(2, 1, 1)], scale)).toEqual([]);
});

test('what several stretches of one column cover is one stroke, and of two apart the longer', () => {
  /** Stretches within a column each, from one count to another; which of them are kept. */
  const kept = (...strokes: readonly (readonly [low: number, high: number, column?: number])[]) => {
    const points = strokes.flatMap(([low, high, column = 0], i) => [
      point(5 * column + i / 10, low, i),
      point(5 * column + i / 10 + 0.05, high, i),
    ]);
    return [...new Set(linePoints(points, scale).map(({ stretch }) => stretch))];
  };
  expect(kept([1, 3], [1, 3], [3, 1])).toEqual([0]);
  expect(kept([1, 3], [2, 5], [1, 5], [4, 1])).toEqual([0, 1]);
  expect(kept([2, 5], [1, 3], [1, 5])).toEqual([0, 1]);
  expect(kept([1, 3], [3, 5], [2, 4])).toEqual([0, 1]);
  expect(kept([3, 5], [1, 3], [2, 4])).toEqual([0, 1]);
  // between two apart nothing is covered
  expect(kept([1, 2], [5, 9], [3, 4], [6, 7])).toEqual([0, 1, 2]);
  expect(kept([8, 9], [1, 5], [2, 3], [8, 9])).toEqual([0, 1, 3]);
  expect(kept([1, 5], [7, 8], [2, 3], [7, 8])).toEqual([0, 1, 3]);
  // nor in the next column, where all begins anew
  expect(kept([1, 9], [2, 3, 1], [2, 3, 1], [1, 3, 1])).toEqual([0, 1, 3]);
  expect(kept([1, 9], [2, 5, 1], [0, 3, 1], [2, 3, 1])).toEqual([0, 1, 2]);
});

/** A year of readings every five minutes, with a gap each week, a peak of one reading, and a hollow. */
const minutes = 300000;
const readings = Array.from({ length: 105_120 }, (_unused, i) => i)
  .filter((i) => i % 2016 > 40)
  .map((i) => ({
    time: i * minutes,
    counts: cumulativeCounts({ 4: i === 50_050 ? 90_000 : i === 70_010 ? 3 : 2000 + ((i * 7919) % 500) }),
  }));

test('a year of readings takes no more than four points for each half of a pixel, and no extreme is lost', () => {
  const spec = trendChart(readings, { width: 720 });
  const line = rowsIn((spec.vconcat as ChartSpec[])[0] as ChartSpec).filter(({ stretch }) => stretch !== undefined);
  expect(line.length).toBeLessThan(720 * 2 * 4);
  expect(line.length).toBeGreaterThan(1500);
  const counts = line.map(({ count }) => count as number);
  expect(Math.max(...counts)).toBe(90_000);
  expect(Math.min(...counts)).toBe(3);
  expect(new Set(line.map(({ stretch }) => stretch)).size).toBe(53);
  const text = JSON.stringify(spec);
  expect(text.length).toBeLessThan(700_000);
});

/** Rates of docs/monitor.md for means of weeks: steps told of weekly bottles, and trends that are a season. */
import { expect, test } from 'vitest';
import { addDay, prepareChange, startChange } from '../../../src/trend/change/advance.ts';
import { autocorrelatedTrend } from '../../../src/trend/index.ts';
import { some } from '../../volume.ts';
import { draws } from './trendCorrelated.ts';

/** The share, in %, of so many weekly rows in which a step of one class in week 53 is told within a year. */
function stepsTold(scatter: number, count: number): number {
  const prepared = prepareChange({ least: 0.5, season: 2.1 });
  const { normal } = draws(600);
  let told = 0;
  for (let unit = 0; unit < count; unit += 1) {
    let state = startChange();
    let isTold = false;
    for (let week = 0; week < 104; week += 1) {
      const step = addDay(prepared, state, week, 16 + scatter * normal() + (week >= 52 ? 1 : 0));
      state = step.state;
      if (week >= 52 && step.change?.direction === 'up') isTold = true;
    }
    if (isTold) told += 1;
  }
  return (100 * told) / count;
}

/** The share, in %, of half years of weeks that show a trend, with so large a half-swing at any time of the year. */
function trends(swing: number, count: number): number {
  const { normal, share } = draws(601);
  let found = 0;
  for (let unit = 0; unit < count; unit += 1) {
    const phase = share();
    const weeks = Array.from({ length: 26 }, (_, i) => normal() + swing * Math.sin(2 * Math.PI * (i / 52.18 + phase)));
    if (autocorrelatedTrend(weeks).verdict !== 'not_distinguishable') found += 1;
  }
  return (100 * found) / count;
}

const near = (found: number, stated: number, count: number) =>
  expect(Math.abs(found - stated)).toBeLessThanOrEqual(4 * Math.sqrt((stated * (100 - stated) + 100) / count));

test.each([
  [0.15, 100],
  [0.2, 97],
  [0.3, 56],
  [0.5, 14],
])('weekly bottles, scatter %d: a step of one class is told in %d %%', (scatter, stated) => {
  const count = some(200, 15);
  near(stepsTold(scatter, count), stated, count);
});

test.each([
  [0, 4],
  [0.5, 15],
  [1, 38],
  [2, 55],
])('26 means of weeks, a half-swing of %d standard deviations: a trend in %d %%', (swing, stated) => {
  const count = some(600, 60);
  near(trends(swing, count), stated, count);
});

/** A year of readings every 105 s: the trend statistics and a roll-up. */
import { bench } from 'vitest';
import { rollUp } from '../src/history/rollUp.ts';
import { mannKendall } from '../src/trend/mannKendall.ts';
import { seasonalKendall } from '../src/trend/seasonalKendall.ts';
import { senSlope } from '../src/trend/senSlope.ts';

const count = 300000;
let state = 7;
const next = () => {
  state = (state * 1664525 + 1013904223) % 4294967296;
  return state / 4294967296;
};
const times = Array.from({ length: count }, (_x, i) => i * 105000 + Math.floor(next() * 30000));
const values = times.map((_time, i) => 17 + next() + Math.sin(i / 131) + i / count);
const readings = times.map((time, i) => {
  const value = values[i] as number;
  return { time, value, scaleNumbers: [Math.ceil(value), Math.ceil(value) - 2, Math.ceil(value) - 5] };
});
const once = { iterations: 3, warmupIterations: 0, time: 0, warmupTime: 0 };

bench('Mann-Kendall, 300,000 points', () => void mannKendall(values), once);
bench('Sen slope with limits, 300,000 points', () => void senSlope(times, values), once);
bench('seasonal Kendall and slope, 300,000 points', () => void seasonalKendall(times, values), once);
bench('roll-up to hours, 300,000 readings', () => void rollUp(readings, { widthMs: 3600000, holdMs: 300000 }), once);

/**
 * A sample of the slopes between pairs of points, always the same for the same points. It only says where to look
 * first: every answer is then counted out exactly.
 */
import { firstWhere } from '../numeric/firstWhere.ts';
import { integers } from '../numeric/lists.ts';
import { slopeBetween, type TrendPoints } from './trendPoints.ts';

const largestSample = 65536;
const perPoint = 64;
const two32 = 4294967296;

/** Slopes of pairs picked by a linear congruential sequence from a fixed start, ascending. */
export function sampleSlopes(points: TrendPoints): number[] {
  const { x, starts } = points;
  const n = x.length;
  const groupOf = integers(n);
  for (let g = 0; g + 1 < starts.length; g += 1) {
    for (let i = starts[g] as number; i < (starts[g + 1] as number); i += 1) groupOf[i] = g;
  }
  let state = 1;
  const pick = (from: number, to: number) => {
    state = (1664525 * state + 1013904223) % two32;
    return from + Math.floor((state / two32) * (to - from));
  };
  const slopes: number[] = [];
  for (let i = 0; i < Math.min(largestSample, perPoint * n); i += 1) {
    const a = pick(0, n);
    const g = groupOf[a] as number;
    const b = pick(starts[g] as number, starts[g + 1] as number);
    if (x[a] !== x[b]) slopes.push(slopeBetween(points, a, b));
  }
  return slopes.sort((a, b) => a - b);
}

/** Which of an ascending list lie strictly between two numbers. */
export function samplesBetween(sample: readonly number[], low: number, high: number): { first: number; count: number } {
  const first = firstWhere(sample, (value) => value > low);
  return { first, count: Math.max(0, firstWhere(sample, (value) => value >= high) - first) };
}

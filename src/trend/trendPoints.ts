/**
 * The points of a trend, put in order once: by group, within a group by time, within a time by value.
 * Pairs are only ever formed within a group; two points of the same time form no pair.
 */
import { requireFilledArray } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { doubles, integers, type NumberList } from '../numeric/lists.ts';
import { requireFigure } from './requireNumbers.ts';

/** Points in order; group g takes the places from `starts[g]` up to, not including, `starts[g + 1]`. */
export interface TrendPoints {
  readonly x: NumberList;
  readonly y: NumberList;
  readonly starts: readonly number[];
}

/** The most points a trend takes: a year of readings every 105 s. */
const mostPoints = 300000;

function requireList(values: unknown, parameter: string, expected: string): readonly unknown[] {
  const list = requireFilledArray(values, parameter, expected);
  if (list.length <= mostPoints) return list;
  throw motescaleError('out_of_range', parameter, list.length, `at most ${mostPoints} numbers`);
}

/** Numbers fit for a trend: so many at least, none so large or small that a slope could leave the range of a double. */
export function requireSeries(values: unknown, parameter: string, fewest: number): readonly number[] {
  const list = requireList(values, parameter, 'an array of numbers');
  if (list.length < fewest) throw motescaleError('too_few', parameter, list.length, `at least ${fewest} numbers`);
  for (let i = 0; i < list.length; i += 1) requireFigure(list[i], `${parameter}[${i}]`);
  return list as readonly number[];
}

/** The numbers of a list in which null stands for a value that is not there, as `y`, and their places as `x`. */
export function requirePresent(values: unknown, fewest: number): { x: number[]; y: number[] } {
  const list = requireList(values, 'values', 'an array of numbers and nulls');
  const x: number[] = [];
  const y: number[] = [];
  for (let i = 0; i < list.length; i += 1) {
    if (list[i] === null) continue;
    y.push(requireFigure(list[i], `values[${i}]`));
    x.push(i);
  }
  if (y.length < fewest) throw motescaleError('too_few', 'values', y.length, `at least ${fewest} numbers`);
  return { x, y };
}

/** Times and values, as many of both; where a value is null, its time is left out with it. */
export function requirePairs(
  times: unknown,
  values: readonly unknown[],
  fewest: number,
  named = 'times',
): { x: readonly number[]; y: readonly number[] } {
  const all = requireSeries(times, named, fewest);
  const { x: places, y } = requirePresent(values, fewest);
  if (values.length !== all.length) {
    throw motescaleError('length_mismatch', 'values', values.length, `as many values as times: ${all.length}`);
  }
  return { x: places.map((place) => all[place] as number), y };
}

/** At least two different times, without which there is no slope. */
export function requireDifferentTimes(times: readonly number[]): void {
  for (const time of times) if (time !== times[0]) return;
  throw motescaleError('too_few', 'times', 1, 'at least 2 different times');
}

/** Sorts points into order; `groups` gives each point's group, and is left out where there is one only. */
export function orderPoints(
  times: readonly number[],
  values: readonly number[],
  groups?: readonly number[],
): TrendPoints {
  const group = (i: number) => (groups === undefined ? 0 : (groups[i] as number));
  const order = times.map((_time, i) => i);
  order.sort((left, right) => {
    const later = group(left) - group(right) || (times[left] as number) - (times[right] as number);
    return later || (values[left] as number) - (values[right] as number);
  });
  const x = doubles(order.length);
  const y = doubles(order.length);
  const starts: number[] = [0];
  for (let place = 0; place < order.length; place += 1) {
    const i = order[place] as number;
    x[place] = times[i] as number;
    y[place] = (values[i] as number) + 0; // + 0 turns -0 into 0: no slope becomes -0
    if (place > 0 && group(i) !== group(order[place - 1] as number)) starts.push(place);
  }
  starts.push(order.length);
  return { x, y, starts };
}

/** The slope between two of the points, as doubles give it. */
export function slopeBetween({ x, y }: TrendPoints, left: number, right: number): number {
  return ((y[right] as number) - (y[left] as number)) / ((x[right] as number) - (x[left] as number));
}

/** start, start + 1, ... up to, not including, end. */
export function places(start: number, end: number): NumberList {
  const order = integers(end - start);
  for (let i = start; i < end; i += 1) order[i - start] = i;
  return order;
}

/** On engines without typed arrays, lists are plain, and every figure is the same. */
import { expect, test } from 'vitest';
import { copyOfIntegers, doubles, integers } from '../../../src/numeric/lists.ts';
import { forecastCrossing } from '../../../src/trend/forecastCrossing.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';

test('trends are the same without typed arrays', () => {
  const times = Array.from({ length: 40 }, (_x, i) => i);
  const values = times.map((time) => 15 + time / 20 + ((time * 7) % 5) / 10);
  const figures = () => [senSlope(times, values), forecastCrossing(times, values, { level: 19 })];
  const before = figures();
  const kept = [globalThis.Float64Array, globalThis.Int32Array] as const;
  Object.assign(globalThis, { Float64Array: undefined, Int32Array: undefined });
  try {
    for (const list of [doubles(3), integers(3), copyOfIntegers([0, 0, 0])]) expect(list).toStrictEqual([0, 0, 0]);
    expect(figures()).toEqual(before);
  } finally {
    Object.assign(globalThis, { Float64Array: kept[0], Int32Array: kept[1] });
  }
  expect(doubles(2)).toStrictEqual(new Float64Array(2));
  expect(integers(2)).toStrictEqual(new Int32Array(2));
});

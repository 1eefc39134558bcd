/** A memory of readings that comes from outside: each member at its bounds, and just beyond. */
import { describe, expect, test } from 'vitest';
import { isRepeats, repeatsBytes, repeatsRule } from '../../../src/reading/remembered/repeatsState.ts';
import { checkRule } from '../../../src/rules/check.ts';

const farthest = 8.64e15;
const steady = { value: 41, run: 3, longest: 2, repeats: 1, readings: 9 };
const sound = {
  ...{ known: 5, time: 2000, before: null, sizes: 123456, perMl: 'abcdabcd', runs: [1, 5] },
  ...{ sinceDay: 20000, steady: { celsius: steady }, flow: { last: 50, swing: 0.1, swings: 3, from: 1000 } },
  ...{ equal: '#', level: [400, 40, 0], tail: [1, 20, 50] },
};

test('is as it was made', () => {
  expect(isRepeats(sound)).toBe(true);
  expect(checkRule(repeatsRule(), sound, [], [])).toBe(true);
  expect(JSON.stringify(sound).length).toBeLessThan(repeatsBytes);
});

describe('a bound is kept, what lies beyond it is refused', () => {
  const most = 9007199254740991;
  test.each<[string, readonly unknown[], readonly unknown[]]>([
    ['known', [5, most], [4, -1, 5.5, most + 1, '5', null, Infinity, Number.NaN, undefined]],
    ['time', [null, farthest, -farthest], [farthest + 1, -farthest - 1, 0.5, '0', undefined, Infinity]],
    ['before', [null, farthest, -farthest], [farthest + 1, -farthest - 1, 0.5, '0', undefined, Infinity]],
    ['sizes', [0, most], [-1, most + 1, 0.5, null]],
    ['perMl', ['????????'], ['abcdabc', 'abcdabcdabcd', '', 'abc"abcd', 'abc abcd', 7, null]],
    ['runs', [[5, 5]], [[0, 1], [1, 6], [1], [1, 2, 3], [1, 1.5], [1, null], 'ab', null]],
    ['sinceDay', [undefined, 2e8, -2e8], [2e8 + 1, -2e8 - 1, 0.5, '1']],
    ['age', [undefined, 0, 999999999], [-1, 1e9, 0.5, '1', null]],
    [
      'tail',
      [undefined, [1, 0, 0], [1, 1e9, 1e9]],
      [[0, 1, 1], [2, 1, 1], [1.5, 1, 1], [1, -1, 0], [1, 0], [], 7, null],
    ],
    ['equal', [undefined, '#', '###########'], ['############', '"', 7, null]],
    ['level', [undefined, [0, 0, 0], [1e9, 1e9, 1e9]], [[1, 2], [1, 2, 3, 4], [-1, 0, 0], [0, 0, 1e9 + 1], 7, null]],
    ['steady', [undefined, {}, { celsius: undefined }, { waterSaturation: steady }], [7, [], null, 'x']],
    ['flow', [undefined, { last: 0, swing: 0, swings: 0 }], [7, [], null, {}]],
  ])('%s', (name, kept, refused) => {
    for (const value of kept) expect([value, isRepeats({ ...sound, [name]: value })]).toEqual([value, true]);
    for (const value of refused) expect([value, isRepeats({ ...sound, [name]: value })]).toEqual([value, false]);
  });

  test('ago of a steady figure', () => {
    const is = (ago: unknown) => isRepeats({ ...sound, steady: { celsius: { ...steady, ago } } });
    expect([undefined, 0, 99999].map(is)).toEqual([true, true, true]);
    expect([100000, -1, 0.5, '1', null, Number.NaN].map(is)).toEqual(Array(6).fill(false));
  });

  test.each(['value', 'run', 'longest', 'repeats', 'readings'])('%s of a steady figure', (name) => {
    for (const figure of ['celsius', 'waterSaturation'])
      for (const value of [Number.NaN, Infinity, '3', null, undefined, name === 'value' ? 2.1e60 : -1, 2.5]) {
        const is = isRepeats({ ...sound, steady: { [figure]: { ...steady, [name]: value } } });
        expect([value, is]).toEqual([value, name === 'value' && value === 2.5]);
      }
    expect(isRepeats({ ...sound, steady: { celsius: 7 } })).toBe(false);
  });

  test.each(['last', 'swing', 'swings', 'from'])('%s of the flow', (name) => {
    for (const value of [Number.NaN, Infinity, '3', 2.5]) {
      const is = isRepeats({ ...sound, flow: { ...sound.flow, [name]: value } });
      expect([value, is]).toEqual([value, value === 2.5 && (name === 'last' || name === 'swing')]);
    }
    expect(isRepeats({ ...sound, flow: { ...sound.flow, from: undefined, age: 0 } })).toBe(true);
    for (const age of [-1, 1e9, 0.5]) expect(isRepeats({ ...sound, flow: { ...sound.flow, age } })).toBe(false);
  });

  test('no object at all', () => {
    for (const value of [null, undefined, 7, 'x', []]) expect(isRepeats(value)).toBe(false);
  });
});

test('thirty-two sizes are remembered, no more', () => {
  const of = (n: number) => ({ ...sound, perMl: 'abcd'.repeat(n), runs: Array<number>(n).fill(2) });
  expect([32, 33].map((n) => isRepeats(of(n)))).toEqual([true, false]);
});

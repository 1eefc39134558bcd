/** What makes counts: members that agree, sizes and volumes as they are given, ranges and sizings of them. */
import { describe, expect, test } from 'vitest';
import { isSound, membersAgree, riseWithSize } from '../../../src/counts/checkCounts.ts';
import {
  type CumulativeCounts,
  convertCounts,
  convertSizing,
  cumulativeCounts,
  equivalentDustMgPerL,
  fromDifferential,
  testDustCounts,
  toDifferential,
} from '../../../src/counts/index.ts';

const counts = (more: Partial<CumulativeCounts> = {}): CumulativeCounts => ({
  sizing: 'iso11171',
  sizes: [4, 6, 14],
  perMl: [18, 4, 1],
  ...more,
});
const raw = (more: Partial<CumulativeCounts> = {}) =>
  counts({ perMl: [36, 8, 2], counted: [180, 40, 10], volumeMl: 10, dilution: 2, ...more });
const close = 4 * (1 + 1e-9);

test.each<[string, CumulativeCounts, boolean]>([
  ['bare', counts(), true],
  ['rising', counts({ perMl: [1, 4, 18] }), true],
  ['with a volume and nothing counted', counts({ volumeMl: 10 }), true],
  ['counted in a volume that is not known', counts({ counted: [7, 5, 3] }), true],
  ['raw', raw(), true],
  ['raw and undiluted', counts({ counted: [180, 40, 10], volumeMl: 10 }), true],
  ['raw, off by a rounding', raw({ perMl: [36 * (1 + 9e-10), 8, 2] }), true],
  ['raw, off by more', raw({ perMl: [36 * (1 + 2e-9), 8, 2] }), false],
  ['raw, off at the last size', raw({ perMl: [36, 8, 2.1] }), false],
  ['raw, another volume', raw({ volumeMl: 20 }), false],
  ['raw, another dilution', raw({ dilution: 4 }), false],
  ['a count too few', counts({ perMl: [18, 4] }), false],
  ['a count too many', counts({ perMl: [18, 4, 1, 1] }), false],
  ['a particle count too few', raw({ counted: [180, 40] }), false],
  ['a count too few beside particles', counts({ perMl: [18, 4], counted: [7, 5, 3] }), false],
  ['a particle count too few, in a volume that is not known', counts({ counted: [7, 5] }), false],
  ['a size twice', counts({ sizes: [4, 4, 6] }), false],
  ['sizes out of order', counts({ sizes: [6, 4, 14] }), false],
  ['sizes just apart', counts({ sizes: [4, close, 14] }), true],
  ['the last two sizes nearly one', counts({ sizes: [3, 4, close - 1e-15] }), false],
])('members of counts agree, by the quick look as by the check: %s', (_name, one, agree) => {
  expect([membersAgree(one), isSound(one, true)]).toEqual([agree, agree]);
});

test('counts rise per mL or as counted', () => {
  expect(riseWithSize(counts())).toBe(false);
  expect(riseWithSize(counts({ perMl: [18, 4, 5] }))).toBe(true);
  expect(riseWithSize(counts({ counted: [9, 5, 6] }))).toBe(true);
  expect(riseWithSize(counts({ perMl: [18, 4, 5], counted: [9, 5, 3] }))).toBe(true);
});

describe('counts by size', () => {
  const refused = (code: string, parameter: string, expected: string) =>
    expect.objectContaining({ code, parameter, expected });

  test('raw counts that rise are refused as those per mL are', () => {
    const rising = { 4: 10, 6: 20 };
    const error = refused('counts_rise_with_size', 'counts[6]', 'at most 10, the count at 4 µm');
    expect(() => cumulativeCounts(rising, { volumeMl: 1 })).toThrow(error);
    expect(() => cumulativeCounts(rising)).toThrow(error);
  });

  test('a thousand sizes and no more', () => {
    const many = (sizes: number) => Object.fromEntries(Array.from({ length: sizes }, (_, i) => [i + 1, sizes - i]));
    expect(cumulativeCounts(many(1000)).sizes).toHaveLength(1000);
    expect(() => cumulativeCounts(many(1001))).toThrow(refused('out_of_range', 'counts', 'at most 1000 sizes'));
  });

  test('a volume or a unit, and a dilution of 1 or more', () => {
    const both = { per: '100mL', volumeMl: 10 } as never;
    expect(() => cumulativeCounts({ 4: 10 }, both)).toThrow(
      refused('unknown_option', 'options.per', 'either per or volumeMl, not both'),
    );
    expect(() => toDifferential(raw({ dilution: 0.5 }))).toThrow(
      expect.objectContaining({ code: 'out_of_range', parameter: 'counts.dilution' }),
    );
  });
});

describe('ranges', () => {
  test('of particles counted in a volume that is not known: from the counts per mL', () => {
    const { ranges } = toDifferential(counts({ counted: [180, 40, 10] }));
    expect(ranges.map(({ perMl }) => perMl)).toEqual([14, 3, 1]);
  });

  test('that leave a gap are refused with the size that should follow', () => {
    const ranges = [
      { from: 4, to: 5, perMl: 3 },
      { from: 6, to: null, perMl: 1 },
    ];
    expect(() => fromDifferential({ sizing: 'iso11171', ranges })).toThrow(
      expect.objectContaining({ parameter: 'counts.ranges[0].to', expected: '6, where the next range starts' }),
    );
  });
});

describe('sizings', () => {
  test.each(['iso11171', 'iso11171b', 'iso4402', 'microscope'] as const)('%s stays what it is, at any size', (one) => {
    expect([0.1, 5, 200].map((size) => convertSizing(size, one, one))).toEqual([0.1, 5, 200]);
    expect(convertCounts(counts({ sizing: one }), one)).toEqual(counts({ sizing: one }));
  });

  test('a microscope sees no size of a counter', () => {
    const refused = (parameter: string) =>
      expect.objectContaining({ code: 'sizing_not_convertible', parameter, received: "'microscope'" });
    expect(() => convertSizing(5, 'microscope', 'iso11171')).toThrow(refused('from'));
    expect(() => convertSizing(5, 'iso11171', 'microscope')).toThrow(refused('to'));
    expect(() => convertCounts(counts({ sizing: 'microscope' }), 'iso4402')).toThrow(refused('counts.sizing'));
  });
});

test('test dust: sizes are the own of each answer, and no counts have no equivalent', () => {
  expect(testDustCounts(1).sizes).not.toBe(testDustCounts(1).sizes);
  expect(() => equivalentDustMgPerL(counts({ perMl: [0, 0, 0] }))).toThrow(
    expect.objectContaining({ code: 'no_answer', expected: 'a count above zero at one size' }),
  );
});

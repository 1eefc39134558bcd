/** Counts as instruments give them: what is read, what is left out, what is refused. */

import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/errors.ts';
import { findingText, parseCounts, type RawCounts } from '../../../src/reading/index.ts';
import { expectRefused, type Refused } from '../refused.ts';

const parse = (raw: object) => () => parseCounts(raw as RawCounts);
const sizes = [4, 6, 14];

describe('refused', () => {
  const many = Array.from({ length: 33 }, (_x, i) => i + 1);
  test.each<Refused>([
    ['wrong_type', 'raw', 'counts { sizes, counted, volumeMl }, or { sizes, perMl }', parse([])],
    ['unknown_option', 'raw.permL', "'sizes', 'counted', 'perMl'", parse({ sizes, permL: [1, 2, 3] })],
    ['unknown_option', 'raw.per', "'mL', '100mL'", parse({ sizes, perMl: [3, 2, 1], per: 'L' })],
    ['empty', 'raw.sizes', 'at least one element', parse({ sizes: [], perMl: [] })],
    ['out_of_range', 'raw.sizes', 'at most 32 sizes', parse({ sizes: many, perMl: many })],
    ['wrong_type', 'raw.perMl', 'an array, one for each size', parse({ sizes })],
    ['wrong_type', 'raw.counted', 'an array, one for each size', parse({ sizes, counted: 3, volumeMl: 10 })],
    ['length_mismatch', 'raw.perMl', 'an array of 3, one for each size', parse({ sizes, perMl: [3, 2] })],
    [
      'missing_volume',
      'raw.volumeMl',
      'the volume counted in mL, beside counted',
      parse({ sizes, counted: [3, 2, 1] }),
    ],
    ['out_of_range', 'raw.volumeMl', 'mL', parse({ sizes, perMl: [3, 2, 1], volumeMl: 0 })],
    ['out_of_range', 'raw.dilution', 'from 1', parse({ sizes, perMl: [3, 2, 1], dilution: 0.9 })],
    ['unknown_sizing', 'raw.sizing', 'iso11171', parse({ sizes, perMl: [3, 2, 1], sizing: 'sieve' })],
    ['out_of_range', 'raw.sizes[1]', 'a size in µm from 0.001 to 100000', parse({ sizes: [4, 0.0009], perMl: [3, 2] })],
    ['out_of_range', 'raw.sizes[0]', 'a size in µm from 0.001 to 100000', parse({ sizes: ['4 µm', 6], perMl: [3, 2] })],
    ['sizes_out_of_order', 'raw.sizes', 'each size once', parse({ sizes: [6, '4', 4], perMl: [3, 2, 1] })],
  ])('%s: %s, %s', expectRefused);
});

describe('read', () => {
  test.each<[string, unknown, number]>([
    ['a number', 7.5, 7.5],
    ['digits', '1890', 1890],
    ['digits among blanks', ' 42\n', 42],
    ['a sign', '+3', 3],
    ['a fraction', '.5', 0.5],
    ['a fraction of two places', '.55', 0.55],
    ['a fraction left out', '12.', 12],
    ['a power without a sign', '1e2', 100],
    ['a power of two digits', '1e10', 1e10],
    ['a power of ten', '1.2E+3', 1200],
    ['32 characters', `${'0'.repeat(31)}7`, 7],
  ])('%s', (_what, count, wanted) => {
    expect(parseCounts({ sizes: [4], perMl: [count] })).toEqual({
      counts: { sizing: 'iso11171', sizes: [4], perMl: [wanted] },
      findings: [],
    });
  });

  test('in any order of sizes, per 100 mL, and of a volume: the same counts', () => {
    const beside = { volumeMl: 10, dilution: 2 };
    const wanted = { sizing: 'iso4402', sizes: [5, 15], perMl: [0.6, 0.2], ...beside };
    const of = (raw: object) => parse({ sizing: 'iso4402', ...beside, ...raw })().counts;
    expect(of({ sizes: ['15', 5], perMl: [0.2, '0.6'] })).toEqual(wanted);
    expect(of({ sizes: [5, 15], perMl: [60, 20], per: '100mL' })).toEqual(wanted);
    // 3 particles in 10 mL, diluted by two: 0.6 per mL, to the last digit
    expect(of({ sizes: [5, 15], counted: [3, '1'], perMl: 'not looked at' })).toEqual({ ...wanted, counted: [3, 1] });
    expect(Object.keys(parseCounts({ sizes: [4], perMl: [3] }).counts ?? {})).toEqual(['sizing', 'sizes', 'perMl']);
    expect(parseCounts({ sizes: [4], counted: [30], volumeMl: 10 }).counts).toEqual({
      ...{ sizing: 'iso11171', sizes: [4], perMl: [3], counted: [30], volumeMl: 10 },
    });
  });
});

describe('left out and told', () => {
  test.each<[string, unknown]>([
    ['nothing', null],
    ['nothing given', undefined],
    ['no digits', 'n/a'],
    ['an empty text', ''],
    ['a comma', '1,5'],
    ['a negative count', -1],
    ['an endless one', Infinity],
    ['a number that is none', Number.NaN],
    ['33 characters', `${'0'.repeat(32)}7`],
    ['a power beyond all doubles', '1e999'],
    ['a power of four digits', '1e0001'],
    ['hexadecimal digits', '0x10'],
    ['text before digits', 'n 12'],
    ['text behind them', '12 n'],
  ])('%s', (_what, count) => {
    const { counts, findings } = parseCounts({ sizes: [6, 4], perMl: [count, 9] });
    expect(counts).toEqual({ sizing: 'iso11171', sizes: [4], perMl: [9] });
    expect(findings).toEqual([
      {
        ...{ code: 'count_missing', quality: 'uncertain', affects: ['counts'] },
        ...{ value: 1, limit: 0, sizes: [6], sizing: 'iso11171' },
      },
    ]);
  });

  test('all of them: no counts', () => {
    const { counts, findings } = parseCounts({ sizes: ['14', 4, 6], perMl: [null, 'x', -2] });
    expect(counts).toBeNull();
    expect(findings).toMatchObject([{ code: 'count_missing', value: 3, sizes: [14, 4, 6] }]);
    expect(findings.map((one) => findingText(one))).toEqual([
      'No count that can be read came at 4 µm(c), 6 µm(c) and 14 µm(c): see what the instrument sends there.',
    ]);
  });

  test('what came there is told, shortened', () => {
    const came = ['>30000', '<1', '1,890', '1 890', -1, 1e13, null, undefined, 'x'.repeat(200), '2'];
    const told: Problem[] = [];
    const { counts } = parseCounts({ sizes: came.map((_one, i) => i + 1), perMl: came }, told);
    expect(counts?.perMl).toEqual([2]);
    expect(told.map(({ path }) => path)).toEqual(came.slice(0, -1).map((_one, i) => ['perMl', i]));
    expect(told.map(({ received }) => received)).toEqual([
      ...["'>30000'", "'<1'", "'1,890'", "'1 890'", '-1', '10000000000000', 'null', 'undefined'],
      `'${'x'.repeat(60)}...'`,
    ]);
    const expected = told.map((one) => one.expected);
    expect(new Set(expected.slice(0, 6))).toEqual(new Set(['left out: particles per mL from 0 to 1000000000000']));
    expect(expected.slice(6, 8)).toEqual(['left out', 'left out']);
  });

  test('counts that rise are kept; the first pair is told', () => {
    const { counts, findings } = parseCounts({ sizes: [4, 6, 14, 21], perMl: [9, 9, 10, 11], sizing: 'iso11171' });
    expect(counts?.perMl).toEqual([9, 9, 10, 11]);
    expect(findings).toEqual([
      {
        ...{ code: 'counts_rise_with_size', quality: 'bad', affects: ['counts'] },
        ...{ value: 10, limit: 9, sizes: [6, 14], sizing: 'iso11171' },
      },
    ]);
  });
});

test('particles counted with their thousands set apart are not taken for a thousandth of them', () => {
  const { counts, findings } = parseCounts({ sizes: [4, 6, 14], counted: ['18.000', '4.000', '330'], volumeMl: 10 });
  expect(counts).toEqual({ sizing: 'iso11171', sizes: [14], perMl: [33], counted: [330], volumeMl: 10 });
  expect(findings.map(({ code, sizes }) => [code, sizes])).toEqual([['count_missing', [4, 6]]]);
  const read = (counted: string[]) => parseCounts({ sizes: [4, 6], counted, volumeMl: 10 }).counts?.counted;
  expect(read(['1.234.567', '330.0'])).toEqual([330]);
  expect(read(['18000.', ' 4000 '])).toEqual([18000, 4000]);
  expect(read(['18.5', '3'])).toEqual([3]);
  // four digits before a point are no group, nor are four behind it
  expect(read(['4.0000', '3'])).toEqual([4, 3]);
  expect(read(['1234.000', '330'])).toEqual([1234, 330]);
  expect(parseCounts({ sizes: [4, 6], perMl: ['1.890', '0.402'] }).counts?.perMl).toEqual([1.89, 0.402]);
});

describe('counts per mL as text whose points may all stand between thousands', () => {
  const words = 'numbers, or texts with other than three decimals: these points may stand between thousands';

  test.each<[readonly unknown[]]>([
    [['18.900', '4.020', '1.330']],
    [['18.937', '4.021', '1.333']],
    [['18.900', '4.020', '330']],
    [[' +18.900', 4020, null]],
    [['1.234.567', '18.900', 'n.a.']],
    [['4.020']],
    [['4.020', '-999.0']],
  ])('%j is refused at its place', (perMl) => {
    const raw = { sizes: perMl.map((_one, i) => i + 4), perMl };
    expectRefused('wrong_type', 'raw.perMl', words, parse(raw));
    expectRefused('wrong_type', 'raw.perMl', words, parse({ ...raw, per: '100mL' }));
    expect(parse({ ...raw, counted: perMl.map(() => 1), volumeMl: 10 })).not.toThrow();
  });

  test.each<[readonly unknown[], readonly number[]]>([
    [
      ['1890.5', '33.125'],
      [1890.5, 33.125],
    ],
    [
      ['18.900', '0.402'],
      [18.9, 0.402],
    ],
    [
      ['18.900', '4.02'],
      [18.9, 4.02],
    ],
    [
      ['1890.000', '402.000'],
      [1890, 402],
    ],
    [
      ['18.9000', '4'],
      [18.9, 4],
    ],
    [
      [18.937, 4.021],
      [18.937, 4.021],
    ],
    [
      ['1.890e3', '402.000'],
      [1890, 402],
    ],
  ])('%j is in no doubt', (perMl, wanted) => {
    expect(parseCounts({ sizes: [4, 6], perMl }).counts?.perMl).toEqual(wanted);
  });
});

test('32 sizes are taken, one more is not', () => {
  const sizes = Array.from({ length: 33 }, (_, i) => 4 + i);
  const perMl = sizes.map((size) => 1000 - size);
  const most = { sizes: sizes.slice(1), perMl: perMl.slice(1) };
  expect(parseCounts(most).counts?.perMl).toEqual(most.perMl);
  expect(() => parseCounts({ sizes, perMl })).toThrow(/raw\.sizes: received an array of 33, expected at most 32 sizes/);
});

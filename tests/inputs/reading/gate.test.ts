/** What is wrong with the counts of a reading: each mistake once, where it is; and one kind hides no other. */
import { describe, expect, test } from 'vitest';
import { readingProblems } from '../../../src/reading/gate.ts';
import { readingRule } from '../../../src/reading/rules.ts';

const sound = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
const raw = { ...sound, counted: [18900, 4020, 330], volumeMl: 10 };
const problemsOf = (counts: unknown) =>
  readingProblems({ counts }, readingRule).map(({ path, code, expected }) => [path.join('.'), code, expected]);
const above = (size: number) => `a size above ${size} µm`;

describe('counts', () => {
  test.each<[string, unknown]>([
    ['as they should be', sound],
    ['with those counted', raw],
    ['that rise with size', { ...sound, perMl: [1, 2, 3] }],
    ['of sizes a billionth apart', { ...sound, sizes: [4, 4.000000005, 14] }],
  ])('%s pass', (_what, counts) => {
    expect(problemsOf(counts)).toEqual([]);
  });

  const each = 'an array of 3, one for each size';
  test.each<[string, object, unknown[][]]>([
    ['equal sizes', { sizes: [4, 4, 14] }, [['counts.sizes.1', 'sizes_out_of_order', above(4)]]],
    [
      'falling sizes, each of them',
      { sizes: [14, 6, 4] },
      [
        ['counts.sizes.1', 'sizes_out_of_order', above(14)],
        ['counts.sizes.2', 'sizes_out_of_order', above(6)],
      ],
    ],
    ['counts too few', { perMl: [1890, 402] }, [['counts.perMl', 'length_mismatch', each]]],
    ['counts too many', { perMl: [4, 3, 2, 1] }, [['counts.perMl', 'length_mismatch', each]]],
    [
      'both lists of another length, and sizes out of order',
      { sizes: [4, 6, 6], perMl: [2, 1], counted: [1], volumeMl: 10 },
      [
        ['counts.sizes.2', 'sizes_out_of_order', above(6)],
        ['counts.perMl', 'length_mismatch', each],
        ['counts.counted', 'length_mismatch', each],
      ],
    ],
    [
      'counts that do not follow from those counted',
      { counted: [18900, 4021, 330], volumeMl: 10 },
      [['counts.perMl.1', 'out_of_range', '402.1: counted x dilution / volumeMl']],
    ],
  ])('%s', (_what, change, wanted) => {
    expect(problemsOf({ ...sound, ...change })).toEqual(wanted);
  });

  test('what the rule has told is not told again', () => {
    const paths = (counts: unknown) => problemsOf(counts).map(([path]) => path);
    expect(paths({ ...sound, perMl: [] })).toEqual(['counts.perMl']);
    expect(paths({ ...sound, sizes: [] })).toEqual(['counts.sizes']);
    expect(paths({ ...sound, sizes: 4 })).toEqual(['counts.sizes']);
    expect(paths({ ...sound, sizes: [4, 'six', 14] })).toEqual(['counts.sizes.1']);
    expect(paths({ ...sound, sizes: ['four', 6, 5] })).toEqual(['counts.sizes.0', 'counts.sizes.2']);
    expect(paths({ ...raw, perMl: [1890, -1, 33] })).toEqual(['counts.perMl.1']);
    expect(paths({ ...raw, volumeMl: -1 })).toEqual(['counts.volumeMl']);
    const many = Array.from({ length: 1001 }, () => 4);
    expect(paths({ ...sound, sizes: many, perMl: many })).toEqual(['counts.sizes', 'counts.perMl']);
    expect(problemsOf(7)).toEqual([['counts', 'wrong_type', 'counts { sizing, sizes, perMl }']]);
  });
});

/** The code of counts of which some are too many to count: dirty cases first. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { codeOfFullCounts, parseCounts, type RawCounts } from '../../../src/reading/index.ts';

const of = (...perMl: unknown[]) => codeOfFullCounts({ sizes: [4, 6, 14], perMl });

describe('codeOfFullCounts', () => {
  test.each([
    ['all full', ['>30000', '>30000', '>30000'], '*/*/*'],
    ['blanks, decimals, a full-width sign', [' > 30000 ', '\uFF1E30000', '>30000.5'], '*/*/*'],
    ['full, not there, not readable', ['>30000', null, 'n/a'], '*/-/-'],
    ['full beside a sentinel', ['>30000', -999, 510], '*/-/16'],
    ['digits as text beside it', ['>30000', '8100', '510'], '*/20/16'],
    // no such sample can be: the finding code_rises_with_size tells
    ['full at a large size alone', [1890, '>30000', 33], '18/*/12'],
  ])('%s', (_name, perMl, code) => {
    expect(of(...perMl)).toBe(code);
  });

  test.each([
    ['nothing full', [1890, 402, 33]],
    ['nothing readable', [null, 'n/a', undefined]],
    ['other words', ['TNTC', 'OVER', 510]],
    ['at least so many, and no more than so', ['>=30000', '\u226530000', '>']],
    ['a number that is none', [NaN, Infinity, 510]],
  ])('null of %s: the counts say more', (_name, perMl) => {
    expect(of(...perMl)).toBeNull();
  });

  test('sizes in any order, as text, and others beside them', () => {
    const raw = { sizes: ['21', '14', '6', '4'], perMl: [2, 510, 8100, '>30000'] };
    expect(codeOfFullCounts(raw)).toBe('*/20/16');
    // a size that is in no code
    expect(codeOfFullCounts({ sizes: [2, 4, 6, 14], perMl: ['>90000', 1890, 402, 33] })).toBeNull();
    expect(codeOfFullCounts({ sizes: [5, 15], perMl: ['>30000', 33], sizing: 'iso4402' })).toBeNull();
  });

  test('particles counted: few keep their mark, and counts per mL beside them are not looked at', () => {
    const counted = ['>300000', 4020, 12];
    const raw: RawCounts = { sizes: [4, 6, 14], counted, volumeMl: 10, perMl: [1, 1, 1] };
    expect(codeOfFullCounts(raw)).toBe('*/16/>=7');
    expect(() => codeOfFullCounts({ sizes: [4, 6, 14], counted })).toThrow('volumeMl');
    expect(() => codeOfFullCounts({ sizes: [4, 6, 14], perMl: ['>30000'] })).toThrow('an array of 3');
  });

  test('what it is for: the size is judged, where the counts leave it open', () => {
    const hot = { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '21/19/16' } as const;
    const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '21/19/16' }], alarms: [hot] });
    const raw = { sizes: [4, 6, 14], perMl: ['>30000', 4100, 510] };
    const { counts } = parseCounts(raw);
    const code = codeOfFullCounts(raw) as string;
    const told = (reading: object) => {
      const { verdict, events } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, ...reading });
      return [verdict?.inTarget, events.some(({ event }) => event === 'raised')];
    };
    expect(told({ counts: counts ?? undefined })).toEqual([null, false]);
    expect(told({ codes: { iso4406: code } })).toEqual([false, true]);
  });
});

/** The slope between two sizes by hand, and what is remembered of a reading. */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { problemsOf } from '../../../src/errors.ts';
import { sensorStuck } from '../../../src/reading/assess/course.ts';
import { flatDistribution } from '../../../src/reading/assess/distribution.ts';
import { gateReading } from '../../../src/reading/gate.ts';
import { defaultReadingLimits, type Finding, findingText } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats } from '../../../src/reading/remembered/repeats.ts';
import { timedReadingRule } from '../../../src/reading/rules.ts';

describe('the flattest pair of sizes', () => {
  const flat = (counted: number[], sizes: number[], flattestSteepness: number) => {
    const counts = { sizing: 'iso11171' as const, sizes, perMl: counted, counted, volumeMl: 1 };
    const limits = wholeLimits({ flattestSteepness });
    return flatDistribution
      .find({ reading: { counts }, limits, repeats: null, tables: [], needed: [] })
      ?.map(({ value, limit, sizes: of }) => [value, limit, of]);
  };

  test('is told with its slope and the one that dirt has, not the last that is too flat', () => {
    // 4 to 8 µm: log(8000 / 7000) / log 2; dirt falls with k (log 4 + log 8)
    const near = expect.closeTo(Math.log10(8 / 7) / Math.log10(2), 12);
    expect(flat([8000, 7000, 1500], [4, 8, 16], 1)).toEqual([[near, expect.closeTo(Math.log10(32), 12), [4, 8]]]);
    const far = expect.closeTo(Math.log10(8 / 3) / Math.log10(4), 12);
    expect(flat([8000, 4000, 3000], [4, 8, 16], 1)).toEqual([[far, expect.closeTo(Math.log10(64), 12), [4, 16]]]);
  });

  test('must lie four deviations of its counting below', () => {
    // slope 1, of 80 particles 40 and more of 8000 4000; dirt leaves the share 2^-(k log 32):
    // sqrt((1 - share) 40) - sqrt(share 40) is 2 at 0.282055
    expect(flat([80, 40], [4, 8], 1.8259 / Math.log10(32))).toEqual([]);
    expect(flat([80, 40], [4, 8], 1.826 / Math.log10(32))).toHaveLength(1);
    // and sqrt((1 - share) 4000) - sqrt(share 4000) is 2 at 0.477645
    expect(flat([8000, 4000], [4, 8], 1.0659 / Math.log10(32))).toEqual([]);
    expect(flat([8000, 4000], [4, 8], 1.0661 / Math.log10(32))).toHaveLength(1);
  });
});

describe('what is remembered of a reading', () => {
  const remembered = (...lists: number[][]) =>
    lists.reduce((repeats, perMl, i) => {
      const counts = { sizing: 'iso11171' as const, sizes: [4, 6, 14, 21, 38], perMl };
      return advanceRepeats(repeats, { time: i, counts });
    }, noRepeats);

  test('holds no pairs where none are equal, and zeros are no pair', () => {
    expect(remembered([5000, 400, 33, 9, 1]).equal).toBeUndefined();
    expect(remembered([5000, 400, 0, 0, 0]).equal).toBeUndefined();
    expect(remembered([5000, 400, 400, 9, 1]).equal).toHaveLength(2);
    expect(remembered([5000, 400, 400, 9, 1], [5000, 400, 33, 9, 1]).equal).toBeUndefined();
    expect(remembered([5000, 400, 400, 0, 0]).equal).toBe(remembered([5000, 400, 400, 9, 1]).equal);
  });
});

test('a sensor that stands still is named by its figure', () => {
  const still = { value: 40, run: 100000, longest: 0, repeats: 1, readings: 100000 };
  const repeats = { ...noRepeats, known: 100000, steady: { celsius: still } };
  const found = sensorStuck.find({
    reading: { celsius: 40 },
    limits: wholeLimits({}),
    repeats,
    tables: [],
    needed: [],
  });
  expect(found?.map(({ code, value, affects }) => [code, value, affects])).toEqual([
    ['values_stuck', 100000, ['celsius']],
  ]);
});

test('a limit that is undefined is the usual one', () => {
  expect(wholeLimits({ particles: undefined } as never)).toEqual(defaultReadingLimits);
});

test('the place of a mistake in counts is a number, however long the list', () => {
  const sizes = Array.from({ length: 12 }, (_, i) => 4 + i);
  const counts = cumulativeCounts(Object.fromEntries(sizes.map((size, i) => [size, 1200 - 100 * i])), { volumeMl: 10 });
  const perMl = counts.perMl.map((count, i) => (i === 11 ? count / 2 : count));
  try {
    gateReading({ time: 0, counts: { ...counts, perMl } }, 'reading', timedReadingRule);
    expect.fail('the reading passed');
  } catch (error) {
    expect(problemsOf(error).map(({ path }) => path)).toEqual([['counts', 'perMl', 11]]);
  }
});

test('a finding keeps the order of its sizes when it is put into words', () => {
  const finding: Finding = {
    ...{ code: 'few_particles', quality: 'uncertain', affects: ['counts'], value: 3, limit: 20 },
    ...{ sizes: [14, 4, 6], sizing: 'iso11171' },
  };
  expect(findingText(finding)).toContain('4 µm(c), 6 µm(c) and 14 µm(c)');
  expect(finding.sizes).toEqual([14, 4, 6]);
});

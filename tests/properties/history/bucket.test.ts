/** One bucket, written out whole. */
import { describe, expect, test } from 'vitest';
import {
  bucketCounts,
  bucketQuantile,
  mergeRollUps,
  type RollUpBucket,
  type RollUpReading,
  rollUp,
} from '../../../src/history/index.ts';

const how = { widthMs: 100, holdMs: 30, levels: true };
const script: RollUpReading[] = [
  { time: -0, value: -6, scaleNumbers: [null, { atLeast: 7 }], counted: [9, 5], volumeMl: 10 },
  { time: 10, value: -4, scaleNumbers: [null, 7], counted: [8, 5], volumeMl: 0.1, quality: 'uncertain' },
  { time: 30, value: 0, scaleNumbers: [3, { atMost: 7 }] },
  { time: 70, value: 99, scaleNumbers: [28, 28], counted: [800, 500], volumeMl: 9, quality: 'bad' },
  { time: 85, value: null, scaleNumbers: [null, 7] },
  { time: 90, value: -2, scaleNumbers: [3, null], quality: 'good' },
];

test('everything that a bucket holds, after a course of readings', () => {
  const [first, second] = rollUp([...script, { time: 190, value: 5 }], how);
  expect(first).toStrictEqual({
    start: 0,
    widthMs: 100,
    holdMs: 30,
    count: 6,
    good: 4,
    goodShare: 4 / 6,
    min: -6,
    max: 0,
    mean: -160 / 70,
    valuedMs: 70,
    badMs: 20,
    gapMs: 10,
    gaps: [{ from: 60, to: 70 }],
    spent: [
      [{ scaleNumber: 3, ms: 40 }],
      [
        { scaleNumber: 7, ms: 30, bound: 'at_most' },
        { scaleNumber: 7, ms: 25 },
        { scaleNumber: 7, ms: 10, bound: 'at_least' },
      ],
    ],
    unseenMs: [35, 10],
    worst: [3, 7],
    weighted: [-160],
    levels: [
      { level: -6, ms: 10 },
      { level: -4, ms: 20 },
      { level: -2, ms: 10 },
      { level: 0, ms: 30 },
    ],
    counted: [17, 10],
    // 0.1 as a double is a little more, 10.1 a little less
    volumes: [3.608224830031759e-16, 10.1],
    volumeMl: 10.1,
    firstTime: 0,
    last: script[5],
  });
  // the last reading stood for 20 ms more
  expect(second).toMatchObject({ start: 100, count: 1, good: 1, min: -2, max: 5, valuedMs: 20, badMs: 0, gapMs: 70 });
  expect(second?.gaps).toEqual([{ from: 120, to: 190 }]);
  expect(second?.unseenMs).toEqual([0, 20]);
});

test('a reading that stands to the end of its bucket leaves nothing in the next', () => {
  const [, next] = rollUp(
    [
      { time: 70, value: 1 },
      { time: 150, value: 5 },
      { time: 160, value: 5 },
    ],
    how,
  );
  expect(next).toMatchObject({ min: 5, max: 5, valuedMs: 10, gapMs: 50, gaps: [{ from: 100, to: 150 }] });
});

test('times unseen add up, and are left out where nothing was; what is never known has no worst', () => {
  const known = (scaleNumbers: (number | null)[][], from: number) =>
    rollUp(
      scaleNumbers.map((one, i) => ({ time: from + 10 * i, value: 1, scaleNumbers: one })),
      how,
    );
  const [first] = known([[null], [3], [null], [null]], 0);
  expect(first).toMatchObject({ unseenMs: [20], worst: [3] });
  expect(mergeRollUps(first === undefined ? [] : [first], known([[null], [4]], 40), how)[0]).toMatchObject({
    unseenMs: [40],
    worst: [4],
  });
  expect(known([[null], [null]], 0)[0]).toMatchObject({ unseenMs: [10], worst: [null] });
  expect(known([[3], [4], [2]], 0)[0]).not.toHaveProperty('unseenMs');
});

test('figures below 0: the highest is the nearest to 0; a figure of 0 is a level of its own', () => {
  const row = (values: number[]) =>
    rollUp(
      values.map((value, i) => ({ time: 10 * i, value })),
      how,
    )[0] as RollUpBucket;
  expect(row([-6, -2, -4])).toMatchObject({ min: -6, max: -2 });
  const zero = row([0, 0, 0, 5, 5]);
  expect(zero.levels).toEqual([
    { level: 0, ms: 30 },
    { level: 5, ms: 10 },
  ]);
  expect(bucketQuantile(zero, 0.5)).toBe(0);
});

test('what is given away is a copy', () => {
  const [bucket] = rollUp(script, how) as [ReturnType<typeof rollUp>[number]];
  const sizes = [4, 6];
  const counts = bucketCounts(bucket, sizes);
  expect(counts.counted).not.toBe(bucket.counted);
  const [visit] = rollUp(script.slice(0, 1), how);
  expect(visit?.counted).toEqual([9, 5]);
  expect(visit?.counted).not.toBe(visit?.last?.counted);
  expect(counts.sizes).not.toBe(sizes);
  const alone = [bucket];
  expect(mergeRollUps(alone, [], how)).toEqual(alone);
  expect(mergeRollUps(alone, [], how)).not.toBe(alone);
  expect(mergeRollUps([], alone, how)).not.toBe(alone);
});

describe('counts that rise with size are left aside, and the rest of their reading stands', () => {
  const sound = { time: 0, value: 6, counted: [20, 10], volumeMl: 10 };
  const options = { widthMs: 3600000, holdMs: 900000 };

  test.each(['good', 'uncertain', 'bad'] as const)('of a reading that is %s', (quality) => {
    const rising = { time: 600000, value: 7, quality, scaleNumbers: [9], counted: [10, 20], volumeMl: 10 };
    const [bucket] = rollUp([sound, rising], options);
    const { counted: _counted, volumeMl: _volume, ...bare } = rising;
    expect(bucket).toEqual(rollUp([sound, bare], options)[0]);
    expect(bucket).toMatchObject({ count: 2, counted: [20, 10], volumeMl: 10 });
    expect(rollUp([rising], options)[0]).not.toHaveProperty('counted');
    // nor do they say how many sizes there are
    const three = { ...rising, counted: [1, 2, 3] };
    expect(rollUp([three, { ...sound, time: 700000 }], options)[0]?.counted).toEqual([20, 10]);
  });

  test('equal counts at two sizes do not rise', () => {
    expect(rollUp([{ ...sound, counted: [10, 10] }], options)[0]?.counted).toEqual([10, 10]);
  });
});

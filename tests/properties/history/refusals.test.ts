/** What a roll-up refuses, each with the words that say why; and what lies just within is taken. */
import { describe, expect, test } from 'vitest';
import {
  bucketCounts,
  bucketQuantile,
  mergeRollUps,
  type RollUpBucket,
  type RollUpReading,
  rollUp,
  rollUpWidth,
  scaleNumberQuantile,
} from '../../../src/history/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const hour = 3600000;
const day = 24 * hour;
const how = { widthMs: 100, holdMs: 30 };
const one = [{ time: 0, value: 1 }];

describe('options', () => {
  test.each<[string, string, string, unknown]>([
    ['wrong_type', 'options', 'an object', null],
    ['unknown_option', 'options.width', "one of 'widthMs'", { ...how, width: 1 }],
    ['wrong_type', 'options.holdMs', 'whole milliseconds from 1 to 4000000000000000', { widthMs: 1 }],
    ['out_of_range', 'options.holdMs', 'whole milliseconds from 1 to', { widthMs: 1, holdMs: 0 }],
    ['not_an_integer', 'options.holdMs', 'whole milliseconds from 1 to', { widthMs: 1, holdMs: 1.5 }],
    ['out_of_range', 'options.widthMs', 'whole milliseconds from 1 to', { widthMs: 0, holdMs: 1 }],
    ['wrong_type', 'options.widthMs', 'whole milliseconds from 1 to', { holdMs: 1 }],
    [
      'out_of_range',
      'options.originMs',
      'whole milliseconds from -4000000000000000 to',
      { ...how, originMs: 4e15 + 1 },
    ],
    ['infinite', 'options.originMs', 'whole milliseconds', { ...how, originMs: -Infinity }],
    ['wrong_type', 'options.levels', 'true or false', { ...how, levels: 1 }],
    ['bad_configuration', 'options.widthMs', 'nothing, where there are edges', { edges: [0, 5], ...how }],
    [
      'bad_configuration',
      'options.originMs',
      'nothing, where there are edges',
      { edges: [0, 5], holdMs: 1, originMs: 3 },
    ],
    ['out_of_range', 'options.edges[1]', 'a time after 5, the edge before', { edges: [5, 4], holdMs: 1 }],
    ['wrong_type', 'options.edges[1]', 'whole milliseconds', { edges: [5, null], holdMs: 1 }],
    ['wrong_type', 'options.edges', 'an array of two edges or more, ascending', { edges: 5, holdMs: 1 }],
    ['out_of_range', 'options.edges', 'at most 100,001 edges', { edges: new Array(100002).fill(0), holdMs: 1 }],
  ])('%s at %s: %s', (code, parameter, words, options) => {
    expectRefused(code, parameter, words, () => rollUp(one, options as never));
  });

  test('the message of what stands beside edges shows it', () => {
    expect(() => rollUp(one, { edges: [0, 5], holdMs: 1, originMs: 3 } as never)).toThrow('received 3');
    expect(() => rollUp(one, { edges: [0, 5], holdMs: 1, widthMs: 7 } as never)).toThrow('received 7');
  });

  test('the ends of what is allowed are', () => {
    expect(rollUp(one, { widthMs: 4e15, holdMs: 4e15, originMs: -4e15 })).toHaveLength(1);
    const edges = Array.from({ length: 100001 }, (_, i) => i);
    expect(rollUp([...one, { time: 99999, value: 1 }], { edges, holdMs: 1 })).toHaveLength(100000);
  });
});

describe('readings', () => {
  const then = (reading: object) =>
    [
      { time: 5, value: 1 },
      { time: 5, value: 1, ...reading },
    ] as RollUpReading[];

  test.each<[string, string, string, unknown]>([
    ['wrong_type', 'readings', 'an array of readings', { 0: one[0] }],
    ['wrong_type', 'readings[0]', 'an object', [null]],
    ['unknown_option', 'readings[1].valeu', "one of 'time', 'value'", then({ valeu: 2 })],
    ['out_of_range', 'readings[1].time', '5 or later: readings in order of time', then({ time: 4 })],
    ['not_an_integer', 'readings[1].time', 'whole milliseconds', then({ time: 5.5 })],
    ['unknown_option', 'readings[1].quality', "one of 'good', 'uncertain', 'bad'", then({ quality: 'fine' })],
    ['wrong_type', 'readings[1].value', 'number', then({ value: '5' })],
    ['wrong_type', 'readings[1].scaleNumbers', 'an array of scale numbers', then({ scaleNumbers: 5 })],
    ['out_of_range', 'readings[1].scaleNumbers[0]', 'a whole number from 0 to 29', then({ scaleNumbers: [30] })],
    ['out_of_range', 'readings[1].scaleNumbers[0]', 'a whole number from 0 to 29', then({ scaleNumbers: [-1] })],
    ['wrong_type', 'readings[1].counted', 'an array of particles counted', then({ counted: 5, volumeMl: 1 })],
    ['wrong_type', 'readings[1].volumeMl', 'mL', then({ counted: [5] })],
    ['not_an_integer', 'readings[1].counted[0]', 'particles', then({ counted: [0.5], volumeMl: 1 })],
    ['out_of_range', 'readings[0].time', 'a time from 10 to below 20, within options.edges', 'edges'],
  ])('%s at %s: %s', (code, parameter, words, readings) => {
    const options = readings === 'edges' ? { edges: [10, 20], holdMs: 1 } : how;
    expectRefused(code, parameter, words, () => rollUp((readings === 'edges' ? one : readings) as never, options));
  });

  test('a number of columns or sizes that changes, but not by one that has none or is bad', () => {
    const columns = (...lists: (number[] | undefined)[]) =>
      lists.map((scaleNumbers, time) => ({ time, value: 1, ...(scaleNumbers === undefined ? {} : { scaleNumbers }) }));
    const sizes = (...lists: (number[] | undefined)[]) =>
      lists.map((counted, time) => ({ time, value: 1, ...(counted === undefined ? {} : { counted, volumeMl: 1 }) }));
    expect(rollUp(columns([1, 2], undefined, [3, 4]), how)).toHaveLength(1);
    expect(rollUp(sizes([2, 1], undefined, [4, 3]), how)).toHaveLength(1);
    const bad = { time: 1, value: 1, quality: 'bad', scaleNumbers: [9], counted: [9], volumeMl: 1 } as const;
    expect(rollUp([...columns([1, 2]), bad], how)[0]?.worst).toEqual([1, 2]);
    expect(rollUp([...sizes([2, 1]), bad], how)[0]?.counted).toEqual([2, 1]);
    expectRefused('length_mismatch', 'readings[2].scaleNumbers', '2 columns, as before', () =>
      rollUp(columns([1, 2], undefined, [3]), how),
    );
    expectRefused('length_mismatch', 'readings[2].counted', '2 sizes, as before', () =>
      rollUp(sizes([2, 1], undefined, [3]), how),
    );
    const parts = [rollUp(columns([1, 2]), how), rollUp(columns(undefined, [3]), how)] as const;
    expectRefused('length_mismatch', 'later', '2 columns, as before', () => mergeRollUps(...parts, how));
    // known in the second bucket of the earlier part only
    const late = rollUp(
      [
        { time: 0, value: 1 },
        { time: 150, value: 1, scaleNumbers: [1, 2] },
      ],
      how,
    );
    const next = rollUp([{ time: 160, value: 1, scaleNumbers: [3] }], how);
    expectRefused('length_mismatch', 'later', '2 columns, as before', () => mergeRollUps(late, next, how));
    const counts = (time: number, counted: number[]) => rollUp([{ time, value: 1, counted, volumeMl: 1 }], how);
    expectRefused('length_mismatch', 'later', '2 sizes, as before', () =>
      mergeRollUps(counts(0, [2, 1]), counts(5, [3]), how),
    );
  });
});

/** A bucket that has something of everything a bucket can hold. */
const full: RollUpReading[] = [
  { time: 0, value: 16, scaleNumbers: [16, { atMost: 3 }, null], counted: [9, 5], volumeMl: 10 },
  { time: 10, value: 18, scaleNumbers: [18, { atLeast: 7 }, 4], counted: [8, 5], volumeMl: 10, quality: 'uncertain' },
  { time: 80, value: null, scaleNumbers: [18, { atLeast: 7 }, null], counted: [8, 5], volumeMl: 0.1 },
];
const levels = { ...how, levels: true };
const part = () => JSON.parse(JSON.stringify(rollUp(full, levels))) as Record<string, never>[];
const next = rollUp([{ time: 90, value: 1, scaleNumbers: [1, 2, 3], counted: [2, 1], volumeMl: 1 }], levels);

describe('the parts of a merge', () => {
  test('as they were given, they are taken', () => {
    const joined = mergeRollUps(part() as never, next, levels);
    expect(joined).toHaveLength(1);
    expect(joined[0]).toMatchObject({ count: 4, counted: [27, 16], worst: [18, 7, 4] });
  });

  test.each<[string, Record<string, unknown>]>([
    ['a member too many', { more: 1 }],
    ['a count below 0', { count: -1 }],
    ['no number of good ones', { good: '2' }],
    ['an endless time', { valuedMs: Infinity }],
    ['a bad time below 0', { badMs: -1 }],
    ['a gap that is NaN', { gapMs: Number.NaN }],
    ['a lowest in words', { min: 'low' }],
    ['a highest in words', { max: [] }],
    ['a mean that is endless', { mean: Infinity }],
    ['a share that is none', { goodShare: true }],
    ['a first time that is none', { firstTime: 'morning' }],
    ['gaps that are none', { gaps: {} }],
    ['a gap without an end', { gaps: [{ from: 1 }] }],
    ['a gap without a beginning', { gaps: [{ to: 1 }] }],
    ['a gap with more', { gaps: [{ from: 1, to: 2, why: 3 }] }],
    ['a hole for a gap', { gaps: [null] }],
    ['worst ones in words', { worst: ['a', 'b', 'c'] }],
    ['a column less', { worst: [18, 7] }],
    ['an unseen time in words', { unseenMs: ['a'] }],
    ['a sum that is endless', { weighted: [Infinity] }],
    ['a level between the rungs', { levels: [{ level: 16.1, ms: 1 }] }],
    ['a level of no time', { levels: [{ level: 16, ms: 0 }] }],
    ['a level for ever', { levels: [{ level: 16, ms: Infinity }] }],
    ['a level with more', { levels: [{ level: 16, ms: 1, more: 1 }] }],
    ['an endless level', { levels: [{ level: Infinity, ms: 1 }] }],
    ['a level in words', { levels: [{ level: '16', ms: 1 }] }],
    ['no level', { levels: [null] }],
    ['counts without a volume', { volumeMl: undefined }],
    ['counts without the parts of a volume', { volumes: undefined }],
    ['a volume without counts', { counted: undefined }],
    ['counts alone', { volumeMl: undefined, volumes: undefined }],
    ['a volume alone', { counted: undefined, volumes: undefined }],
    ['parts of a volume alone', { counted: undefined, volumeMl: undefined }],
    ['particles in words', { counted: ['9', 5] }],
    ['time spent that is none', { spent: [[], [], 5] }],
    ['time at no number', { spent: [[{ scaleNumber: null, ms: 1 }], [], []] }],
    ['time at half a number', { spent: [[{ scaleNumber: 3.5, ms: 1 }], [], []] }],
    ['time beyond the last number', { spent: [[{ scaleNumber: 30, ms: 1 }], [], []] }],
    ['a number for no time', { spent: [[{ scaleNumber: 1 }], [], []] }],
    ['a bound of no kind', { spent: [[{ scaleNumber: 1, ms: 1, bound: 'about' }], [], []] }],
    ['time spent with more', { spent: [[{ scaleNumber: 1, ms: 1, more: 1 }], [], []] }],
    ['a hole for time spent', { spent: [[null], [], []] }],
    ['a last reading in words', { last: 'x' }],
    ['a last reading with more', { last: { time: 80, value: 1, more: 1 } }],
    ['a last reading at no time', { last: { value: 1 } }],
    ['a last figure in words', { last: { time: 80, value: 'x' } }],
    ['a last quality that is none', { last: { time: 80, value: 1, quality: 'fine' } }],
    ['last counts that are none', { last: { time: 80, value: 1, counted: 5 } }],
    ['a last volume that is none', { last: { time: 80, value: 1, volumeMl: 'x' } }],
    ['last scale numbers that are none', { last: { time: 80, value: 1, scaleNumbers: [{ atLeast: 'x' }] } }],
    ['last scale numbers of two bounds', { last: { time: 80, value: 1, scaleNumbers: [{ atLeast: 1, atMost: 2 }] } }],
    ['a last scale number of no kind', { last: { time: 80, value: 1, scaleNumbers: [{ about: 1 }] } }],
    ['a last scale number too high', { last: { time: 80, value: 1, scaleNumbers: [{ atMost: 30 }] } }],
    ['last scale numbers in words', { last: { time: 80, value: 1, scaleNumbers: ['1'] } }],
    ['no last reading', { last: null }],
  ])('%s: bad_state', (_name, damage) => {
    const damaged = part().map((bucket) => ({ ...bucket, ...damage })) as never;
    const expected = 'all buckets of rollUp';
    expectRefused('bad_state', 'earlier[0]', expected, () => mergeRollUps(damaged, next, levels));
    expectRefused('bad_state', 'later[0]', expected, () =>
      mergeRollUps(rollUp([{ time: -5, value: 1 }], levels), damaged, levels),
    );
    if (_name === 'no last reading') return;
    expectRefused('bad_state', 'bucket', 'a bucket of rollUp', () => scaleNumberQuantile(damaged[0], 0, 0.5));
    expectRefused('bad_state', 'bucket', 'a bucket of rollUp', () => bucketQuantile(damaged[0], 0.5));
  });

  test('buckets that are missing, and of other options', () => {
    const row = rollUp(
      [0, 150, 250].map((time) => ({ time, value: 1 })),
      how,
    );
    const [first, , third] = row as [RollUpBucket, RollUpBucket, RollUpBucket];
    const end = rollUp([{ time: 300, value: 1 }], how);
    expect(mergeRollUps(row, end, how)).toHaveLength(4);
    const words = 'all buckets of rollUp';
    expectRefused('bad_state', 'earlier[1]', words, () => mergeRollUps([first, third], end, how));
    expectRefused('bad_state', 'later[0]', words, () => mergeRollUps(row, [{ ...third, firstTime: null }], how));
    expectRefused('wrong_type', 'earlier', 'buckets of rollUp', () => mergeRollUps({} as never, end, how));
    expectRefused('wrong_type', 'later[0].start', 'whole milliseconds', () => mergeRollUps(row, [{}] as never, how));
    expectRefused('wrong_type', 'later[0]', 'an object', () => mergeRollUps(row, [5] as never, how));
    const options = 'buckets that lie within those of the options: of their width or edges, or finer';
    expectRefused('not_convertible', 'earlier[0]', options, () => mergeRollUps(row, end, { ...how, widthMs: 50 }));
    expectRefused('not_convertible', 'earlier[0]', options, () => mergeRollUps(row, end, { ...how, originMs: 1 }));
    expectRefused('not_convertible', 'earlier[2]', options, () =>
      mergeRollUps(row, end, { edges: [0, 200], holdMs: how.holdMs }),
    );
    expectRefused('not_convertible', 'earlier[0]', options, () =>
      mergeRollUps(row, end, { edges: [0, 90], holdMs: 1 }),
    );
    // it ends at an edge, and has another within it
    const inside = rollUp([{ time: 6, value: 1 }], { edges: [5, 90], holdMs: 1 });
    expectRefused('not_convertible', 'earlier[0]', options, () =>
      mergeRollUps(inside, [], { edges: [0, 50, 90], holdMs: 1 }),
    );
    expectRefused('not_convertible', 'earlier[0].holdMs', `holdMs ${how.holdMs + 1}, as the options say`, () =>
      mergeRollUps(row, end, { ...how, holdMs: how.holdMs + 1 }),
    );
    // saved by a version that did not say it
    const saved = row.map(({ holdMs: _holdMs, ...bucket }) => bucket);
    const last = (buckets: readonly RollUpBucket[]) => buckets.slice(saved.length - 1);
    expect(last(mergeRollUps(saved, end, how))).toEqual(last(mergeRollUps(row, end, how)));
    expectRefused('not_convertible', 'earlier[0].levels', 'levels, as the options say', () =>
      mergeRollUps(row, end, levels),
    );
    expectRefused('not_convertible', 'earlier[0].levels', 'no levels, as the options say', () =>
      mergeRollUps(part() as never, end, how),
    );
    expectRefused('out_of_range', 'later', 'a first reading at 250 or later', () =>
      mergeRollUps(
        row,
        [third].map((b) => ({ ...b, firstTime: 249 })),
        how,
      ),
    );
  });
});

describe('a bucket alone', () => {
  const [bucket] = rollUp([...full, { time: 90, value: 1 }], levels) as [RollUpBucket];
  const [bare] = rollUp(one, how) as [RollUpBucket];

  test.each<[string, string, string, () => unknown]>([
    ['no_answer', 'bucket.levels', 'a bucket of a roll-up with levels: true', () => bucketQuantile(bare, 0.5)],
    [
      'no_answer',
      'bucket.levels',
      'in which a figure stood',
      () => bucketQuantile(rollUp(one, levels)[0] as never, 0.5),
    ],
    ['out_of_range', 'share', 'above 0 and below 1', () => bucketQuantile(bucket, 1)],
    ['out_of_range', 'share', 'above 0 and below 1', () => scaleNumberQuantile(bucket, 0, 0)],
    ['out_of_range', 'column', 'below 3', () => scaleNumberQuantile(bucket, 3, 0.5)],
    ['wrong_type', 'column', 'a finite number', () => scaleNumberQuantile(bucket, '0' as never, 0.5)],
    ['no_answer', 'bucket', 'in which a scale number stood', () => scaleNumberQuantile(bucket, 1, 0.99)],
    ['wrong_type', 'bucket', 'an object', () => bucketQuantile(null as never, 0.5)],
    ['wrong_type', 'bucket', 'an object', () => scaleNumberQuantile(null as never, 0, 0.5)],
    ['no_answer', 'bucket.counted', 'a bucket whose readings had counted', () => bucketCounts(bare, [4])],
    ['no_answer', 'bucket.counted', 'and volumeMl', () => bucketCounts({ counted: [1] }, [4])],
    ['no_answer', 'bucket.counted', 'and volumeMl', () => bucketCounts({ volumeMl: 1 }, [4])],
    ['not_an_integer', 'bucket.counted[0]', '', () => bucketCounts({ counted: [0.5], volumeMl: 1 }, [4])],
    ['counts_rise_with_size', 'bucket.perMl[1]', '', () => bucketCounts({ counted: [1, 2], volumeMl: 1 }, [4, 6])],
    ['length_mismatch', 'sizes', '2 sizes, as the readings counted', () => bucketCounts(bucket, [4])],
    ['sizes_out_of_order', 'sizes[1]', 'above', () => bucketCounts(bucket, [6, 4])],
    ['out_of_range', 'bucket.perMl[0]', 'from 0 to', () => bucketCounts({ counted: [9e15], volumeMl: 1e-6 }, [4])],
    ['unknown_sizing', 'options.sizing', 'iso11171', () => bucketCounts(bucket, [4, 6], { sizing: 'x' as never })],
    ['out_of_range', 'options.dilution', '', () => bucketCounts(bucket, [4, 6], { dilution: 0.5 })],
    ['unknown_option', 'options.diluted', 'dilution', () => bucketCounts(bucket, [4, 6], { diluted: 2 } as never)],
    ['out_of_range', 'spanMs', 'from 7200000 to 31622400000', () => rollUpWidth(2 * hour - 1, 100)],
    ['out_of_range', 'spanMs', 'from 7200000 to 31622400000', () => rollUpWidth(366 * day + 1, 100)],
    ['out_of_range', 'points', 'from 14 to 10000', () => rollUpWidth(day, 13)],
    ['out_of_range', 'points', 'from 14 to 10000', () => rollUpWidth(day, 10001)],
  ])('%s at %s: %s', (code, parameter, words, call) => {
    expectRefused(code, parameter, words, call);
  });

  test('widths at the ends of their range', () => {
    expect(rollUpWidth(2 * hour, 10000)).toBe(1000);
    expect(rollUpWidth(2 * hour, 14)).toBe(10 * 60000);
    expect(rollUpWidth(366 * day, 14)).toBe(28 * day);
    expect([14, 28, 56, 366].map((days) => rollUpWidth(days * day, 14) / day)).toEqual([1, 2, 7, 28]);
    expect(rollUpWidth(182 * day, 14)).toBe(14 * day);
  });

  test('counts of a bucket: sizing and dilution as they were given', () => {
    expect(bucketCounts(bucket, [4, 6])).toEqual({
      ...{ sizing: 'iso11171', sizes: [4, 6], counted: [25, 15], volumeMl: 20.1 },
      perMl: [25 / 20.1, 15 / 20.1].map((perMl) => expect.closeTo(perMl, 12)),
    });
    const diluted = bucketCounts({ counted: [30], volumeMl: 10 }, [4], { sizing: 'iso4402', dilution: 5 });
    expect(diluted).toEqual({ sizing: 'iso4402', sizes: [4], perMl: [15], counted: [30], volumeMl: 10, dilution: 5 });
    expect(bucketCounts({ counted: [30], volumeMl: 10 }, [4], { dilution: 1 })).not.toHaveProperty('dilution');
  });
});

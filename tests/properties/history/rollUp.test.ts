/** Roll-ups: parts join to the whole, to the last bit; and every ms is accounted for. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classify, codeInterval, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { bucketCounts } from '../../../src/history/countedSums.ts';
import { mergeRollUps, rollUp } from '../../../src/history/rollUp.ts';
import { bucketQuantile, rollUpWidth, scaleNumberQuantile } from '../../../src/history/rollUpWidth.ts';
import type { KnownScaleNumber, RollUpBucket, RollUpReading } from '../../../src/history/types.ts';
import { some } from '../../volume.ts';

const options = fc.record({
  widthMs: fc.integer({ min: 1, max: 500 }),
  holdMs: fc.integer({ min: 1, max: 900 }),
  originMs: fc.integer({ min: -1000, max: 1000 }),
  levels: fc.boolean(),
});

/** A scale number, a bound of one, or nothing. */
const known = (min: number, max: number): fc.Arbitrary<KnownScaleNumber> =>
  fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min, max }) },
    { weight: 1, arbitrary: fc.integer({ min, max }).map((atLeast) => ({ atLeast })) },
    { weight: 1, arbitrary: fc.integer({ min, max }).map((atMost) => ({ atMost })) },
    { weight: 1, arbitrary: fc.constant(null) },
  );

const readings: fc.Arbitrary<RollUpReading[]> = fc
  .array(
    fc.record({
      after: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 3000 })),
      value: fc.option(
        fc.oneof(
          fc.integer({ min: -29, max: 29 }),
          fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
          fc.double({ min: -1e9, max: -1e-9, noNaN: true }),
        ),
        { freq: 6 },
      ),
      quality: fc.constantFrom('good' as const, 'good' as const, 'uncertain' as const, 'bad' as const),
      particles: fc.option(fc.integer({ min: 0, max: 1e6 }), { freq: 3 }),
      code: fc.tuple(known(14, 20), known(10, 16), known(0, 29)),
    }),
    { maxLength: 40 },
  )
  .chain((steps) =>
    fc.integer({ min: 1, max: 3 }).map((columns) => {
      let time = -1000;
      return steps.map(({ after, value, quality, code, particles }) => {
        time += after;
        const scaleNumbers = code.slice(0, columns);
        if (particles === null) return { time, value, quality, scaleNumbers };
        const counted = [particles + 7, particles, particles - (particles % 5)];
        return { time, value, quality, scaleNumbers, counted, volumeMl: (1 + (particles % 70)) / 7 };
      });
    }),
  );

const split = fc.tuple(readings, fc.nat(), fc.nat()).map(([list, a, b]) => {
  const [first, second] = [a % (list.length + 1), b % (list.length + 1)].sort((x, y) => x - y) as [number, number];
  return { list, parts: [list.slice(0, first), list.slice(first, second), list.slice(second)] as const };
});

/** What stood at one ms, straight from the definition. */
function standing(list: readonly RollUpReading[], holdMs: number, ms: number): RollUpReading | 'gap' | 'outside' {
  const before = list.filter((reading) => reading.time <= ms);
  const last = before[before.length - 1];
  if (last === undefined || ms >= (list[list.length - 1] as RollUpReading).time) return 'outside';
  return ms < last.time + holdMs ? last : 'gap';
}

const total = (buckets: readonly RollUpBucket[], of: (bucket: RollUpBucket) => number) =>
  buckets.reduce((sum, bucket) => sum + of(bucket), 0);

describe('merging', () => {
  test('is associative, and joins parts to the roll-up of the whole, bit for bit', () => {
    fc.assert(
      fc.property(split, options, ({ list, parts }, how) => {
        const [a, b, c] = parts.map((part) => rollUp(part, how)) as [RollUpBucket[], RollUpBucket[], RollUpBucket[]];
        const whole = rollUp(list, how);
        expect(mergeRollUps(mergeRollUps(a, b, how), c, how)).toEqual(whole);
        expect(mergeRollUps(a, mergeRollUps(b, c, how), how)).toEqual(whole);
      }),
      { numRuns: some(250, 12) },
    );
  });

  test('survives JSON in between, and changes neither part', () => {
    fc.assert(
      fc.property(split, options, ({ list, parts }, how) => {
        const a = rollUp(parts[0], how);
        const b = rollUp([...parts[1], ...parts[2]], how);
        const kept = JSON.stringify([a, b]);
        const [aAgain, bAgain] = JSON.parse(kept) as [RollUpBucket[], RollUpBucket[]];
        expect(mergeRollUps(aAgain, bAgain, how)).toEqual(rollUp(list, how));
        mergeRollUps(a, b, how);
        expect(JSON.stringify([a, b])).toBe(kept);
      }),
    );
  });
});

describe('quantiles of the figure', () => {
  test('lie within 1/128 of the true ones of the time that each figure stood', () => {
    fc.assert(
      fc.property(readings, options, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (list, how, share) => {
        for (const bucket of rollUp(list, { ...how, levels: true })) {
          const stood: number[] = [];
          for (let ms = bucket.start; ms < bucket.start + how.widthMs; ms += 1) {
            const at = standing(list, how.holdMs, ms);
            if (typeof at === 'object' && at.quality !== 'bad' && at.value !== null) stood.push(at.value);
          }
          stood.sort((x, y) => x - y);
          if (stood.length === 0) {
            expect(() => bucketQuantile(bucket, share)).toThrowError(expect.objectContaining({ code: 'no_answer' }));
            continue;
          }
          const truth = stood[Math.ceil(share * stood.length) - 1] as number;
          const told = bucketQuantile(bucket, share);
          expect(Math.abs(told - truth)).toBeLessThanOrEqual(Math.abs(truth) / 128);
          expect(told).toBeGreaterThanOrEqual(bucket.min as number);
          expect(told).toBeLessThanOrEqual(bucket.max as number);
          expect((bucket.levels ?? []).reduce((sum, { ms }) => sum + ms, 0)).toBe(bucket.valuedMs);
        }
      }),
      { numRuns: some(250, 8) },
    );
  });

  test('are exact on a level, at 0 and of one figure', () => {
    const how = { widthMs: 1000, holdMs: 1000, levels: true };
    const of = (values: readonly number[]) =>
      rollUp(
        [...values, 0].map((value, i) => ({ time: i, value })),
        how,
      )[0] as RollUpBucket;
    expect(bucketQuantile(of([0, 0, 3]), 0.5)).toBe(0);
    expect(bucketQuantile(of([401.7]), 0.5)).toBe(401.7);
    expect(of([400, 403.9, 404, -400, 1e60, 1e-60]).levels?.map(({ level }) => level)).toEqual([
      -400,
      2 ** -200 * Math.floor((1e-60 / 2 ** -200) * 64) * 2 ** -6,
      400,
      404,
      2 ** 199 * Math.floor((1e60 / 2 ** 199) * 64) * 2 ** -6,
    ]);
  });

  test('a year of hours in one bucket has few levels', () => {
    const many = Array.from({ length: 8760 }, (_one, i) => ({ time: i * 3600000, value: 400 * (1 + (i % 97) / 97) }));
    const [year] = rollUp(many, { widthMs: 366 * 86400000, holdMs: 7200000, levels: true });
    expect(year?.levels?.length).toBeLessThanOrEqual(65);
  });
});

describe('what was counted', () => {
  test('sums of all readings but the bad ones: particles as whole numbers, volumes exactly', () => {
    fc.assert(
      fc.property(readings, options, (list, how) => {
        for (const bucket of rollUp(list, how)) {
          const inside = list.filter(
            ({ time, quality, counted }) =>
              time >= bucket.start && time < bucket.start + how.widthMs && quality !== 'bad' && counted !== undefined,
          );
          if (inside.length === 0) {
            expect('counted' in bucket || 'volumeMl' in bucket).toBe(false);
            continue;
          }
          const sum = (k: number) => inside.reduce((all, { counted }) => all + ((counted as number[])[k] as number), 0);
          expect(bucket.counted).toEqual([sum(0), sum(1), sum(2)]);
          // sevenths of a mL are no doubles: the sum of the doubles, in whole parts of 2^-60
          const parts = (x: number) => BigInt(x * 2 ** 60);
          const exact = inside.reduce((all, { volumeMl }) => all + parts(volumeMl as number), 0n);
          expect((bucket.volumes as number[]).reduce((all, x) => all + parts(x), 0n)).toBe(exact);
          expect(bucket.volumeMl).toBe(Number(exact) / 2 ** 60);
          const counts = bucketCounts(bucket, [4, 6, 14]);
          expect(counts.counted).toEqual(bucket.counted);
        }
      }),
    );
  });

  test('few particles in each of ten visits are enough together: no >=, and limits of the sum', () => {
    const visit = (i: number) => ({ time: i * 1000, value: null, counted: [9, 5, 2], volumeMl: 10 });
    const [bucket] = rollUp(
      Array.from({ length: 10 }, (_one, i) => visit(i)),
      { widthMs: 60_000, holdMs: 2000 },
    );
    const sum = bucketCounts(bucket as RollUpBucket, [4, 6, 14]);
    const one = cumulativeCounts({ 4: 9, 6: 5, 14: 2 }, { volumeMl: 10 });
    expect(classify(iso4406, one).text).toBe('>=7/>=6/>=5');
    expect(classify(iso4406, sum).text).toBe('7/6/5');
    // Garwood's upper limits: 30.9 for 20 particles (in 100 mL: scale number 5), 7.22 for 2 (in 10 mL: 7)
    expect(codeInterval(iso4406, sum).high.text).toBe('7/7/5');
    expect(codeInterval(iso4406, one).high.text).toBe('8/7/7');
  });

  test('a reading with only one of the two, and other numbers of sizes, are refused', () => {
    const how = { widthMs: 10, holdMs: 10 };
    const of = (counted: unknown, volumeMl: unknown) => [{ time: 0, value: 1, counted, volumeMl } as never];
    expect(() => rollUp(of([1], undefined), how)).toThrow('readings[0].volumeMl');
    expect(() => rollUp(of(undefined, 1), how)).toThrow('readings[0].counted');
    const parts = [rollUp(of([2, 1], 1), how), rollUp([{ time: 30, value: 1, counted: [1], volumeMl: 1 }], how)];
    expect(() => mergeRollUps(parts[0] as RollUpBucket[], parts[1] as RollUpBucket[], how)).toThrow('2 sizes');
    expect(() => bucketCounts((parts[0] as RollUpBucket[])[0] as RollUpBucket, [4])).toThrow('2 sizes');
    expect(() => bucketCounts({}, [4])).toThrow('bucket.counted');
  });
});

describe('a merge holds as many buckets as a roll-up, and no more', () => {
  const how = { widthMs: 1, holdMs: 1 };
  const part = (from: number, to: number) =>
    rollUp(
      [from, to].map((time) => ({ time, value: 1 })),
      how,
    );

  test.each([
    ['one after the other', 49_999, 50_000],
    ['with a bucket in common', 50_000, 50_000],
    ['with buckets between', 30_000, 60_000],
  ])('%s', (_name, end, begin) => {
    expect(mergeRollUps(part(0, end), part(begin, 99_999), how)).toHaveLength(100_000);
    expect(() => mergeRollUps(part(0, end), part(begin, 100_000), how)).toThrow('at most 100000 buckets');
  });
});

describe('one roll-up', () => {
  test('every ms between the first and the last reading is valued, bad or in a gap', () => {
    fc.assert(
      fc.property(readings, options, (list, how) => {
        fc.pre(list.length > 0);
        const buckets = rollUp(list, how);
        const first = list[0] as RollUpReading;
        const last = list[list.length - 1] as RollUpReading;
        expect(total(buckets, ({ valuedMs, badMs, gapMs }) => valuedMs + badMs + gapMs)).toBe(last.time - first.time);
        expect(total(buckets, ({ count }) => count)).toBe(list.length);
        const gaps = buckets.flatMap((bucket) => bucket.gaps);
        expect(gaps.reduce((sum, { from, to }) => sum + to - from, 0)).toBe(total(buckets, ({ gapMs }) => gapMs));
        buckets.forEach((bucket, i) => {
          expect(bucket.start).toBe((buckets[0] as RollUpBucket).start + i * how.widthMs);
          for (const { from } of bucket.gaps)
            expect(from >= bucket.start && from < bucket.start + how.widthMs).toBe(true);
          if (bucket.mean !== null) {
            expect(bucket.mean).toBeGreaterThanOrEqual(bucket.min as number);
            expect(bucket.mean).toBeLessThanOrEqual(bucket.max as number);
          }
        });
      }),
    );
  });

  test('agrees with looking at every single ms', () => {
    const short = readings.map((list) =>
      list.slice(0, 6).map((reading) => ({ ...reading, time: Math.floor(reading.time / 8) })),
    );
    fc.assert(
      fc.property(short, fc.integer({ min: 3, max: 60 }), fc.integer({ min: 1, max: 90 }), (list, widthMs, holdMs) => {
        for (const bucket of rollUp(list, { widthMs, holdMs })) {
          let [valued, bad, gap, sum] = [0, 0, 0, 0];
          const spent: Record<string, number> = {};
          let unseen = 0;
          for (let ms = bucket.start; ms < bucket.start + widthMs; ms += 1) {
            const now = standing(list, holdMs, ms);
            if (now === 'outside') continue;
            if (now === 'gap') gap += 1;
            else if (now.quality === 'bad' || now.value === null) bad += 1;
            else {
              valued += 1;
              sum += now.value;
            }
            if (now === 'gap' || now.quality === 'bad') continue;
            const first = now.scaleNumbers?.[0] ?? null;
            if (first === null) unseen += 1;
            else spent[JSON.stringify(first)] = (spent[JSON.stringify(first)] ?? 0) + 1;
          }
          expect([bucket.valuedMs, bucket.badMs, bucket.gapMs]).toEqual([valued, bad, gap]);
          if (valued === 0) expect(bucket.mean).toBeNull();
          else
            expect(Math.abs((bucket.mean as number) - sum / valued)).toBeLessThanOrEqual(
              1e-12 * Math.abs(sum / valued),
            );
          const list0 = bucket.spent[0] ?? [];
          const asKnown = ({ scaleNumber, bound }: (typeof list0)[number]) =>
            JSON.stringify(
              bound === undefined
                ? scaleNumber
                : bound === 'at_least'
                  ? { atLeast: scaleNumber }
                  : { atMost: scaleNumber },
            );
          expect(Object.fromEntries(list0.map((one) => [asKnown(one), one.ms]))).toEqual(spent);
          expect(bucket.unseenMs?.[0] ?? 0).toBe(unseen);
          const times = list0.flatMap(({ scaleNumber, ms, bound }) =>
            Array<number>(ms).fill(bound === 'at_least' ? Infinity : scaleNumber),
          );
          times.sort((x, y) => x - y);
          if (times.length > 0) {
            for (const share of [0.05, 0.5, 0.95]) {
              const wanted = times[Math.ceil(share * times.length) - 1] as number;
              if (wanted === Infinity)
                expect(() => scaleNumberQuantile(bucket, 0, share)).toThrow('known for that share');
              else expect(scaleNumberQuantile(bucket, 0, share)).toBe(wanted);
            }
            expect(bucket.worst[0]).toBeGreaterThanOrEqual(Math.max(...list0.map(({ scaleNumber }) => scaleNumber)));
          }
        }
      }),
      { numRuns: some(200, 15) },
    );
  });

  test('bad readings count, and lend no figure', () => {
    const [bucket] = rollUp(
      [
        { time: 0, value: 16, scaleNumbers: [16] },
        { time: 10, value: 28, scaleNumbers: [28], quality: 'bad' },
        { time: 30, value: null },
        { time: 40, value: 17, scaleNumbers: [17], quality: 'uncertain' },
      ],
      { widthMs: 100, holdMs: 25 },
    );
    expect(bucket).toMatchObject({
      count: 4,
      good: 2,
      goodShare: 0.5,
      min: 16,
      max: 17,
      mean: 16,
      valuedMs: 10,
      badMs: 30,
      worst: [17],
    });
  });

  test('a reading without a figure keeps its scale numbers, and what is known of them', () => {
    const list: RollUpReading[] = [
      { time: 0, value: null, scaleNumbers: [18, { atLeast: 13 }, null] },
      { time: 10, value: 400, scaleNumbers: [18, 14, { atMost: 9 }] },
      { time: 30, value: null, scaleNumbers: [29, { atMost: 14 }, null] },
    ];
    const how = { widthMs: 100, holdMs: 25 };
    const [bucket] = rollUp([...list, { time: 40, value: 17 }], how);
    expect(bucket).toMatchObject({ valuedMs: 20, badMs: 20, unseenMs: [0, 0, 20], worst: [29, 14, 9] });
    expect(bucket?.spent).toEqual([
      [
        { scaleNumber: 18, ms: 30 },
        { scaleNumber: 29, ms: 10 },
      ],
      [
        { scaleNumber: 13, ms: 10, bound: 'at_least' },
        { scaleNumber: 14, ms: 10, bound: 'at_most' },
        { scaleNumber: 14, ms: 20 },
      ],
      [{ scaleNumber: 9, ms: 20, bound: 'at_most' }],
    ]);
    const whole = bucket as RollUpBucket;
    expect(scaleNumberQuantile(whole, 1, 0.75)).toBe(14);
    expect(() => scaleNumberQuantile(whole, 1, 0.8)).toThrow('known for that share');
    const [early] = [rollUp(list.slice(0, 1), how), rollUp(list.slice(1), how)];
    expect(JSON.parse(JSON.stringify(early))[0].last.scaleNumbers).toEqual([18, { atLeast: 13 }, null]);
  });

  test('what is no scale number is refused by its place', () => {
    const of = (...scaleNumbers: unknown[]) => [{ time: 0, value: 1, scaleNumbers }] as unknown as RollUpReading[];
    const how = { widthMs: 1, holdMs: 1 };
    expect(() => rollUp(of(1, 30), how)).toThrow('readings[0].scaleNumbers[1]');
    expect(() => rollUp(of({ atLeast: 1.5 }), how)).toThrow('readings[0].scaleNumbers[0].atLeast');
    expect(() => rollUp(of({ atMost: -1 }), how)).toThrow('readings[0].scaleNumbers[0].atMost');
    expect(() => rollUp(of({}), how)).toThrow('one of the members atLeast, atMost');
    expect(() => rollUp(of({ atLeast: 1, atMost: 2 }), how)).toThrow('one of the members atLeast, atMost');
    expect(() => rollUp(of({ atleast: 1 }), how)).toThrow("expected one of 'atLeast'");
    expect(() => rollUp(of('13'), how)).toThrow('readings[0].scaleNumbers[0]');
  });

  test('nothing read, nothing rolled up; and a constant figure has itself as mean', () => {
    expect(rollUp([], { widthMs: 1, holdMs: 1 })).toEqual([]);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), fc.integer({ min: 1, max: 1e9 }), (value, ms) => {
        const list = [
          { time: 0, value },
          { time: ms, value },
        ];
        expect(rollUp(list, { widthMs: 1e10, holdMs: 1e10 })[0]?.mean).toBe(value);
      }),
    );
  });
});

test('width: the narrowest that keeps within the points, from 2 hours to a year', () => {
  const hour = 3600000;
  expect(rollUpWidth(2 * hour, 100)).toBe(120000);
  expect(rollUpWidth(365 * 24 * hour, 1000)).toBe(12 * hour);
  fc.assert(
    fc.property(
      fc.integer({ min: 2 * hour, max: 366 * 24 * hour }),
      fc.integer({ min: 14, max: 9999 }),
      (span, points) => {
        const width = rollUpWidth(span, points);
        expect(span / width).toBeLessThanOrEqual(points);
        expect(rollUpWidth(span, points + 1)).toBeLessThanOrEqual(width);
      },
    ),
  );
});

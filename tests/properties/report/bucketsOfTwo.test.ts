/**
 * Two instruments of one unit with rows of their own: a reading that lacks a figure says nothing of it, so the one
 * before stands as if the row were not there. Means are those of the time the figure really had. Our choice, as
 * docs/readings.md has it: a thermometer may read between two counts.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { mergeRollUps, type RollUpBucket } from '../../../src/history/index.ts';
import { countBuckets, figureBuckets, type ReportReading } from '../../../src/report/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const options = { widthMs: day, holdMs: hour };

/** A day of rows each ten minutes, dirty and hot from 6 to 18 h; `more` adds rows beside those of the dirty hours. */
function dayOf(
  row: (isDirty: boolean) => object,
  more: (time: number) => readonly ReportReading[],
  evenClean = false,
): ReportReading[] {
  return Array.from({ length: 145 }, (_, i) => i * 10 * minute).flatMap((time) => {
    const isDirty = time >= 6 * hour && time < 18 * hour;
    return [{ time, ...row(isDirty) }, ...(isDirty || evenClean ? more(time) : [])];
  });
}
const countsOf = (isDirty: boolean) =>
  isDirty ? cumulativeCounts({ 4: 7000, 6: 1800, 14: 250 }) : cumulativeCounts({ 4: 1000, 6: 200, 14: 20 });
const sizeOf = (list: readonly ReportReading[], size: number) =>
  countBuckets(list, options).find((each) => each.size === size)?.buckets[0] as RollUpBucket;

describe('a row of another instrument right behind each count of the dirty hours', () => {
  const beside: readonly [string, object][] = [
    ['temperature', { celsius: 70 }],
    ['a code', { codes: { iso4406: '20/18/15' } }],
    ['one size', { counts: cumulativeCounts({ 4: 7000 }) }],
  ];
  test.each(beside)('%s: the mean at 6 µm is that of the whole day', (_name, members) => {
    const list = dayOf(
      (isDirty) => ({ counts: countsOf(isDirty) }),
      (time) => [{ time: time + 1000, ...members }],
    );
    expect(sizeOf(list, 6)).toMatchObject({ mean: 1000, valuedMs: day, badMs: 0, max: 1800 });
  });

  test('a counter behind each thermometer: the mean temperature is that of the whole day', () => {
    const list = dayOf(
      (isDirty) => ({ celsius: isDirty ? 70 : 20 }),
      (time) => [{ time: time + 1000, counts: countsOf(true) }],
    );
    expect(figureBuckets(list, ['celsius'], options)[0]?.buckets[0]).toMatchObject({ mean: 45, valuedMs: day });
  });
});

describe('what ends the figure before', () => {
  const from = { time: 0, counts: countsOf(false), celsius: 20, others: { acid: 1 } };
  const last = { ...from, time: 30 * minute };
  const badMs = (members: object, of: (list: readonly ReportReading[]) => RollUpBucket) =>
    of([from, { time: 10 * minute, ...members }, last]).badMs / minute;
  const at6 = (list: readonly ReportReading[]) => sizeOf(list, 6);
  const celsius = (list: readonly ReportReading[]) =>
    figureBuckets(list, ['celsius'], options)[0]?.buckets[0] as RollUpBucket;

  test.each([
    ['bad counts', { counts: countsOf(true), quality: 'bad' }, 20],
    ['bad counts of another size', { counts: cumulativeCounts({ 4: 7000 }), quality: 'bad' }, 20],
    ['counts that are called bad and not there', { qualities: { counts: 'bad' } }, 20],
    ['too many to count there', { codes: { iso4406: '*/*/15' } }, 20],
    ['too many to count elsewhere', { codes: { iso4406: '*/18/15' } }, 0],
    ['a code', { codes: { iso4406: '20/18/15' } }, 0],
    ['a bad temperature alone', { celsius: 5, figureQualities: { celsius: 'bad' } }, 0],
  ])('counts: %s', (_name, members, expected) => {
    expect(badMs(members, at6)).toBe(expected);
  });

  test.each([
    ['a bad temperature', { celsius: 5, figureQualities: { celsius: 'bad' } }, 20],
    ['a temperature that is called bad and not there', { qualities: { celsius: 'bad' } }, 20],
    ['the verdict calls it bad', { figureQualities: { celsius: 'bad' } }, 20],
    ['bad counts alone', { counts: countsOf(true), quality: 'bad' }, 0],
  ])('temperature: %s', (_name, members, expected) => {
    expect(badMs(members, celsius)).toBe(expected);
  });

  test('the hold: what lacks the figure does not make it stand longer', () => {
    const rows = [0, 1, 2, 3].map((i) => ({ time: i * hour, ...(i % 3 === 0 ? from : {}), celsius: 20 }));
    const list = rows.map((row, i) => ({ ...row, time: i * hour }));
    expect(sizeOf(list, 6)).toMatchObject({ valuedMs: hour, gapMs: 2 * hour, badMs: 0 });
  });
});

/** Rows that have some of: all sizes, one size, a code, `*`, a temperature, and words of trust. */
const row = fc.record(
  {
    counts: fc.constantFrom(countsOf(true), countsOf(false), cumulativeCounts({ 4: 7000 })),
    codes: fc.constantFrom({ iso4406: '20/18/15' }, { iso4406: '*/*/15' }, {}),
    celsius: fc.integer({ min: 0, max: 80 }),
    qualities: fc.constantFrom({ counts: 'bad' as const }, { celsius: 'bad' as const }, {}),
  },
  { requiredKeys: [] },
);
const rows = fc.array(fc.tuple(fc.integer({ min: 0, max: 90 }), row), { minLength: 1, maxLength: 20 }).map((list) => {
  let time = 0;
  return list.map(([step, members]): ReportReading => {
    time += step * minute;
    return { time, ...members };
  });
});

test('parts merged are the whole, size by size and figure by figure', () => {
  const hours = { widthMs: hour, holdMs: 45 * minute };
  fc.assert(
    fc.property(rows, fc.nat(), (list, cut) => {
      const at = cut % (list.length + 1);
      const parts = [list.slice(0, at), list.slice(at)] as const;
      // of one time alike rows are one: they stay in one part
      fc.pre(parts[0][at - 1]?.time !== parts[1][0]?.time);
      const all = (part: readonly ReportReading[]) => {
        const buckets: Record<string, readonly RollUpBucket[]> = {
          celsius: figureBuckets(part, ['celsius'], hours)[0]?.buckets ?? [],
        };
        for (const each of countBuckets(part, hours)) buckets[each.size] = each.buckets;
        return buckets;
      };
      const [earlier, later, whole] = [all(parts[0]), all(parts[1]), all(list)];
      // a part in which nobody counted a size has no list of it
      for (const name of Object.keys(whole).filter((each) => earlier[each] && later[each])) {
        const merged = mergeRollUps(earlier[name] ?? [], later[name] ?? [], hours);
        expect(merged).toEqual(whole[name]);
      }
    }),
    { numRuns: some(1000, 100) },
  );
});

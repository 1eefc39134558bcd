/** Days make months: finer buckets, joined into coarser ones, equal one roll-up of the readings, to the last bit. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bucketQuantile,
  mergeRollUps,
  type RollUpOptions,
  type RollUpReading,
  rollUp,
} from '../../../src/history/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { some } from '../../volume.ts';

const readings: fc.Arbitrary<RollUpReading[]> = fc
  .array(
    fc.record({
      after: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 400 })),
      value: fc.option(fc.oneof(fc.integer({ min: -29, max: 29 }), fc.double({ min: 1e-9, max: 1e9, noNaN: true })), {
        freq: 6,
      }),
      quality: fc.constantFrom('good' as const, 'good' as const, 'uncertain' as const, 'bad' as const),
      particles: fc.option(fc.integer({ min: 0, max: 1e6 }), { freq: 3 }),
      code: fc.constantFrom<NonNullable<RollUpReading['scaleNumbers']>>(
        [14, 12],
        [{ atLeast: 15 }, null],
        [null, { atMost: 9 }],
        [14, 0],
      ),
    }),
    { maxLength: 30 },
  )
  .map((steps) => {
    let time = 3;
    return steps.map(({ after, value, quality, code, particles }) => {
      time += after;
      const reading = { time, value, quality, scaleNumbers: code };
      return particles === null
        ? reading
        : { ...reading, counted: [particles + 7, particles], volumeMl: (1 + (particles % 70)) / 7 };
    });
  });

/** Fine buckets 50 wide, and edges that are edges of theirs. */
const edges = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 300, maxLength: 300 }).map((steps) => {
  let edge = 0;
  return [0, ...steps.map((step) => (edge += step * 50))];
});
const coarse = fc.oneof(
  fc.integer({ min: 1, max: 12 }).map((times) => ({ widthMs: times * 50 })),
  fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: -9, max: 9 })).map(([times, from]) => ({
    ...{ widthMs: times * 50, originMs: from * 50 },
  })),
  edges.map((all) => ({ edges: all })),
);

describe('finer buckets', () => {
  test('make those of one roll-up, wherever the parts are cut', () => {
    fc.assert(
      fc.property(
        readings,
        coarse,
        fc.integer({ min: 1, max: 300 }),
        fc.boolean(),
        fc.nat(),
        (list, wide, holdMs, levels, at) => {
          const fine = { widthMs: 50, holdMs, levels };
          const wanted = { ...wide, holdMs, levels } as RollUpOptions;
          const whole = rollUp(list, wanted);
          expect(mergeRollUps(rollUp(list, fine), [], wanted)).toEqual(whole);
          expect(mergeRollUps([], rollUp(list, fine), wanted)).toEqual(whole);
          const cut = at % (list.length + 1);
          const parts = [rollUp(list.slice(0, cut), fine), rollUp(list.slice(cut), fine)] as const;
          expect(mergeRollUps(...parts, wanted)).toEqual(whole);
          expect(mergeRollUps(parts[0], rollUp(list.slice(cut), wanted), wanted)).toEqual(whole);
          const saved = JSON.parse(JSON.stringify(mergeRollUps(...parts, fine)));
          expect(mergeRollUps(saved, [], wanted)).toEqual(whole);
        },
      ),
      { numRuns: some(2000) },
    );
  });

  test('that do not fit are refused by the first that does not', () => {
    const days = rollUp(
      [
        { time: 0, value: 1 },
        { time: 150, value: 2 },
      ],
      { widthMs: 100, holdMs: 90 },
    );
    const words = 'buckets that lie within those of the options: of their width or edges, or finer';
    for (const [place, wide] of [
      [1, { widthMs: 150 }],
      [0, { widthMs: 50 }],
      [0, { widthMs: 200, originMs: 50 }],
      [1, { edges: [0, 100] }],
      [0, { edges: [0, 50, 200] }],
      [0, { edges: [100, 200] }],
    ] as const)
      expectRefused('not_convertible', `earlier[${place}]`, words, () =>
        mergeRollUps(days, [], { ...wide, holdMs: 90 } as RollUpOptions),
      );
    expect(mergeRollUps(days, [], { widthMs: 200, holdMs: 90 })).toHaveLength(1);
  });
});

test('a month of days has the median of its readings', () => {
  const day = 864e5;
  const how = { holdMs: 7.2e6, levels: true };
  const list = Array.from({ length: 31 * 24 }, (_unused, i) => ({ time: i * 36e5, value: 400 + ((i * 37) % 101) }));
  const month = { ...how, edges: [0, 31 * day] };
  const [joined] = mergeRollUps(rollUp(list, { ...how, widthMs: day }), [], month);
  expect(joined).toEqual(rollUp(list, month)[0]);
  expect(joined && bucketQuantile(joined, 0.5)).toBeCloseTo(450, -1);
});

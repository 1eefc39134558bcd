/**
 * Buckets between edges: like those of one width where the edges are at one distance; local days and months; parts
 * merge to the whole.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mergeRollUps, rollUp } from '../../../src/history/index.ts';
import { some } from '../../volume.ts';

const hour = 3600000;
const readings = fc
  .array(fc.record({ time: fc.integer({ min: 0, max: 999 }), value: fc.integer({ min: 0, max: 50 }) }), {
    minLength: 1,
    maxLength: 30,
  })
  .map((list) => list.sort((a, b) => a.time - b.time));
const edges = fc
  .uniqueArray(fc.integer({ min: 1, max: 999 }), { maxLength: 12 })
  .map((list) => [0, ...list.sort((a, b) => a - b), 1000]);

describe('edges', () => {
  test('at one distance give the buckets of that width', () => {
    fc.assert(
      fc.property(
        readings,
        fc.integer({ min: 50, max: 400 }),
        fc.integer({ min: 1, max: 500 }),
        (list, widthMs, holdMs) => {
          const even = Array.from({ length: Math.ceil(1000 / widthMs) + 1 }, (_unused, i) => i * widthMs);
          expect(rollUp(list, { edges: even, holdMs })).toEqual(rollUp(list, { widthMs, holdMs }));
        },
      ),
      { numRuns: some(500) },
    );
  });

  test('of any kind: each reading counts once, in its bucket, and parts merge to the whole', () => {
    fc.assert(
      fc.property(readings, edges, fc.integer({ min: 1, max: 500 }), fc.nat(30), (list, own, holdMs, at) => {
        const options = { edges: own, holdMs };
        const whole = rollUp(list, options);
        for (const { start, widthMs, count } of whole) {
          expect(own[own.indexOf(start) + 1]).toBe(start + widthMs);
          expect(count).toBe(list.filter(({ time }) => time >= start && time < start + widthMs).length);
        }
        const cut = Math.min(at, list.length);
        expect(mergeRollUps(rollUp(list.slice(0, cut), options), rollUp(list.slice(cut), options), options)).toEqual(
          whole,
        );
      }),
      { numRuns: some(500) },
    );
  });

  test('a local day has 23 hours where clocks are put forward, and a month its days', () => {
    const days = [
      Date.UTC(2026, 2, 27, 23),
      Date.UTC(2026, 2, 28, 23),
      Date.UTC(2026, 2, 29, 22),
      Date.UTC(2026, 2, 30, 22),
    ];
    const list = Array.from({ length: 60 }, (_unused, i) => ({ time: (days[0] as number) + i * hour, value: 1 }));
    expect(rollUp(list, { edges: days, holdMs: hour }).map(({ count }) => count)).toEqual([24, 23, 13]);
  });

  test.each<[string, string, object]>([
    ['too_few', 'options.edges', { edges: [0], holdMs: 1 }],
    ['wrong_type', 'options.edges', { edges: 5, holdMs: 1 }],
    ['out_of_range', 'options.edges[1]', { edges: [5, 5], holdMs: 1 }],
    ['not_an_integer', 'options.edges[1]', { edges: [0, 5.5], holdMs: 1 }],
    ['bad_configuration', 'options.widthMs', { edges: [0, 5], widthMs: 5, holdMs: 1 }],
    ['out_of_range', 'readings[1].time', { edges: [0, 5], holdMs: 1 }],
  ])('%s on %s', (code, parameter, options) => {
    const list = [0, 7].map((time) => ({ time, value: 1 }));
    expect(() => rollUp(list, options as never)).toThrowError(expect.objectContaining({ code, parameter }));
  });
});

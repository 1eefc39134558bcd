/** Numbers as short text come back as they were. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { keptChange, openChange } from '../../../src/monitor/followed/means.ts';
import { shorten } from '../../../src/numeric/shorten.ts';
import {
  figureAt,
  isPacked,
  packFigure,
  packTime,
  packWhole,
  timeAt,
  timeChars,
  wholeAt,
} from '../../../src/state/packed.ts';
import { startChange } from '../../../src/trend/index.ts';

test('an exact figure takes ten characters that JSON does not escape', () => {
  const figure = fc.oneof(
    fc.double({ min: -2e60, max: 2e60, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
    fc.integer(),
    fc.constantFrom(0, 1, -1, 1e60, 2 ** 52 - 1, 1 / 3),
  );
  fc.assert(
    fc.property(figure, (x) => {
      const text = packFigure(x);
      expect(JSON.stringify(text)).toHaveLength(12);
      expect(isPacked(text, 10, 1)).toBe(true);
      expect(figureAt(`##${text}`, 2)).toBe(Math.abs(x) < 1e-300 ? 0 : x);
    }),
    { numRuns: 5000 },
  );
});

test('whole numbers up to the most that fit', () => {
  fc.assert(
    fc.property(fc.nat({ max: 91 ** 4 - 1 }), (n) => {
      expect(wholeAt(packWhole(n, 4), 0, 4)).toBe(n);
    }),
  );
});

test('a time takes nine characters, also one twice as far from 1970 as any', () => {
  const power = 91 ** 8;
  // where a quotient may be rounded up to a whole number
  const edges = [-3, -2, -1, 0, 1, 2, 3].flatMap((k) => [-2, -1, 0, 1, 2].map((off) => k * power + off));
  const far = { min: -17.28e15, max: 17.28e15, noNaN: true };
  const time = fc.oneof(fc.double(far).map(Math.round), fc.constantFrom(...edges, -17.28e15, 17.28e15));
  fc.assert(
    fc.property(time, (t) => {
      const text = packTime(t);
      expect(text).toHaveLength(timeChars);
      expect(isPacked(text, timeChars, 1)).toBe(true);
      expect(timeAt(`#${text}`, 1)).toBe(t + 0);
    }),
    { numRuns: 500 },
  );
});

test('means of seven digits come back within half a unit of the largest, the largest exactly', () => {
  const mean = fc
    .tuple(fc.integer({ min: -9999999, max: 9999999 }), fc.integer({ min: -18, max: 20 }))
    .map(([digits, exponent]) => shorten(digits * 10 ** exponent));
  fc.assert(
    fc.property(fc.array(fc.option(mean, { freq: 4 }), { maxLength: 63 }), (ring) => {
      const kept = keptChange({ ...startChange(), ring });
      expect(kept).toHaveLength(36 + 4 * ring.length);
      const opened = openChange(kept);
      const largest = Math.max(0, ...ring.map((one) => Math.abs(one ?? 0)));
      ring.forEach((one, i) => {
        const back = opened.ring[i] as number | null;
        if (one === null || back === null) expect(back).toBe(one);
        else
          expect(Math.abs(back - one)).toBeLessThanOrEqual(
            Math.abs(one) === largest ? 1e-15 * largest : 1e-6 * largest,
          );
      });
      expect(keptChange(opened)).toEqual(kept);
    }),
    { numRuns: 2000 },
  );
});

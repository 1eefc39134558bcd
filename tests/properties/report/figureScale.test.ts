/** The scale of a figure that is no count: round marks, few of them, and every value between the ends. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { figureScale } from '../../../src/report/charts/figureScale.ts';
import { some } from '../../volume.ts';

const marksOf = (values: readonly number[]) => figureScale(values, 60).marks as readonly number[];

describe('marks, by hand', () => {
  test.each<[string, readonly number[], readonly number[]]>([
    ['no value', [], [0, 0.25, 0.5, 0.75, 1]],
    ['nothing but 0', [0, 0], [-1, -0.5, 0, 0.5, 1]],
    ['one value: a twentieth of it to each side', [5], [4.6, 4.8, 5, 5.2, 5.4]],
    ['one value below 0', [-20], [-21, -20.5, -20, -19.5, -19]],
    ['in no order', [7, 50, 3, 12], [0, 20, 40, 60]],
    ['four steps are enough, five too many', [1, 5], [1, 2, 3, 4, 5]],
    ['five steps of 1, of 2 three', [1, 6], [0, 2, 4, 6]],
    ['from below 0 to above', [-3, 4], [-4, -2, 0, 2, 4]],
    ['no mark is 0.30000000000000004', [0.1, 0.4], [0.1, 0.2, 0.3, 0.4]],
    ['the finest step', [0, 4e-12], [0, 1e-12, 2e-12, 3e-12, 4e-12]],
    ['finer than that', [0, 1e-13], [0, 1e-12]],
    ['the finest step of all that has a thousand', [999.9999999999999, 1000], [999.999999999999, 1000]],
    ['the coarsest step', [0, 4e14], [0, 1e14, 2e14, 3e14, 4e14]],
    ['coarser than that: the ends alone', [-5e15, 5e15], [-5e15, 5e15]],
  ])('%s', (_name, values, marks) => {
    expect(marksOf(values)).toEqual(marks);
  });

  test('the ends are the first and the last mark, and no 0 stands apart', () => {
    expect(figureScale([1, 6], 60)).toEqual({
      ...{ span: { low: 0, high: 6 }, domain: [0, 6], height: 60, zero: null, marks: [0, 2, 4, 6] },
    });
  });
});

test('values a rounding apart have marks that differ', () => {
  const apart = [9000, 20000, 123456.7, 1e9, 1e12, -20000, -1e9].map((value) => [value, value * (1 + 2 ** -52)]);
  // over a millionth of a millionth both come out as the same whole number
  for (const values of [...apart, [0.19999999999999998, 0.2], [98.89999999999999, 98.9]]) {
    expect(new Set(values).size).toBe(2);
    const marks = marksOf(values);
    expect([2, 3, 4, 5]).toContain(marks.length);
    expect(new Set(marks).size).toBe(marks.length);
    expect(marks.slice().sort((a, b) => a - b)).toEqual(marks);
  }
});

test('every value lies between the ends, with one to four equal steps', () => {
  const value = fc.oneof(
    fc.double({ min: -1e12, max: 1e12, noNaN: true }),
    fc.double({ min: -100, max: 300, noNaN: true }),
    fc.integer({ min: -50, max: 50 }),
  );
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 6 }), (values) => {
      const { span } = figureScale(values, 60);
      const marks = marksOf(values);
      // a quotient that rounds may take a value at an end to the other side of it
      const rounding = 1e-12 + 1e-14 * Math.max(-span.low, span.high);
      for (const one of values) {
        expect(one).toBeGreaterThanOrEqual(span.low - rounding);
        expect(one).toBeLessThanOrEqual(span.high + rounding);
      }
      expect(marks.length).toBeGreaterThan(1);
      expect(marks.length).toBeLessThan(6);
      const step = (span.high - span.low) / (marks.length - 1);
      marks.forEach((mark, i) => {
        expect(Math.abs(mark - (span.low + i * step))).toBeLessThanOrEqual(rounding);
      });
    }),
    { numRuns: some(3000) },
  );
});

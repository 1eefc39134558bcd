import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { continuousScaleNumber, iso4406, scaleNumber, scaleNumbers } from '../../../src/codes/index.ts';
import { countAtScaleNumber } from '../../../src/codes/scaleNumber.ts';
import { nextDown, nextUp, stream } from '../../doubles.ts';
import { some } from '../../volume.ts';

const limits = iso4406.limits.map(([limit]) => limit as number);
const counts = fc.double({ min: 0, max: 1e9, noNaN: true });

describe('scaleNumbers', () => {
  test('is scaleNumber of each, for a million counts of all magnitudes and beside every limit and power of two', () => {
    const random = stream(29);
    const edges = [...limits, ...Array.from({ length: 80 }, (_, i) => 2 ** (i - 40))];
    const all = [0, 5e-324, 1e308, ...edges.flatMap((edge) => [nextDown(edge), edge, nextUp(edge)])];
    while (all.length < some(1_000_000, 50_000)) all.push(10 ** (12 * random() - 4));
    const numbers = scaleNumbers(Float64Array.from(all));
    all.forEach((count, i) => {
      if (numbers[i] !== scaleNumber(count)) expect.fail(`${count}: ${numbers[i]}, not ${scaleNumber(count)}`);
    });
  });

  test('takes negative zero for zero, a view into a buffer, and an array to write into', () => {
    const column = Float64Array.of(-0, 1300, 1300.5, 0.01);
    expect(scaleNumbers(column)).toEqual(Uint8Array.of(0, 17, 18, 0));
    expect(scaleNumbers(column.subarray(1, 3))).toEqual(Uint8Array.of(17, 18));
    const into = new Uint8Array(6).fill(77);
    expect(scaleNumbers(column, into)).toBe(into);
    expect(into).toEqual(Uint8Array.of(0, 17, 18, 0, 77, 77));
  });

  test.each([
    ['negative', Float64Array.of(1, -5)],
    ['not_a_number', Float64Array.of(1, Number.NaN)],
    ['infinite', Float64Array.of(1, Infinity)],
  ] as const)('%s, with the index', (code, column) => {
    expect(() => scaleNumbers(column)).toThrowError(expect.objectContaining({ code, parameter: 'perMl[1]' }));
  });

  test('wrong type and length', () => {
    expect(() => scaleNumbers([1] as unknown as Float64Array)).toThrowError(
      expect.objectContaining({ code: 'wrong_type' }),
    );
    const short = () => scaleNumbers(new Float64Array(3), new Uint8Array(2));
    expect(short).toThrowError(expect.objectContaining({ code: 'length_mismatch' }));
  });
});

describe('continuousScaleNumber', () => {
  test('equals the scale number exactly at each upper limit', () => {
    limits.forEach((limit, number) => {
      expect(continuousScaleNumber(limit)).toBe(number);
    });
    expect(continuousScaleNumber(0)).toBe(-1);
    expect(continuousScaleNumber(5e6)).toBe(29);
    expect(continuousScaleNumber(2.5e6 * 2 ** 10)).toBe(38);
  });

  test('lies within one below the scale number', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 2.5e6, noNaN: true }), (count) => {
        const number = continuousScaleNumber(count);
        expect(number).toBeLessThanOrEqual(scaleNumber(count));
        expect(number).toBeGreaterThanOrEqual(scaleNumber(count) - 1);
      }),
    );
  });

  test('never falls: any two counts, and a million neighbouring doubles', () => {
    fc.assert(
      fc.property(counts, counts, (a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        expect(continuousScaleNumber(low)).toBeLessThanOrEqual(continuousScaleNumber(high));
      }),
      { numRuns: some(20_000) },
    );
    const random = stream(30);
    for (let i = 0; i < some(1_000_000, 50_000); i += 1) {
      const count = 10 ** (9 * random() - 3);
      if (continuousScaleNumber(nextUp(count)) < continuousScaleNumber(count)) expect.fail(`falls after ${count}`);
    }
    for (const limit of limits) {
      expect(continuousScaleNumber(nextDown(limit))).toBeLessThanOrEqual(continuousScaleNumber(limit));
      expect(continuousScaleNumber(limit)).toBeLessThanOrEqual(continuousScaleNumber(nextUp(limit)));
    }
  });

  test('follows the logarithm of the count', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.011, max: 2.4e6, noNaN: true }), (count) => {
        const number = scaleNumber(count);
        const [below, above] = [limits[number - 1] as number, limits[number] as number];
        const expected = number - 1 + Math.log(count / below) / Math.log(above / below);
        expect(continuousScaleNumber(count)).toBeCloseTo(expected, 12);
      }),
    );
  });
});

describe('countAtScaleNumber', () => {
  test('is the printed limit at each whole number, and doubles beyond the last', () => {
    limits.forEach((limit, number) => {
      expect(countAtScaleNumber(number)).toBe(limit);
    });
    expect(countAtScaleNumber(-1)).toBe(0);
    expect(countAtScaleNumber(-0.5)).toBe(0.005);
    expect(countAtScaleNumber(38)).toBe(2.5e6 * 2 ** 10);
  });

  test('reads continuousScaleNumber backwards, and never falls', () => {
    const number = fc.double({ min: -1, max: 46, noNaN: true });
    fc.assert(
      fc.property(number, number, (one, other) => {
        expect(Math.abs(continuousScaleNumber(countAtScaleNumber(one)) - one)).toBeLessThan(1e-12);
        const [low, high] = one < other ? [one, other] : [other, one];
        expect(countAtScaleNumber(low)).toBeLessThanOrEqual(countAtScaleNumber(high));
      }),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDecimals, proportion, scaleDecimal, subtractDecimals } from '../../../src/numeric/decimal.ts';
import { expm1, log10, power } from '../../../src/numeric/exponential.ts';
import { log1p } from '../../../src/numeric/logarithm.ts';
import { monotoneSpline, splineAt } from '../../../src/numeric/monotoneSpline.ts';
import { findRoot } from '../../../src/numeric/root.ts';
import { Exact, exactly, stream, ulpsOff } from '../../doubles.ts';
import { some } from '../../volume.ts';

describe('against 50 digits', () => {
  test('log1p, expm1, log10 and power stay within a few ulp', () => {
    const random = stream(4059);
    for (let i = 0; i < some(4000); i += 1) {
      const small = (random() - 0.5) * 2 ** (-30 * random());
      expect(ulpsOff(log1p(small), Exact.ln(exactly(small).plus(1)))).toBeLessThanOrEqual(2);
      expect(ulpsOff(expm1(small), Exact.exp(exactly(small)).minus(1))).toBeLessThanOrEqual(4);
      const x = 1e6 * random() + 1e-6;
      expect(ulpsOff(log10(x), Exact.log10(exactly(x)))).toBeLessThanOrEqual(3);
      const y = 4 * (random() - 0.5);
      const truth = Exact.exp(Exact.ln(exactly(x)).times(exactly(y)));
      const allowed = 2 ** -52 * (1 + Math.abs(y * Math.log(x)));
      expect(exactly(power(x, y)).minus(truth).abs().dividedBy(truth).toNumber()).toBeLessThanOrEqual(allowed);
    }
    for (let n = -15; n <= 22; n += 1) expect(log10(Number(`1e${n}`))).toBe(n);
  });
});

describe('findRoot', () => {
  test('finds the root of any monotone cubic to the last digits', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (root, bend) => {
          const found = findRoot((x) => (x - root) * (1 + bend * (x - root) * (x - root)), -101.5, 103.7);
          expect(Math.abs(found - root)).toBeLessThanOrEqual(4e-14 * Math.max(Math.abs(root), 1e-3));
        },
      ),
    );
  });

  test('refuses a span without a change of sign', () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrowError(expect.objectContaining({ code: 'no_answer' }));
  });
});

describe('monotoneSpline', () => {
  const points = fc.array(fc.tuple(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 0, max: 500 })), {
    minLength: 2,
    maxLength: 12,
  });

  test('passes through its points and never turns', () => {
    fc.assert(
      fc.property(points, (steps) => {
        const sumUpTo = (i: number, side: 0 | 1) =>
          steps.slice(0, i + 1).reduce((sum, step) => sum + step[side], 0) / 100;
        const xs = steps.map((_step, i) => sumUpTo(i, 0));
        const ys = steps.map((_step, i) => -sumUpTo(i, 1));
        const spline = monotoneSpline(xs, ys);
        xs.forEach((position, i) => {
          expect(splineAt(spline, position)).toBeCloseTo(ys[i] as number, 12);
        });
        let before = Infinity;
        for (let i = 0; i <= 400; i += 1) {
          const height = splineAt(spline, (xs[0] as number) + ((xs.at(-1) as number) - (xs[0] as number)) * (i / 400));
          expect(height).toBeLessThanOrEqual(before + 1e-12);
          before = height;
        }
      }),
    );
  });
});

describe('decimals', () => {
  const cents = fc.integer({ min: 0, max: 1e9 });

  test('sums and differences of short decimals are the doubles nearest to the true values', () => {
    fc.assert(
      fc.property(cents, cents, (a, b) => {
        expect(subtractDecimals(a / 100, b / 100)).toBe((a - b) / 100);
        expect(addDecimals(a / 1000, b / 1000)).toBe((a + b) / 1000);
        expect(scaleDecimal(a / 100, 100, 1)).toBe(a);
        expect(scaleDecimal(a, 1, 100)).toBe(a / 100);
      }),
    );
  });

  test('a proportion is the double nearest to the true value', () => {
    const counts = fc.integer({ min: 0, max: 1e7 });
    fc.assert(
      fc.property(
        counts,
        fc.integer({ min: 1, max: 1000 }),
        fc.integer({ min: 1, max: 1_000_000 }),
        (counted, dilution, microlitres) => {
          const truth = new Exact(counted).times(dilution).times(1000).dividedBy(microlitres);
          expect(proportion(counted, dilution, microlitres / 1000)).toBe(truth.toNumber());
        },
      ),
    );
  });

  test('numbers that are no short decimals are still computed', () => {
    expect(subtractDecimals(1 / 3, 1 / 7)).toBeCloseTo(4 / 21, 15);
    expect(scaleDecimal(1 / 3, 100, 1)).toBeCloseTo(100 / 3, 12);
    expect(proportion(1, Math.PI, 2)).toBeCloseTo(Math.PI / 2, 15);
  });
});

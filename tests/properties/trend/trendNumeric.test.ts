/**
 * The normal distribution and the exact sums that trends rest on, against decimal arithmetic and a general statistics
 * library.
 */
import gammaQuantile from '@stdlib/stats-base-dists-gamma-quantile';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addExactly, canonicalSum, productError, roundedSum, sumError } from '../../../src/numeric/exactSum.ts';
import { normalBelow, normalQuantile } from '../../../src/numeric/normal.ts';
import { some } from '../../volume.ts';

const Wide = Decimal.clone({ precision: 420, toExpNeg: -5000, toExpPos: 5000 });

/** Exactly the double, not its shortest decimal. */
function wide(x: number): Decimal {
  let whole = x;
  let halvings = 0;
  while (whole !== Math.floor(whole)) {
    whole *= 2;
    halvings += 1;
  }
  return new Wide(BigInt(whole).toString()).div(new Wide(2).pow(halvings));
}

const wideSum = (terms: readonly number[]) => terms.reduce((sum, term) => sum.plus(wide(term)), new Wide(0));

/** P(Z <= z) from its power series in 80 digits: the definition, with none of the library's shortcuts. */
function decimalNormalBelow(z: number): Decimal {
  const D = Decimal.clone({ precision: 80 + Math.ceil(z * z) });
  const x = new D(wide(z));
  let term = x;
  let sum = x;
  for (let n = 1; term.abs().greaterThan(new D(10).pow(-70 - z * z)); n += 1) {
    term = term
      .times(x)
      .times(x)
      .negated()
      .div(2 * n);
    sum = sum.plus(term.div(2 * n + 1));
  }
  return sum.div(D.acos(-1).times(2).sqrt()).plus(0.5);
}

describe('normal distribution', () => {
  test.each([-12, -8, -5, -3.5, -2, -1.5001, -1.5, -1.4999, -1, -0.3, -1e-9, 0, 0.7, 1.959963984540054, 2.5, 4, 8])(
    'chance below %s, to 1e-14',
    (z) => {
      const exact = decimalNormalBelow(z);
      expect(Math.abs(exact.minus(normalBelow(z)).div(exact).toNumber())).toBeLessThan(1e-14);
    },
  );

  test('quantile undoes chance, tails included', () => {
    fc.assert(
      fc.property(fc.double({ min: -37, max: 0, noNaN: true }), (z) => {
        expect(Math.abs(normalQuantile(normalBelow(z)) - z)).toBeLessThan(2e-14 * Math.max(1, -z));
      }),
    );
  });

  test('quantile: the square of z is a chi-squared value', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.9999, noNaN: true }), (confidence) => {
        const z = normalQuantile((1 + confidence) / 2);
        const expected = Math.sqrt(gammaQuantile(confidence, 0.5, 0.5));
        expect(Math.abs(z - expected)).toBeLessThan(1e-9 * Math.max(1, expected) + 1e-15 / expected);
      }),
    );
  });

  test('symmetric, and never falling', () => {
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15);
    fc.assert(
      fc.property(
        fc.double({ min: -38, max: 38, noNaN: true }),
        fc.double({ min: 1e-9, max: 1, noNaN: true }),
        (z, more) => {
          expect(normalBelow(z) + normalBelow(-z)).toBeCloseTo(1, 15);
          expect(normalBelow(z + more)).toBeGreaterThanOrEqual(normalBelow(z));
        },
      ),
    );
  });
});

describe('exact sums', () => {
  const number = fc
    .tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.integer({ min: -60, max: 60 }))
    .map(([mantissa, exponent]) => (Math.abs(mantissa) < 1e-12 ? 0 : mantissa * 2 ** exponent));

  test('what rounding took is found exactly', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        expect(wideSum([a + b, sumError(a, b)]).equals(wideSum([a, b]))).toBe(true);
        expect(wideSum([a * b, productError(a, b)]).equals(wide(a).times(wide(b)))).toBe(true);
      }),
    );
  });

  test('the list adds up exactly, rounds to the nearest double, and is the same in any order', () => {
    const halves = fc.constantFrom(1, 2 ** -53, 2 ** -54, -(2 ** -53), 2 ** -106, -(2 ** -110), 3, 2 ** 53);
    fc.assert(
      fc.property(fc.array(fc.oneof(number, halves), { maxLength: 12 }), (terms) => {
        const parts = terms.reduce<number[]>(addExactly, []);
        const backwards = [...terms].reverse().reduce<number[]>(addExactly, []);
        expect(wideSum(parts).equals(wideSum(terms))).toBe(true);
        expect(roundedSum(parts)).toBe(wideSum(terms).toNumber());
        expect(canonicalSum(parts)).toEqual(canonicalSum(backwards));
        expect(wideSum(canonicalSum(parts)).equals(wideSum(terms))).toBe(true);
      }),
      { numRuns: some(1000) },
    );
  });
});

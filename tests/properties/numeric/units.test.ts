import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import * as units from '../../../src/units.ts';

/**
 * A general-purpose unit library as second opinion, on the units it knows. Its own psi is 6e-11 off its pound-force and
 * inch (and off NIST SP 811), so the quotient of these stands for it.
 */
const conversions = [
  ['psiToKPa', units.psiToKPa, 'lbf/in^2', 'kPa'],
  ['kPaToPsi', units.kPaToPsi, 'kPa', 'lbf/in^2'],
  ['barToKPa', units.barToKPa, 'bar', 'kPa'],
  ['kPaToBar', units.kPaToBar, 'kPa', 'bar'],
  ['feetToMetres', units.feetToMetres, 'ft', 'm'],
  ['metresToFeet', units.metresToFeet, 'm', 'ft'],
  ['fahrenheitToCelsius', units.fahrenheitToCelsius, 'degF', 'degC'],
  ['celsiusToFahrenheit', units.celsiusToFahrenheit, 'degC', 'degF'],
] as const;

describe.each(conversions)('%s', (name, convert, from, to) => {
  test('agrees with the unit library', () => {
    fc.assert(
      fc.property(fc.double({ min: /^(psi|bar)To/.test(name) ? -1 : -200, max: 5000, noNaN: true }), (value) => {
        const other = unit(value, from).toNumber(to);
        // a sum with 32 or 459.67 is rounded at the size of its terms
        const size = Math.abs(other) + (to.startsWith('deg') ? 1000 : 1e-300);
        expect(Math.abs(convert(value) - other)).toBeLessThanOrEqual(1e-15 * size);
      }),
    );
  });
});

test('gallons and inches of mercury, as printed in NIST SP 811, 2008, appendix B.8', () => {
  expect(units.usGallonsToLitres(1)).toBe(3.785411784);
  expect(units.litresToUsGallons(3.785411784)).toBe(1);
  expect(units.inchHgToKPa(1)).toBe(3.386389);
  expect(units.kPaToInchHg(3.386389)).toBe(1);
  expect(units.psiToKPa(1)).toBeCloseTo(6.894757, 6);
});

test.each([
  ['not_a_number', () => units.psiToKPa(Number.NaN)],
  ['wrong_type', () => units.feetToMetres('6' as never)],
  ['out_of_range', () => units.fahrenheitToCelsius(1e308)],
  ['out_of_range', () => units.fahrenheitToCelsius(-500)],
  ['out_of_range', () => units.celsiusToFahrenheit(-273.2)],
  ['out_of_range', () => units.psiToKPa(-20)],
  ['out_of_range', () => units.barToKPa(-2)],
  ['out_of_range', () => units.inchHgToKPa(-33)],
])('%s', (code, call) => {
  expect(call).toThrowError(expect.objectContaining({ name: 'MotescaleError', code }));
});

test('absolute zero, and a full vacuum as gauges show it, are taken; a difference of pressures, too', () => {
  expect(units.fahrenheitToCelsius(-459.67)).toBeCloseTo(-273.15, 10);
  expect(units.celsiusToFahrenheit(-273.15)).toBeCloseTo(-459.67, 10);
  for (const vacuum of [units.psiToKPa(-14.7), units.barToKPa(-1.013), units.inchHgToKPa(-29.92)])
    expect(vacuum).toBeCloseTo(-101.3, 0);
  expect(units.kPaToPsi(-300)).toBeCloseTo(-43.5, 1);
});

import { describe, expect, test } from 'vitest';
import { fahrenheitToCelsius } from '../../../src/units.ts';
import { pressureViscosityFactor, viscosityAt, viscosityLine } from '../../../src/viscosity/index.ts';
import d341 from './d341.json' with { type: 'json' };
import grades from './grades.json' with { type: 'json' };

const at = (celsius: number, mm2PerS: number) => ({ celsius, mm2PerS });

describe(d341.short.source, () => {
  test.each(d341.short.points)('$f °F: $expected mm2/s', ({ f1, v1, f2, v2, f, expected, tolerance }) => {
    const points = [at(fahrenheitToCelsius(f1), v1), at(fahrenheitToCelsius(f2), v2)];
    const actual = viscosityAt(viscosityLine(points, { form: 'short' }), fahrenheitToCelsius(f));
    expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe(d341.full.source, () => {
  test.each(d341.full.points)('$c °C: $expected mm2/s', ({ c1, v1, c2, v2, c, expected, tolerance }) => {
    const actual = viscosityAt(viscosityLine([at(c1, v1), at(c2, v2)]), c);
    expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance);
  });
});

test(d341.coefficients.source, () => {
  const { kelvinOffset, c1, v1, c2, v2, a, b, tolerance } = d341.coefficients;
  const shift = kelvinOffset - 273.15;
  const line = viscosityLine([at(c1 + shift, v1), at(c2 + shift, v2)]);
  expect(Math.abs(line.a - a)).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(line.b - b)).toBeLessThanOrEqual(tolerance);
});

test(d341.tellsFormsApart.source, () => {
  const [{ f1, v1, f2, v2, f }] = d341.short.points as [(typeof d341.short.points)[0]];
  const points = [at(fahrenheitToCelsius(f1), v1), at(fahrenheitToCelsius(f2), v2)];
  const { full, short, tolerance } = d341.tellsFormsApart;
  expect(Math.abs(viscosityAt(viscosityLine(points), fahrenheitToCelsius(f)) - full)).toBeLessThanOrEqual(tolerance);
  const inShort = viscosityAt(viscosityLine(points, { form: 'short' }), fahrenheitToCelsius(f));
  expect(Math.abs(inShort - short)).toBeLessThanOrEqual(tolerance);
});

describe(grades.barus.source, () => {
  test.each(grades.barus.points)('$kPa kPa: $factor', ({ alphaPerPa, kPa, factor, tolerance }) => {
    expect(Math.abs(pressureViscosityFactor(kPa, alphaPerPa) - factor)).toBeLessThanOrEqual(tolerance);
  });
});

import { describe, expect, test } from 'vitest';
import { fahrenheitToCelsius } from '../../../src/units.ts';
import { convertViscosity, type ViscosityScale } from '../../../src/viscosity/index.ts';
import d2161 from './d2161.json' with { type: 'json' };
import efflux from './efflux.json' with { type: 'json' };

const convert = (value: number, from: string, to: string, fahrenheit = 100) =>
  convertViscosity(value, from as ViscosityScale, to as ViscosityScale, { celsius: fahrenheitToCelsius(fahrenheit) });

describe.each([d2161.api, d2161.ends])('$source', ({ points }) => {
  test.each(points)('$mm2PerS mm2/s at $fahrenheit °F: $seconds $scale', (point) => {
    const actual = convert(point.mm2PerS, 'mm2/s', point.scale, point.fahrenheit);
    expect(Math.abs(actual - point.seconds)).toBeLessThanOrEqual(point.tolerance);
  });
});

describe(d2161.factor.source, () => {
  test.each(d2161.factor.points)('$factor at $fahrenheit °F', ({ fahrenheit, factor, tolerance }) => {
    const actual = convert(100000, 'mm2/s', 'SUS', fahrenheit) / 100000;
    expect(Math.abs(actual - factor)).toBeLessThanOrEqual(tolerance);
  });
});

describe(d2161.handbook.source, () => {
  test.each(d2161.handbook.points)('$mm2PerS mm2/s: $seconds SUS', ({ mm2PerS, seconds }) => {
    const allowed = Math.max(d2161.handbook.relativeTolerance * seconds, d2161.handbook.tolerance);
    expect(Math.abs(convertViscosity(mm2PerS, 'mm2/s', 'SUS') - seconds)).toBeLessThanOrEqual(allowed);
  });
});

test(d2161.rejected.source, () => {
  expect(() => convertViscosity(d2161.rejected.mm2PerS, 'mm2/s', 'SUS')).toThrow('ASTM D2161');
});

test.each(d2161.furolHandbook.points)('$mm2PerS mm2/s: 3 to 4 % above the $seconds SFS of the handbook', (point) => {
  const above = convertViscosity(point.mm2PerS, 'mm2/s', 'SFS') / point.seconds - 1;
  expect(above).toBeGreaterThan(0.029);
  expect(above).toBeLessThan(0.04);
});

describe.each(efflux.handbook)('$source', ({ scale, relativeTolerance, points }) => {
  test.each(points)('$reading: $mm2PerS mm2/s', ({ reading, mm2PerS }) => {
    expect(Math.abs(convert(reading, scale, 'mm2/s') / mm2PerS - 1)).toBeLessThanOrEqual(relativeTolerance);
  });
});

describe(efflux.formulas.source, () => {
  test.each(efflux.formulas.points)('$scale $reading: $mm2PerS mm2/s', ({ scale, reading, mm2PerS, tolerance }) => {
    expect(Math.abs(convert(reading, scale, 'mm2/s') - mm2PerS)).toBeLessThanOrEqual(tolerance);
  });
});

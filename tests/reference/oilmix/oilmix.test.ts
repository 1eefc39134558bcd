import { describe, expect, test } from 'vitest';
import { fahrenheitToCelsius } from '../../../src/units.ts';
import { apiOfRelativeDensity, relativeDensityOfApi } from '../../../src/viscosity/apiGravity.ts';
import { blendViscosity, refutasNumber } from '../../../src/viscosity/blending.ts';
import { densityAt, densityAt15Of60F } from '../../../src/viscosity/density.ts';
import blending from './blending.json' with { type: 'json' };
import density from './density.json' with { type: 'json' };

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);
const partsOf = (pairs: number[][]) =>
  pairs.map(([fraction, mm2PerS]) => ({ fraction: fraction as number, mm2PerS: mm2PerS as number }));

describe(density.apiGravity.source, () => {
  test.each(density.apiGravity.points)('$degreesApi °API is $relativeDensity', ({ degreesApi, relativeDensity }) => {
    expect(Math.abs(relativeDensityOfApi(degreesApi) - relativeDensity)).toBeLessThan(density.apiGravity.tolerance);
    // Half a unit of the fourth decimal is up to 0.012 °API.
    expect(Math.abs(apiOfRelativeDensity(relativeDensity) - degreesApi)).toBeLessThan(0.02);
  });
});

describe(density.factorAtBase.source, () => {
  test.each(density.factorAtBase.points)('$kgPerM3At60F kg/m3 at $fahrenheit °F', (point) => {
    const actual = densityAt(densityAt15Of60F(point.kgPerM3At60F), fahrenheitToCelsius(point.fahrenheit));
    expect(Math.abs(actual / point.kgPerM3At60F - point.factor)).toBeLessThan(density.factorAtBase.tolerance);
  });
});

describe(density.edition2004.source, () => {
  test.each(density.edition2004.points)('$kgPerM3At60F kg/m3 at $fahrenheit °F: $kgPerM3', (point) => {
    const actual = densityAt(densityAt15Of60F(point.kgPerM3At60F), fahrenheitToCelsius(point.fahrenheit));
    expect(relative(actual, point.kgPerM3)).toBeLessThan(density.edition2004.relativeTolerance);
  });
});

describe(density.edition1980.source, () => {
  test.each(density.edition1980.points)('$kgPerM3At15 kg/m3 at $celsius °C: $kgPerM3', (point) => {
    const actual = densityAt(point.kgPerM3At15, point.celsius);
    expect(relative(actual, point.kgPerM3)).toBeLessThan(density.edition1980.relativeTolerance);
  });
});

describe(blending.identities.source, () => {
  test.each(blending.identities.points)('$fractions of $mm2PerS', ({ mm2PerS, fractions }) => {
    const parts = fractions.map((fraction) => ({ fraction, mm2PerS }));
    for (const method of ['astm', 'refutas'] as const) {
      expect(relative(blendViscosity(parts, method), mm2PerS)).toBeLessThan(blending.identities.relativeTolerance);
    }
    const number = refutasNumber(mm2PerS);
    const back = Math.exp(Math.exp((number - 10.975) / 14.534)) - 0.8;
    expect(relative(back, mm2PerS)).toBeLessThan(blending.identities.relativeTolerance);
  });
});

describe.each(['astm', 'refutas'] as const)('%s', (method) => {
  const table = blending[method];
  test.each(table.points)(`$parts: $mm2PerS (${table.source})`, ({ parts, mm2PerS }) => {
    expect(relative(blendViscosity(partsOf(parts), method), mm2PerS)).toBeLessThan(table.relativeTolerance);
  });
});

import { describe, expect, test } from 'vitest';
import {
  condensationTemperature,
  dewPoint,
  insulatingOil,
  mineralInsulatingOil,
  relativeSaturation,
  saturationPressure,
  saturationTemperature,
  solubilityAt,
  solubilityLine,
} from '../../../src/water/index.ts';
import water from './water.json' with { type: 'json' };

const off = (actual: number, expected: number) => Math.abs(actual - expected);
const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);

describe.each([water.saturationPressure, water.secondLibrary])('$source', ({ points, relativeTolerance }) => {
  test.each(points)('$kelvin K: $kPa kPa', ({ kelvin, kPa }) => {
    expect(relative(saturationPressure(kelvin - 273.15), kPa)).toBeLessThan(relativeTolerance);
  });
});

describe(water.saturationTemperature.source, () => {
  test.each(water.saturationTemperature.points)('$kPa kPa: $kelvin K', ({ kPa, kelvin }) => {
    expect(off(condensationTemperature(kPa) + 273.15, kelvin)).toBeLessThan(water.saturationTemperature.tolerance);
  });
});

describe(water.magnus.source, () => {
  test.each(water.magnus.points)('$celsius °C: $pascal Pa', ({ celsius, pascal }) => {
    expect(relative(saturationPressure(celsius) * 1000, pascal)).toBeLessThan(water.magnus.deviationOfPressure);
  });
});

describe(water.magnusDewPoint.source, () => {
  test.each(water.magnusDewPoint.points)('$celsius °C, $humidity: $dewPoint °C', (point) => {
    expect(off(dewPoint(point.celsius, point.humidity), point.dewPoint)).toBeLessThan(water.magnusDewPoint.tolerance);
  });
});

describe(water.mineralInsulatingOil.source, () => {
  const { points, relativeTolerance, tolerance } = water.mineralInsulatingOil;
  test.each(points)('$celsius °C: $mgPerKg mg/kg', ({ celsius, mgPerKg }) => {
    const allowed = Math.max(tolerance, relativeTolerance * mgPerKg);
    expect(off(solubilityAt(mineralInsulatingOil, celsius), mgPerKg)).toBeLessThanOrEqual(allowed);
  });

  test('a least-squares line through the table comes back to its slope', () => {
    expect(relative(solubilityLine(points).b, mineralInsulatingOil.b)).toBeLessThan(0.01);
  });
});

describe(water.insulatingOil.source, () => {
  test.each(water.insulatingOil.points)('$celsius °C, $aromaticPercent %, $mgKohPerG: $mgPerKg', (point) => {
    expect(
      off(
        solubilityAt(
          insulatingOil({ aromaticPercent: point.aromaticPercent, mgKohPerG: point.mgKohPerG }),
          point.celsius,
        ),
        point.mgPerKg,
      ),
    ).toBeLessThan(water.insulatingOil.tolerance);
  });
});

describe(water.regression.source, () => {
  const { tolerance, twoPoints } = water.regression;
  test('relative saturation', () => {
    const { mgPerKg, celsius, percent, ...line } = water.regression.relativeSaturation;
    expect(off(relativeSaturation(line, mgPerKg, celsius) * 100, percent)).toBeLessThan(tolerance);
  });
  test('temperature at which water comes out', () => {
    const { mgPerKg, celsius, ...line } = water.regression.saturationTemperature;
    expect(off(saturationTemperature(line, mgPerKg), celsius)).toBeLessThan(tolerance);
  });
  test('a line through two points', () => {
    const line = solubilityLine(twoPoints.points);
    expect(off(line.a, twoPoints.a)).toBeLessThan(tolerance);
    expect(off(line.b, twoPoints.b)).toBeLessThan(tolerance);
  });
});

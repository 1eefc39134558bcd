/** Printed and computed values of water in oil. */
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
import { type Row, rowsOf, value } from '../ledger.ts';
import water from './water.json' with { type: 'json' };

function steam(): Row[] {
  const { magnus, magnusDewPoint, saturationTemperature: condensation } = water;
  return [
    ...[water.saturationPressure, water.secondLibrary].flatMap((table) =>
      rowsOf(
        table,
        table.points.map(({ kelvin, kPa }) =>
          value('saturationPressure', { kelvin }, kPa, table.relativeTolerance * kPa, () =>
            saturationPressure(kelvin - 273.15),
          ),
        ),
      ),
    ),
    ...rowsOf(
      condensation,
      condensation.points.map(({ kPa, kelvin }) =>
        value(
          'condensationTemperature',
          { kPa },
          kelvin,
          condensation.tolerance,
          () => condensationTemperature(kPa) + 273.15,
        ),
      ),
    ),
    ...rowsOf(
      magnus,
      magnus.points.map(({ celsius, pascal }) =>
        value(
          'saturationPressure',
          { celsius },
          pascal,
          magnus.deviationOfPressure * pascal,
          () => saturationPressure(celsius) * 1000,
        ),
      ),
    ),
    ...rowsOf(
      magnusDewPoint,
      magnusDewPoint.points.map(({ celsius, humidity, dewPoint: expected }) =>
        value('dewPoint', { celsius, humidity }, expected, magnusDewPoint.tolerance, () => dewPoint(celsius, humidity)),
      ),
    ),
  ];
}

function oils(): Row[] {
  const { insulatingOil: another, mineralInsulatingOil: mineral, regression } = water;
  const { tolerance, twoPoints } = regression;
  const { mgPerKg, celsius, percent, ...line } = regression.relativeSaturation;
  const { mgPerKg: wet, celsius: comesOut, ...same } = regression.saturationTemperature;
  return [
    ...rowsOf(
      mineral,
      mineral.points.map((point) =>
        value(
          'solubilityAt',
          { celsius: point.celsius },
          point.mgPerKg,
          Math.max(mineral.tolerance, mineral.relativeTolerance * point.mgPerKg),
          () => solubilityAt(mineralInsulatingOil, point.celsius),
        ),
      ),
    ),
    ...rowsOf(
      another,
      another.points.map(({ mgPerKg: expected, celsius: at, ...oil }) =>
        value('insulatingOil', { ...oil, celsius: at }, expected, another.tolerance, () =>
          solubilityAt(insulatingOil(oil), at),
        ),
      ),
    ),
    ...rowsOf(regression, [
      value(
        'relativeSaturation',
        { ...line, mgPerKg, celsius },
        percent,
        tolerance,
        () => relativeSaturation(line, mgPerKg, celsius) * 100,
      ),
      value('saturationTemperature', { ...same, mgPerKg: wet }, comesOut, tolerance, () =>
        saturationTemperature(same, wet),
      ),
      ...(['a', 'b'] as const).map((name) =>
        value(
          'solubilityLine',
          twoPoints.points,
          twoPoints[name],
          tolerance,
          () => solubilityLine(twoPoints.points)[name],
          name,
        ),
      ),
    ]),
  ];
}

export const rows: readonly Row[] = [...steam(), ...oils()];

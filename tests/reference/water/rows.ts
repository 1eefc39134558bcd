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

/** The printed coefficients of two formulas, found again from what the functions give. */
function coefficients(): Row[] {
  const { magnusCoefficients: magnus, insulatingOilCoefficients: oil } = water;
  // at 0 °C the dew point t of a humidity h is offset ln h / (steepness - ln h)
  const air = () => {
    const [wet, dry] = [0.9, 0.3];
    const [x1, x2] = [1 / Math.log(wet), 1 / Math.log(dry)];
    const [y1, y2] = [1 / dewPoint(0, wet), 1 / dewPoint(0, dry)];
    const offset = -1 / (y1 - (x1 * (y2 - y1)) / (x2 - x1));
    return { steepness: (offset * (y2 - y1)) / (x2 - x1), offset };
  };
  const lineOf = (aromaticPercent: number, mgKohPerG: number) => insulatingOil({ aromaticPercent, mgKohPerG });
  const a = (aromaticPercent: number, mgKohPerG: number) => lineOf(aromaticPercent, mgKohPerG).a * Math.LN10;
  const found = {
    constant: () => a(10, 0.1) - 10 * found.aromatic() - 0.1 * found.acidity(),
    slope: () => lineOf(10, 0.1).b * Math.LN10,
    aromatic: () => (a(20, 0.1) - a(10, 0.1)) / 10,
    acidity: () => (a(10, 0.2) - a(10, 0.1)) / 0.1,
  };
  return [
    ...rowsOf(
      magnus,
      (['steepness', 'offset'] as const).map((name) =>
        value('dewPoint', { coefficient: name }, magnus[name], 1e-8 * magnus[name], () => air()[name]),
      ),
    ),
    ...rowsOf(
      oil,
      (['constant', 'slope', 'aromatic', 'acidity'] as const).map((name) =>
        value('insulatingOil', { coefficient: name }, oil[name], 1e-9 * oil.slope, () => found[name]()),
      ),
    ),
  ];
}

export const rows: readonly Row[] = [...steam(), ...oils(), ...coefficients()];

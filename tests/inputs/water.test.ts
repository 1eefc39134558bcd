/** Water at the ends of its ranges: what is refused, by which parameter and with what words, and what just passes. */
import { describe, expect, test } from 'vitest';
import { assessReading } from '../../src/reading/index.ts';
import {
  condensationTemperature,
  dewPoint,
  freeWater,
  insulatingOil,
  mineralInsulatingOil,
  saturationPressure,
  saturationTemperature,
  solubilityAt,
  solubilityLine,
} from '../../src/water/index.ts';
import { expectRefused, type Refused } from './refused.ts';

const point = (celsius: number, mgPerKg: number) => ({ celsius, mgPerKg });
const line = solubilityLine([point(20, 190), point(60, 720)]);
/** 1000 mg/kg at 20 °C. */
const sloped = (b: number) => ({ a: 3 + b / 293.15, b });

const flatOrSteep = (cold: number, dry: number, warm: number, wet: number) =>
  solubilityLine([point(cold, dry), point(warm, wet)]);

const refused: readonly Refused[] = [
  ['out_of_range', 'relativeHumidity', 'a share, 0.6 for 60 %, above 0, up to 1', () => dewPoint(20, 0)],
  ['out_of_range', 'relativeHumidity', 'dew point of -45', () => dewPoint(20, 1e-9)],
  ['out_of_range', 'kPa', 'a pressure in kPa from 0.61', () => condensationTemperature(0.6)],
  ['out_of_range', 'kPa', 'a pressure in kPa from 0.61', () => condensationTemperature(22065)],
  ['too_few', 'points', 'two or more', () => solubilityLine([point(20, 190), point(20, 200)])],
  ['out_of_range', 'points', 'rises with temperature', () => solubilityLine([point(20, 190), point(60, 190)])],
  ['out_of_range', 'points', '500 to 3000 K; these give 26661', () => flatOrSteep(20, 1, 30, 1000)],
  // 190 mg/kg at 20 °C and a warm sample that had dried: wet oil of 0.4 at 48 °C would come to 0.45 at 5 °C, not to 1.9
  ['out_of_range', 'points', '500 to 3000 K; these give 106', () => flatOrSteep(20, 190, 60, 210)],
  ['out_of_range', 'points[1].celsius', '°C of an oil', () => solubilityLine([point(20, 1), point(151, 10)])],
  ['out_of_range', 'line', 'a line that gives', () => solubilityAt({ a: -3, b: 1000 }, 20)],
  ['out_of_range', 'line', 'a line that gives', () => solubilityAt({ a: 20, b: 1000 }, 20)],
  ['out_of_range', 'line.b', 'from 500 to 3000 (slope of an oil in K)', () => solubilityAt(sloped(3000.001), 20)],
  ['out_of_range', 'line.b', 'from 500 to 3000 (slope of an oil in K)', () => solubilityAt(sloped(499.999), 20)],
  [
    'out_of_range',
    'limits.solubility.b',
    'in kelvin from 500 to 3000',
    () => assessReading({}, { solubility: sloped(300) }),
  ],
  ['out_of_range', 'celsius', '°C of an oil', () => solubilityAt(line, -51)],
  ['out_of_range', 'mgPerKg', 'mass of water in the oil', () => saturationTemperature(line, 1e7)],
  ['out_of_range', 'mgPerKg', 'from -50 to 150', () => saturationTemperature(line, 1)],
  ['out_of_range', 'mgPerKg', 'from -50 to 150', () => saturationTemperature({ a: 2, b: 1000 }, 1000)],
  ['out_of_range', 'mgPerKg', 'from -50 to 150', () => saturationTemperature({ a: 3, b: 1000 }, 1000)],
  ['out_of_range', 'mgPerKg', 'mass of water in the oil', () => freeWater(line, 2e6, 20)],
];

describe('refused', () => {
  test.each(refused)('%s %s, %s', expectRefused);
});

describe('the ends themselves pass', () => {
  test('a humidity of 1', () => {
    for (const celsius of [-45, 5.3, 20, 21.7, 60]) expect(dewPoint(celsius, 1)).toBe(celsius);
  });

  test('the least and the greatest pressure', () => {
    expect(condensationTemperature(saturationPressure(0))).toBe(0);
    expect(condensationTemperature(saturationPressure(0) * (1 - 9e-13))).toBe(0);
    expect(condensationTemperature(saturationPressure(373.946))).toBeCloseTo(373.946, 6);
    expect(condensationTemperature(saturationPressure(373.946) * (1 + 9e-13))).toBe(373.946);
  });

  test('the flattest and the steepest line, also through points of theirs', () => {
    for (const b of [500, 3000]) {
      expect(solubilityAt(sloped(b), 20)).toBeCloseTo(1000, 6);
      for (const [cold, warm] of [
        [10, 20],
        [-20, 80],
        [21.3, 31.9],
      ] as const) {
        const at = (celsius: number) => point(celsius, solubilityAt(sloped(b), celsius));
        expect(solubilityLine([at(cold), at(warm)]).b).toBeCloseTo(b, 6);
      }
    }
  });

  test('lines in print, and those of the pages', () => {
    for (const { b } of [
      mineralInsulatingOil,
      insulatingOil({ aromaticPercent: 0, mgKohPerG: 0 }),
      insulatingOil({ aromaticPercent: 30, mgKohPerG: 0.5 }),
      line,
      solubilityLine([point(24, 112 / 0.52), point(57, 161 / 0.24)]),
    ]) {
      expect(b).toBeGreaterThan(1050);
      expect(b).toBeLessThan(1850);
    }
  });

  test('the least and the greatest solubility', () => {
    const placed = (a: number) => ({ a: a + 1000 / 293.15, b: 1000 });
    expect(solubilityAt(placed(-3 + 1e-12), 20)).toBeCloseTo(0.001, 9);
    expect(solubilityAt(placed(6 - 1e-12), 20)).toBeCloseTo(1e6, 3);
  });

  test('the coldest and the hottest oil', () => {
    for (const celsius of [-50, 150])
      expect(saturationTemperature(line, solubilityAt(line, celsius))).toBeCloseTo(celsius, 9);
  });
});

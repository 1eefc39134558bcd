/** The walk through water/. */
import { spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';

const temperatures = [-40, -10, 0, 0.01, 20, 42.5, 60, 90, 150] as const;

export function walk(motescale: Library): void {
  const lines = [
    motescale.mineralInsulatingOil,
    motescale.insulatingOil({ aromaticPercent: 12, mgKohPerG: 0.05 }),
    motescale.solubilityLine([
      { celsius: 20, mgPerKg: 60 },
      { celsius: 70, mgPerKg: 400 },
    ]),
    motescale.solubilityLine([
      { celsius: 10, mgPerKg: 40 },
      { celsius: 40, mgPerKg: 150 },
      { celsius: 80, mgPerKg: 700 },
    ]),
  ];
  for (const celsius of temperatures) {
    motescale.saturationPressure(celsius);
    for (const humidity of [0, 0.05, 0.5, 1, 1.5]) motescale.dewPoint(celsius, humidity);
    for (const kPa of [0.5, 1, 7.25, 101.325, 4000]) motescale.condensationTemperature(kPa + celsius / 64);
    for (const line of lines) {
      motescale.solubilityAt(line, celsius);
      for (const mgPerKg of [0, 25, 180, 900]) {
        motescale.relativeSaturation(line, mgPerKg, celsius);
        motescale.freeWater(line, mgPerKg, celsius);
      }
      for (const saturation of [0, 0.125, 0.75, 1, 1.25]) {
        motescale.waterContent(line, saturation, celsius);
        motescale.saturationAfterCooling(line, { saturation, fromCelsius: 60, toCelsius: celsius });
      }
    }
  }
  for (const line of lines) {
    for (const mgPerKg of [0, 1, 25, 180, 900, 1e6]) motescale.saturationTemperature(line, mgPerKg);
  }
  walkOddInputs(motescale);
}

function walkOddInputs(motescale: Library): void {
  const line = { a: 7.5, b: 1600 };
  const points = [
    { celsius: 20, mgPerKg: 60 },
    { celsius: 70, mgPerKg: 400 },
  ];
  spoil(motescale.solubilityLine, [points]);
  spoil(motescale.solubilityAt, [line, 40]);
  spoil(motescale.saturationTemperature, [line, 100]);
  spoil(motescale.insulatingOil, [{ aromaticPercent: 12, mgKohPerG: 0.05 }]);
  spoil(motescale.saturationPressure, [40]);
  spoil(motescale.mgPerKgOfMgPerL, [175, 870]);
  spoil(motescale.mgPerLOfMgPerKg, [200, 870]);
  spoil(motescale.mgPerKgOfVolumePpm, [175, 870]);
  spoil(motescale.volumePpmOfMgPerKg, [200, 870]);
  spoil(motescale.dewPoint, [40, 0.5]);
  spoil(motescale.condensationTemperature, [101.325]);
  spoil(motescale.relativeSaturation, [line, 100, 40]);
  spoil(motescale.waterContent, [line, 0.5, 40]);
  spoil(motescale.freeWater, [line, 100, 40]);
  spoil(motescale.saturationAfterCooling, [line, { saturation: 0.5, fromCelsius: 60, toCelsius: 20 }]);
}

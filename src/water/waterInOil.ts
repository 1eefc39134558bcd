/**
 * Water in an oil of known solubility: relative saturation and mg/kg, one from the other, free water, and what cooling
 * does.
 *
 * A sensor in the oil shows relative saturation (0 to 1, the water activity); a Karl Fischer titration shows mg/kg. The
 * line joins them.
 */
import { requireObject, requireWithin } from '../checks.ts';
import { carriedSaturation } from './carriedSaturation.ts';
import { requireKelvin, requireLine, type SolubilityLine, solubilityAt } from './solubilityLine.ts';

/**
 * Relative saturation, as a share, of an oil with a water content at a temperature: content over solubility. Above 1
 * there is free water.
 *
 * Range: 0 to 1e6 mg/kg, -50 to 150 °C. Keep it at or below 0.5 at the temperature of the oil in service (common
 * practice).
 *
 * @param mgPerKg water in the oil, mass by mass ("ppm"): 500 for 0.05 %. 0.05 is not refused, since `waterContent`
 *   gives as little of a dry oil
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { relativeSaturation, solubilityLine } from 'motescale/water';
 * const line = solubilityLine([{ celsius: 20, mgPerKg: 190 }, { celsius: 60, mgPerKg: 720 }]);
 * relativeSaturation(line, 95, 20); // ~> 0.500
 * ```
 */
export function relativeSaturation(line: SolubilityLine, mgPerKg: number, celsius: number): number {
  return requireContent(mgPerKg) / solubilityAt(line, celsius);
}

/**
 * Water content, in mg/kg, of an oil from its relative saturation at a temperature: what a sensor's reading means in
 * "ppm".
 *
 * Range: saturation 0 to 10 as a share; above 1, as `relativeSaturation` gives it, free water is counted in. A sensor
 * that shows 1 says what the oil dissolves **or more**: none sees how much free water there is besides. So a percentage
 * given by mistake is refused above 10 only: 8 is taken for eight times what the oil dissolves.
 *
 * @param saturation relative saturation as a share, 0.45 for 45 %
 * @throws `out_of_range`, also for a saturation above 10, as most percentages are.
 *
 * @example
 * ```ts
 * import { solubilityLine, waterContent } from 'motescale/water';
 * const line = solubilityLine([{ celsius: 20, mgPerKg: 190 }, { celsius: 60, mgPerKg: 720 }]);
 * waterContent(line, 0.45, 52); // ~> 255
 * ```
 */
export function waterContent(line: SolubilityLine, saturation: number, celsius: number): number {
  return requireSaturation(saturation, 'saturation') * solubilityAt(line, celsius);
}

/**
 * Free water, in mg/kg: what the oil cannot hold at a temperature, 0 where it holds all.
 *
 * Free water corrodes, freezes and breaks the oil film; an answer of 0 says only that none comes out of this oil at
 * this temperature, not that none stands in the tank.
 *
 * @param mgPerKg water in the oil, as `relativeSaturation` takes it: 500 for 0.05 %
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { freeWater, solubilityLine } from 'motescale/water';
 * const line = solubilityLine([{ celsius: 20, mgPerKg: 190 }, { celsius: 60, mgPerKg: 720 }]);
 * freeWater(line, 250, 20); // ~> 60.0
 * freeWater(line, 250, 60); // => 0
 * ```
 */
export function freeWater(line: SolubilityLine, mgPerKg: number, celsius: number): number {
  return Math.max(0, requireContent(mgPerKg) - solubilityAt(line, celsius));
}

/**
 * Relative saturation, as a share, after the oil cools (or warms) from one temperature to another with all its water,
 * dissolved and free. Only the slope of the line matters: S₂ = S₁ 10^(b (1/T₂ - 1/T₁)).
 *
 * Above 1 it counts free water in: at 2.44 the oil holds what it can dissolve, and 1.44 times as much stands in it as
 * droplets. Warmed again by this figure, that water is taken to dissolve again, which takes time and stirring.
 *
 * Range: saturation 0 to 10 as a share, as `waterContent` takes it, so that an answer up to 10 can be asked back; -50
 * to 150 °C. A sensor that shows 1 says 1 **or more**: the answer is then a least.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { saturationAfterCooling, solubilityLine } from 'motescale/water';
 * const line = solubilityLine([{ celsius: 20, mgPerKg: 190 }, { celsius: 60, mgPerKg: 720 }]);
 * saturationAfterCooling(line, { saturation: 0.45, fromCelsius: 52, toCelsius: 5 }); // ~> 2.44
 * ```
 */
export function saturationAfterCooling(
  line: SolubilityLine,
  cooling: { readonly saturation: number; readonly fromCelsius: number; readonly toCelsius: number },
): number {
  const { b } = requireLine(line);
  const members = ['saturation', 'fromCelsius', 'toCelsius'];
  requireObject(cooling, 'cooling', 'a cooling { saturation, fromCelsius, toCelsius }', members);
  const saturation = requireSaturation(cooling.saturation, 'cooling.saturation');
  const from = requireKelvin(cooling.fromCelsius, 'cooling.fromCelsius');
  const to = requireKelvin(cooling.toCelsius, 'cooling.toCelsius');
  return carriedSaturation(saturation, b, from, to);
}

function requireContent(mgPerKg: number): number {
  return requireWithin(mgPerKg, 'mgPerKg', 0, 1e6, 'mass of water in the oil');
}

function requireSaturation(saturation: number, parameter: string): number {
  return requireWithin(saturation, parameter, 0, 10, 'a share, 0.45 for 45 %');
}

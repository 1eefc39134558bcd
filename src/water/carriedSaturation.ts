/** The relative saturation of an oil that keeps all its water while its temperature changes. */
import { power } from '../numeric/exponential.ts';

/** By the slope of its solubility line, both temperatures in kelvin: S₂ = S₁ 10^(b (1/T₂ - 1/T₁)). */
export function carriedSaturation(saturation: number, b: number, from: number, to: number): number {
  return saturation * power(10, (b * (from - to)) / (from * to));
}

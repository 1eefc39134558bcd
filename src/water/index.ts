/**
 * Water in oil: saturation pressure and dew point, how much water an oil dissolves, and when it comes out.
 *
 * @module water
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export * from './dewPoint.ts';
export * from './insulatingOil.ts';
export * from './saturationPressure.ts';
export {
  type SolubilityLine,
  type SolubilityPoint,
  saturationTemperature,
  solubilityAt,
  solubilityFormSource,
  solubilityLine,
} from './solubilityLine.ts';
export * from './waterInOil.ts';

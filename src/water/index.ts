/**
 * Water in oil: saturation pressure and dew point, how much water an oil dissolves, and when it comes out.
 *
 * @module water
 */
export * from '../common.ts';
export * from './dewPoint.ts';
export { insulatingOil, mineralInsulatingOil, type SourcedSolubilityLine } from './insulatingOil.ts';
export * from './saturationPressure.ts';
export {
  type SolubilityLine,
  type SolubilityPoint,
  saturationTemperature,
  solubilityAt,
  solubilityLine,
} from './solubilityLine.ts';
export { sources } from './sources.ts';
export * from './units.ts';
export * from './waterInOil.ts';

/**
 * The oil itself: viscosity and temperature, viscosity index, scales, grades, blends and density.
 *
 * @module viscosity
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export * from './agmaGrades.ts';
export * from './alongLine.ts';
export * from './apiGravity.ts';
export {
  type BlendMethod,
  type BlendPart,
  blendFraction,
  blendingSource,
  blendViscosity,
  refutasNumber,
  refutasSource,
} from './blending.ts';
export * from './blendLines.ts';
export * from './compareGrades.ts';
export { convertViscosity, sayboltSource, type ViscosityScale } from './convertViscosity.ts';
export { densityAt, densityAt15, densitySource, dynamicViscosity, kinematicViscosity } from './density.ts';
export type { LineForm } from './doubleLogarithm.ts';
export { type EffluxScaleName, effluxScalesSource } from './effluxScales.ts';
export type { ViscosityPoint } from './fitLine.ts';
export { type IsoGrade, iso3448Table, isoGrade, isoGradeLimits, isoGradesSource } from './isoGrades.ts';
export { viscosityLineOfGrade } from './lineOfGrade.ts';
export * from './pressureViscosity.ts';
export * from './saeEngineGrades.ts';
export * from './saeGearGrades.ts';
export * from './ubbelohdeWalther.ts';
export { referenceViscosities, type ViscosityIndex, viscosityIndex, viscosityIndexSource } from './viscosityIndex.ts';
export {
  type LineResidual,
  lineResiduals,
  type ViscosityLine,
  viscosityLine,
  viscosityLineSource,
} from './viscosityLine.ts';
export { viscosityAt40OfIndex, viscosityAt100OfIndex } from './viscosityOfIndex.ts';

/**
 * The oil itself: viscosity and temperature, viscosity index, scales, grades, blends and density.
 *
 * @module viscosity
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source, Standing } from '../source.ts';
export { version } from '../version.ts';
export * from './agmaGrades.ts';
export * from './alongLine.ts';
export * from './apiGravity.ts';
export {
  type BlendMethod,
  type BlendPart,
  blendFraction,
  blendViscosity,
  refutasNumber,
} from './blending.ts';
export * from './blendLines.ts';
export * from './compareGrades.ts';
export { convertViscosity, type ViscosityScale } from './convertViscosity.ts';
export { densityAt, densityAt15, dynamicViscosity, kinematicViscosity } from './density.ts';
export type { LineForm } from './doubleLogarithm.ts';
export type { EffluxScaleName } from './effluxScales.ts';
export type { ViscosityPoint } from './fitLine.ts';
export { type IsoGrade, iso3448Table, isoGrade, isoGradeLimits } from './isoGrades.ts';
export { viscosityLineOfGrade } from './lineOfGrade.ts';
export * from './pressureViscosity.ts';
export * from './saeEngineGrades.ts';
export * from './saeGearGrades.ts';
export { sources } from './sources.ts';
export * from './ubbelohdeWalther.ts';
export { referenceViscosities, type ViscosityIndex, viscosityIndex } from './viscosityIndex.ts';
export {
  type LineResidual,
  lineResiduals,
  type ViscosityLine,
  viscosityLine,
} from './viscosityLine.ts';
export { viscosityAt40OfIndex, viscosityAt100OfIndex } from './viscosityOfIndex.ts';

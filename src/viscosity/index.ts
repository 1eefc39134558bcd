/**
 * The oil itself: viscosity and temperature, viscosity index, scales and grades.
 *
 * @module viscosity
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export * from './agmaGrades.ts';
export * from './alongLine.ts';
export * from './compareGrades.ts';
export { convertViscosity, sayboltSource, type ViscosityScale } from './convertViscosity.ts';
export type { LineForm } from './doubleLogarithm.ts';
export { effluxScalesSource } from './effluxScales.ts';
export type { ViscosityPoint } from './fitLine.ts';
export { type IsoGrade, isoGrade, isoGradeLimits, isoGrades, isoGradesSource } from './isoGrades.ts';
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

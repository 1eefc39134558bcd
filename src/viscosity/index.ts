/**
 * The oil itself: viscosity and temperature, viscosity index, scales, grades, blends and density.
 *
 * @module viscosity
 */
export * from '../common.ts';
export * from './apiGravity.ts';
export { type BlendMethod, type BlendPart, blendFraction, blendViscosity, refutasNumber } from './blending.ts';
export * from './blendLines.ts';
export { densityAt, densityAt15, dynamicViscosity, kinematicViscosity } from './density.ts';
export * from './grades/agmaGrades.ts';
export * from './grades/compareGrades.ts';
export { type IsoGrade, iso3448Table, isoGrade, isoGradeLimits } from './grades/isoGrades.ts';
export { viscosityLineOfGrade } from './grades/lineOfGrade.ts';
export * from './grades/saeEngineGrades.ts';
export * from './grades/saeGearGrades.ts';
export * from './line/alongLine.ts';
export type { LineForm } from './line/doubleLogarithm.ts';
export type { ViscosityPoint } from './line/fitLine.ts';
export * from './line/ubbelohdeWalther.ts';
export { type LineResidual, lineResiduals, type ViscosityLine, viscosityLine } from './line/viscosityLine.ts';
export * from './pressureViscosity.ts';
export { convertViscosity, type ViscosityScale } from './scales/convertViscosity.ts';
export type { EffluxScaleName } from './scales/effluxScales.ts';
export { sources } from './sources.ts';
export { referenceViscosities, type ViscosityIndex, viscosityIndex } from './viscosityIndex/viscosityIndex.ts';
export { viscosityAt40OfIndex, viscosityAt100OfIndex } from './viscosityIndex/viscosityOfIndex.ts';

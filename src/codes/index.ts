/**
 * Codes and classes: counts to codes in every standard, reading and writing them, targets, and honest comparison
 * between standards.
 *
 * @module codes
 */
export * from '../common.ts';
export type { Problem } from '../errors.ts';
export * from './cc1246Level.ts';
export { classify } from './classify.ts';
export * from './classifyColumns.ts';
export * from './codeInterval.ts';
export * from './comparison/guaranteeingCode.ts';
export * from './comparison/likelyClasses.ts';
export * from './comparison/possibleClasses.ts';
export { limitsOf } from './limitsOf.ts';
export { meets } from './meets.ts';
export * from './ownTable/classTable.ts';
export { continuousScaleNumber, scaleNumber } from './scaleNumber.ts';
export * from './scaleNumbers.ts';
export { sources } from './sources.ts';
export { as4059Cumulative, as4059Differential } from './tables/as4059.ts';
export { cc1246 } from './tables/cc1246.ts';
export { gost17216 } from './tables/gost17216.ts';
export { iso4406, iso4406Microscope } from './tables/iso4406.ts';
export { nas1638 } from './tables/nas1638.ts';
export { navair } from './tables/navair.ts';
export { sae749d } from './tables/sae749d.ts';
export * from './tables/standardTables.ts';
export type { TargetOutcome, Wanted } from './targetOutcome.ts';
export * from './types.ts';
export * from './uncertainty/blandAltman.ts';
export type { UncertaintyRow } from './uncertainty/budget.ts';
export { type CodeUncertainty, type ColumnUncertainty, codeUncertainty } from './uncertainty/codeUncertainty.ts';
export * from './uncertainty/compareCodes.ts';
export { type DetectionLimits, detectionLimits } from './uncertainty/detectionLimits.ts';
export { defaultMeasurementErrors, type MeasurementErrors } from './uncertainty/errors.ts';
export * from './uncertainty/indexOfDispersion.ts';
export * from './uncertainty/netCount.ts';
export * from './uncertainty/scores.ts';
export { type TargetProbability, targetProbability } from './uncertainty/targetProbability.ts';
export * from './written/findCodes.ts';
export { formatCode } from './written/formatCode.ts';
export { parseCode } from './written/parseCode.ts';

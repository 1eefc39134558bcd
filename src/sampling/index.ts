/**
 * Sampling: how long to count, how fast to pump, and whether a reading can be trusted.
 *
 * @module sampling
 */

export { saturationShiftSource } from './assess/water.ts';
export { assessReading, worstQuality } from './assessReading.ts';
export * from './countedVolume.ts';
export * from './flowControl.ts';
export type * from './flowControlTypes.ts';
export type { Assessment, Finding, FindingCode, Quality, Reading } from './reading.ts';
export * from './readingLimits.ts';
export { type SpeedPoint, speedForViscosity } from './speedForViscosity.ts';
export * from './timeForTarget.ts';

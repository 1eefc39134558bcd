/**
 * Particle counts: from what an instrument gives to counts of a size and larger per mL, between sizes, and how sure they are.
 *
 * @module counts
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export * from './coincidence.ts';
export { calibrationSource, convertCounts, convertSizing, micrometreBSource } from './convertSizing.ts';
export * from './countAt.ts';
export * from './cumulativeCounts.ts';
export { fromDifferential, toDifferential } from './differential.ts';
export * from './equivalentDust.ts';
export { type InterpolationMethod, interpolationSource, logLog2Source } from './interpolation.ts';
export * from './laboratory/gravimetricLevel.ts';
export * from './laboratory/microscopeCount.ts';
export * from './laboratory/sources.ts';
export * from './statistics.ts';
export type { CumulativeCounts, DifferentialCounts, Sizing } from './types.ts';
export * from './undilute.ts';

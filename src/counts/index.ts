/**
 * Particle counts: from what an instrument gives to counts of a size and larger per mL, between sizes, and how sure
 * they are.
 *
 * @module counts
 */
export * from '../common.ts';
export * from './coincidence.ts';
export * from './compareCounts.ts';
export { convertCounts, convertSizing } from './convertSizing.ts';
export * from './countAt.ts';
export { cumulativeCounts, type PerVolume, type RawCount } from './cumulativeCounts.ts';
export { fromDifferential, type RangeCounts, toDifferential } from './differential.ts';
export * from './equivalentDust.ts';
export type { InterpolationMethod } from './interpolation.ts';
export * from './laboratory/gravimetricLevel.ts';
export * from './laboratory/microscopeCount.ts';
export { sources } from './sources.ts';
export {
  type CountDifference,
  type CountInVolume,
  countInterval,
  countsDiffer,
  volumeForCount,
} from './statistics.ts';
export type { CumulativeCounts, DifferentialCounts, Sizing } from './types.ts';
export * from './undilute.ts';

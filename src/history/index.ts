/**
 * Readings rolled up into buckets of time, which can be kept, sent and merged.
 *
 * @module history
 */
export * from '../common.ts';
export { bucketCounts } from './countedSums.ts';
export * from './rollUp.ts';
export * from './rollUpWidth.ts';
export { sources } from './sources.ts';
export type * from './types.ts';

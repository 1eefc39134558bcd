/**
 * What an instrument gave at one visit, and whether it can be trusted.
 *
 * @module reading
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source, Standing } from '../source.ts';
export { version } from '../version.ts';
export { assessReading, worstQuality } from './assessReading.ts';
export type { Assessment, Finding, FindingCode, Quality, Reading, RepeatedCounts, TimedReading } from './reading.ts';
export * from './readingLimits.ts';
export { sources } from './sources.ts';

/**
 * Sampling: how long to count, how fast to pump, and whether a reading can be trusted.
 *
 * @module sampling
 */
export type { Assessment, Finding, FindingCode, Quality, Reading } from './reading.ts';

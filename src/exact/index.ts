/**
 * The same decisions from decimal strings, with no binary rounding anywhere: for certificates and disputes.
 *
 * @module exact
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source, Standing } from '../source.ts';
export { version } from '../version.ts';
export * from './classifyExact.ts';
export * from './roundHalfEven.ts';
export { sources } from './sources.ts';

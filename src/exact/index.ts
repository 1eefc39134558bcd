/**
 * The same decisions from decimal strings, with no binary rounding anywhere: for certificates and disputes.
 *
 * @module exact
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export * from './classifyExact.ts';
export * from './roundHalfEven.ts';

/**
 * The same decisions from decimal strings, with no binary rounding anywhere: for certificates and disputes.
 *
 * @module exact
 */
export * from '../common.ts';
export * from './classifyExact.ts';
export { roundHalfEven } from './roundHalfEven.ts';
export { sources } from './sources.ts';

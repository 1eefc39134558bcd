/**
 * The proof that a flush or a fill is done.
 *
 * @module acceptance
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export { advanceAcceptance, startAcceptance } from './acceptance.ts';
export type * from './types.ts';

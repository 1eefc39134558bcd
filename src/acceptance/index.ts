/**
 * The proof that a flush or a fill is done.
 *
 * @module acceptance
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source, Standing } from '../source.ts';
export { version } from '../version.ts';
export { advanceAcceptance, startAcceptance } from './acceptance.ts';
export { sources } from './sources.ts';
export type * from './types.ts';

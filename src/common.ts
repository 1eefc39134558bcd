/** What every entry of the package gives beside its own: errors to be told apart, sources, and the version. */
export { type ErrorCode, isMotescaleError, type MotescaleError } from './errors.ts';
export type { Source, Standing } from './source.ts';
export { version } from './version.ts';

/**
 * A machine watched over time, reading by reading: targets, alarms, trends.
 *
 * @module monitor
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type * from '../judging/types.ts';
export type { Source, Standing } from '../source.ts';
export { type BadConfigurationError, type ConfigurationProblem, isBadConfiguration } from '../state/configuration.ts';
export { version } from '../version.ts';
export { mostStateBytes } from './config.ts';
export { followDefaults } from './followed.ts';
export { advanceMonitor, startMonitor } from './monitor.ts';
export { sources } from './sources.ts';
export type * from './types.ts';

/**
 * One figure watched: raised, acknowledged, shelved, returned.
 *
 * @module alarm
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source, Standing } from '../source.ts';
export { version } from '../version.ts';
export { advanceAlarm, startAlarm } from './alarm.ts';
export { alarmStateName } from './alarmState.ts';
export { alarmDefaults } from './config.ts';
export { sources } from './sources.ts';
export * from './types.ts';

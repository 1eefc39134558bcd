/**
 * One figure watched: raised, acknowledged, shelved, returned.
 *
 * @module alarm
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export { advanceAlarm, startAlarm } from './alarm.ts';
export { alarmStateName } from './alarmState.ts';
export { alarmDefaults } from './config.ts';
export * from './types.ts';

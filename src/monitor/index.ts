/**
 * Watching over time: alarms on a figure, a machine watched reading by reading, the proof that a flush is done.
 *
 * @module monitor
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export { advanceAlarm, startAlarm } from './alarm.ts';
export { alarmDefaults } from './alarmConfig.ts';
export { alarmStateName } from './alarmState.ts';
export * from './alarmTypes.ts';
export { type BadConfigurationError, type ConfigurationProblem, isBadConfiguration } from './configuration.ts';

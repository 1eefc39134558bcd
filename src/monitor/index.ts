/**
 * Watching over time: alarms on a figure, a machine watched reading by reading, the proof that a flush is done.
 *
 * @module monitor
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export { advanceAcceptance, startAcceptance } from './acceptance.ts';
export * from './acceptanceTypes.ts';
export { advanceAlarm, startAlarm } from './alarm.ts';
export { alarmDefaults } from './alarmConfig.ts';
export { alarmStateName } from './alarmState.ts';
export * from './alarmTypes.ts';
export { type BadConfigurationError, type ConfigurationProblem, isBadConfiguration } from './configuration.ts';
export { changeSource, followDefaults } from './followed.ts';
export { advanceMonitor, startMonitor } from './monitor.ts';
export { mostStateBytes } from './monitorConfig.ts';
export * from './monitorTypes.ts';

/**
 * Watching over time: alarms on a figure, a machine watched reading by reading, trends and roll-ups, the proof that a flush is done.
 *
 * @module monitor
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export { advanceAcceptance, startAcceptance } from './acceptance.ts';
export type * from './acceptanceTypes.ts';
export { advanceAlarm, startAlarm } from './alarm.ts';
export { alarmDefaults } from './alarmConfig.ts';
export { alarmStateName } from './alarmState.ts';
export * from './alarmTypes.ts';
export { type BadConfigurationError, type ConfigurationProblem, isBadConfiguration } from './configuration.ts';
export * from './cusum.ts';
export * from './ewma.ts';
export { followDefaults } from './followed.ts';
export * from './forecastCrossing.ts';
export * from './leastSquares.ts';
export * from './mannKendall.ts';
export { advanceMonitor, startMonitor } from './monitor.ts';
export { mostStateBytes } from './monitorConfig.ts';
export type * from './monitorTypes.ts';
export * from './rollUp.ts';
export * from './rollUpTypes.ts';
export * from './rollUpWidth.ts';
export * from './seasonalKendall.ts';
export { type SenSlope, senSlope, senSlopeSource } from './senSlope.ts';

/**
 * One figure watched: raised, acknowledged, shelved, returned.
 *
 * @module alarm
 */
export * from '../common.ts';
export { type Path, type Problem, problemsOf } from '../errors.ts';
export { advanceAlarm, alarmStateName, prepareAlarm, startAlarm } from './alarm.ts';
export { resumeAlarm } from './resume.ts';
export { alarmDefaults } from './rules.ts';
export { sources } from './sources.ts';
export { type AlarmFigures, type AlarmStatistics, alarmStatistics } from './statistics.ts';
export * from './types.ts';

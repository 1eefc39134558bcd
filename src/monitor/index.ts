/**
 * A machine watched over time, reading by reading: targets, alarms, trends; and its record, safe to redeliver.
 *
 * @module monitor
 */
export * from '../common.ts';
export { type Path, type Problem, problemsOf } from '../errors.ts';
export type { CodePlan } from '../judging/codePlan.ts';
export type * from '../judging/types.ts';
export type { Needed } from '../reading/assess/check.ts';
export { advanceMonitor, startMonitor } from './monitor.ts';
export { prepareMonitor } from './prepare.ts';
export { followDefaults, mostStateBytes } from './rules.ts';
export { sources } from './sources.ts';
export { type ResumedMonitor, resumeMonitor } from './state/resume.ts';
export { alarmSummary } from './summary.ts';
export type * from './types.ts';
export * from './unit.ts';

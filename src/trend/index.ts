/**
 * Statistics on a series of figures: slopes, tests for a trend, control charts, when a level will be crossed. It knows
 * nothing of oil.
 *
 * @module trend
 */
export * from '../common.ts';
export { type AutocorrelatedTrend, autocorrelatedTrend } from './autocorrelatedTrend.ts';
export { advanceChange, prepareChange, startChange } from './change/advance.ts';
export { resumeChange } from './change/resume.ts';
export type {
  Change,
  ChangeInput,
  ChangeOptions,
  ChangeState,
  ChangeStep,
  PreparedChange,
} from './change/types.ts';
export { type ChangePoint, changePoint } from './changePoint.ts';
export * from './cusum.ts';
export type { TrendFlag } from './dependence/shapeFlags.ts';
export * from './ewma.ts';
export * from './forecastCrossing.ts';
export * from './leastSquares.ts';
export * from './mannKendall.ts';
export * from './seasonalKendall.ts';
export { type SenSlope, senSlope } from './senSlope.ts';
export { sources } from './sources.ts';

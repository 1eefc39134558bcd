/**
 * Filtration: what filters hold back, how a tank gets clean, how long it takes, and what the target asks of filter and
 * flow.
 *
 * @module filtration
 */
export * from '../common.ts';
export { betaOfEfficiency, efficiencyOfBeta, type FiltrationRatio, filtrationRatios } from './beta.ts';
export { type BelowPoints, type BetaPoint, betaAt } from './betaAt.ts';
export { cleanUp, steadyState, timeToReach } from './cleanUp.ts';
export * from './cleanUpBySize.ts';
export * from './combineFilters.ts';
export * from './ingression.ts';
export * from './needed.ts';
export { sources } from './sources.ts';
export type { Tank, TankBySize } from './tank.ts';
export * from './timeToReachCode.ts';
export * from './turnovers.ts';

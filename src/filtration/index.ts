/**
 * Filtration: what filters hold back, how a tank gets clean, how long it takes, and what the target asks of filter and flow.
 *
 * @module filtration
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';
export { betaOfEfficiency, betaSource, efficiencyOfBeta, type FiltrationRatio, filtrationRatios } from './beta.ts';
export { cleanUp, steadyState, timeToReach } from './cleanUp.ts';
export * from './cleanUpBySize.ts';
export * from './combineFilters.ts';
export * from './ingression.ts';
export * from './needed.ts';
export { cleanUpSource, massBalanceSource, type Tank, type TankBySize } from './tank.ts';
export * from './timeToReachCode.ts';
export * from './turnovers.ts';

/**
 * Sampling: the line to the sensor, how long to count, how fast to pump, and whether a reading can be trusted.
 *
 * @module sampling
 */
export { type ErrorCode, isMotescaleError, type MotescaleError } from '../errors.ts';
export type { Source } from '../source.ts';

export { saturationShiftSource } from './assess/water.ts';
export { assessReading, worstQuality } from './assessReading.ts';
export * from './countedVolume.ts';
export * from './countingConfidence.ts';
export * from './flowControl.ts';
export type * from './flowControlTypes.ts';
export { type DrivenFlow, flowForPressure } from './flowForPressure.ts';
export { type Flush, flush, flushSource } from './flush.ts';
export {
  colebrookSource,
  type FlowRegime,
  type FrictionFactor,
  frictionFactor,
  regimeSource,
} from './frictionFactor.ts';
export type { Fluid, Line, Segment } from './line.ts';
export { type LineFlow, lineFlow, type PressureDrop, type SegmentFlow } from './lineFlow.ts';
export { pressureDropSource } from './pressureDrop.ts';
export type { Assessment, Finding, FindingCode, Quality, Reading } from './reading.ts';
export * from './readingLimits.ts';
export { type Particle, schillerNaumannSource, settlingVelocity, stokesSource } from './settlingVelocity.ts';
export { smallestBore } from './smallestBore.ts';
export { type SpeedPoint, speedForViscosity } from './speedForViscosity.ts';
export { type SuctionAtTemperature, type SuctionTemperatures, suctionByTemperature } from './suctionByTemperature.ts';
export {
  pumpInletSource,
  type SuctionLift,
  type SuctionLine,
  suctionLift,
} from './suctionLift.ts';
export { type SuctionLimits, suctionLimits } from './suctionLimits.ts';
export { type Suspension, settlingLossSource, suspension, suspensionSource } from './suspension.ts';
export * from './timeForTarget.ts';

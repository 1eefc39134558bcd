/**
 * Sampling: the line to the sensor, how fast to pump, how long to count.
 *
 * @module sampling
 */
export * from '../common.ts';
export * from './countedVolume.ts';
export * from './countingConfidence.ts';
export { type FlowControlTexts, flowControlText, flowControlTexts } from './flow/events.ts';
export * from './flow/flowControl.ts';
export { type FlowControlSettings, flowControlFor, type StepResponse } from './flow/flowControlFor.ts';
export { prepareFlowControl, resumeFlowControl, startFlowControl } from './flow/prepare.ts';
export { type Pump, pumpFlow, pumpSpeed } from './flow/pumpFlow.ts';
export { type SpeedPoint, speedForViscosity } from './flow/speedForViscosity.ts';
export type * from './flow/types.ts';
export { type DrivenFlow, flowForPressure } from './line/flowForPressure.ts';
export { flowForReynolds } from './line/flowForReynolds.ts';
export { type CarryOver, type Flush, flush } from './line/flush.ts';
export { type FlowRegime, type FrictionFactor, frictionFactor } from './line/frictionFactor.ts';
export type { HighPoint } from './line/highPoint.ts';
export type { Fluid, Line, Segment, Strainer } from './line/line.ts';
export { type LineFlow, lineFlow, type PressureDrop, type SegmentFlow } from './line/lineFlow.ts';
export { type Particle, settlingVelocity } from './line/settlingVelocity.ts';
export { smallestBore } from './line/smallestBore.ts';
export {
  type SuctionAtTemperature,
  type SuctionByTemperature,
  type SuctionTemperatures,
  suctionByTemperature,
} from './line/suctionByTemperature.ts';
export { type SuctionLift, type SuctionLine, suctionLift } from './line/suctionLift.ts';
export { type SuctionLimits, suctionLimits } from './line/suctionLimits.ts';
export { type Suspension, suspension } from './line/suspension.ts';
export { sources } from './sources.ts';
export * from './timeForTarget.ts';

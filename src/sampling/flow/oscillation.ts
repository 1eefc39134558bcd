/**
 * A flow that is off its setpoint: swinging around it, or staying away from it.
 *
 * A loop swings where the flow passes the setpoint by more than a twentieth on one side and then the other, again and
 * again.
 * Six swings, each within 100 integral times of the one before, are an oscillation (common practice). The deviation is
 * smoothed over about three steps, so that noise of 3 % that is new at each step is not taken for one; of 4 % and more
 * it is, and of 2 % where steps are alike, as a filter leaves them (correlation of 0.8).
 */
import { largestFigure } from '../../rules/bounds.ts';
import { swingsThatTell } from './rules.ts';
import type { FlowControlState, PreparedFlowControl } from './types.ts';

const shareOfSetpoint = 0.05;
export const integralTimes = 100;
/** A swing cannot be told in fewer steps. */
const leastSteps = 20;
const smoothing = 1 / 3;

/** The swing after a step; a deviation of 0 where the flow is not known. */
export function swingAfter(
  prepared: PreparedFlowControl,
  before: FlowControlState['swing'],
  deviation: number,
  elapsedSeconds: number,
): FlowControlState['swing'] {
  const { side, count } = before;
  const mean = before.mean + smoothing * (deviation - before.mean);
  const beyond = beyondSetpoint(prepared);
  const now = mean > beyond ? 1 : mean < -beyond ? -1 : 0;
  const longest = Math.max(integralTimes * prepared.integralSeconds, leastSteps * elapsedSeconds);
  const since = Math.min(before.seconds + elapsedSeconds, largestFigure);
  if (now !== 0 && now !== side)
    return { side: now, mean, seconds: 0, count: since > longest ? 1 : Math.min(count + 1, swingsThatTell) };
  return { side, mean, seconds: since, count: since > longest ? 0 : count };
}

/** A flow farther from the setpoint is off it, mL/min. */
export function beyondSetpoint({ mlPerMin, deadbandMlPerMin }: PreparedFlowControl): number {
  return mlPerMin * shareOfSetpoint + deadbandMlPerMin;
}

export function isOscillation({ count }: FlowControlState['swing']): boolean {
  return count >= swingsThatTell;
}

/**
 * A flow stays off where a pump cannot give it, a limit holds it back, or a meter stands still: for more than a
 * twentieth, and the deadband, for longer than the loop takes to settle: 100 integral times and one way through the
 * range of speeds by the slew (our choice). Time near the setpoint is taken off three times as fast, so that noise
 * neither hides it nor ends it.
 */
const backFaster = 3;

type Off = FlowControlState['off'];

/**
 * For how long the flow is off after a step of the automatic loop, and whether that is told; undefined where it is not.
 */
export function offAfter(prepared: PreparedFlowControl, before: Off, deviation: number, elapsedSeconds: number): Off {
  const { seconds: since, told } = before ?? { seconds: 0, told: false };
  const isOff = Math.abs(deviation) > beyondSetpoint(prepared);
  const seconds = Math.min(
    isOff ? since + elapsedSeconds : since - backFaster * elapsedSeconds,
    settledWithin(prepared),
  );
  return seconds > 0 ? { seconds, told: told || seconds === settledWithin(prepared) } : undefined;
}

function settledWithin({ integralSeconds, leastPercent, mostPercent, slewPerSecond }: PreparedFlowControl): number {
  return integralTimes * integralSeconds + (mostPercent - leastPercent) / slewPerSecond;
}

/**
 * A flow that stays off the setpoint: a pump that cannot give it, a limit that holds it back, a meter that stands
 * still.
 *
 * Off is more than a twentieth, and the deadband, for longer than the loop takes to settle: 100 integral times and one
 * way through the range of speeds by the slew (our choice). Time near the setpoint is taken off three times as fast, so
 * that noise neither hides it nor ends it.
 */
import { beyondSetpoint, integralTimes } from './oscillation.ts';
import type { FlowControlState, PreparedFlowControl } from './types.ts';

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

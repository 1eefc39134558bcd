/**
 * A flow that is off its setpoint: swinging around it, or staying away from it.
 *
 * A loop swings where the flow passes the setpoint by more than a twentieth on one side and then the other, again and
 * again. Six swings, each within 100 integral times of the one before, are an oscillation (common practice). The
 * deviation is smoothed over about three steps, so that noise of 3 % that is new at each step is seldom taken for one;
 * of 4 % and more it is, and of 2 % where steps are alike, as a filter leaves them (correlation of 0.8). Eight turns
 * from each step to the next are one too, unsmoothed.
 */
import { largestFigure } from '../../rules/bounds.ts';
import { swingsThatTell, turnsThatTell } from './rules.ts';
import type { FlowControlState, PreparedFlowControl } from './types.ts';

const shareOfSetpoint = 0.05;
const integralTimes = 100;
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
  const turns = turnsAfter(before.turns ?? 0, deviation, beyond);
  const more = turns === 0 ? { mean } : { mean, turns };
  const now = mean > beyond ? 1 : mean < -beyond ? -1 : 0;
  const longest = Math.max(integralTimes * prepared.integralSeconds, leastSteps * elapsedSeconds);
  const since = Math.min(before.seconds + elapsedSeconds, largestFigure);
  if (Math.abs(turns) === turnsThatTell) return { side, seconds: 0, count: swingsThatTell, ...more };
  if (now !== 0 && now !== side)
    return { side: now, seconds: 0, count: since > longest ? 1 : Math.min(count + 1, swingsThatTell), ...more };
  return { side, seconds: since, count: since > longest ? 0 : count, ...more };
}

/** What turns from each step to the next is smoothed away, so it is counted as it comes; below 0 above the setpoint. */
function turnsAfter(before: number, deviation: number, beyond: number): number {
  if (Math.abs(deviation) <= beyond) return 0;
  const sign = deviation > 0 ? 1 : -1;
  return before * sign < 0 ? sign * Math.min(Math.abs(before) + 1, turnsThatTell) : sign;
}

/** A flow farther from the setpoint is off it, mL/min. */
function beyondSetpoint({ mlPerMin, deadbandMlPerMin }: PreparedFlowControl): number {
  return mlPerMin * shareOfSetpoint + deadbandMlPerMin;
}

export function isOscillation({ count }: FlowControlState['swing']): boolean {
  return count >= swingsThatTell;
}

/**
 * A flow stays off where a pump cannot give it, a limit holds it back, or a meter stands still: for more than a
 * twentieth, and the deadband, for longer than the loop takes to settle: 100 integral times and one way through the
 * range of speeds by the slew, and 20 steps (our choice). Its deviation is smoothed over ten integral times, or four
 * steps. Time near the setpoint is taken off three times as fast.
 */
const backFaster = 3;
const smoothingTimes = 10;
const mostShare = 0.25;

type Off = FlowControlState['off'];

/** For how long the flow is off after a step of the automatic loop, and whether that is told. */
export function offAfter(prepared: PreparedFlowControl, before: Off, deviation: number, elapsedSeconds: number): Off {
  const { seconds: since, told, mean: last = 0 } = before ?? { seconds: 0, told: false };
  const { integralSeconds, mostPercent, leastPercent, slewPerSecond } = prepared;
  const share = Math.min(elapsedSeconds / (smoothingTimes * integralSeconds), mostShare);
  const mean = last + share * (deviation - last);
  const isOff = Math.abs(mean) > beyondSetpoint(prepared);
  const settled = integralTimes * integralSeconds + (mostPercent - leastPercent) / slewPerSecond;
  const long = Math.max(settled, leastSteps * elapsedSeconds);
  const seconds = Math.min(isOff ? since + elapsedSeconds : Math.max(since - backFaster * elapsedSeconds, 0), long);
  return { seconds, told: seconds > 0 && (told || seconds === long), mean };
}

/**
 * A flow signal that has stopped or cannot be, an output that stands at its limit, a pump that runs dry by hand: what a
 * deviation does not show.
 */

import { highest, lowest } from './speed.ts';
import type { FlowControlState, PreparedFlowControl } from './types.ts';

/**
 * The speed has moved far where the flow should have changed by more than this share of the setpoint (our choice). A
 * figure farther above the setpoint is not judged: a meter shows no more than its range, and no speed is worth going
 * back to that gave so much.
 */
const farShare = 0.2;
/** So near are figures of a stopped signal that trembles, as a share of the setpoint, and for how long (our choice). */
const trembleShare = 0.002;
const trembleResponses = 5;
/**
 * A pump that has stood shows no flow at first: one below this share of the setpoint is not judged until more came (our
 * choice).
 */
const startedShare = 0.1;
/** At a limit, or without flow, for so many response times, and so many steps, is for long (our choice). */
const longResponses = 10;
const longSteps = 20;

/** Time until most of a change of speed is seen in the flow, s. Where no step test is given, four integral times. */
export function responseSeconds({ response, integralSeconds }: PreparedFlowControl): number {
  return response === null ? 4 * integralSeconds : response.deadSeconds + response.lagSeconds + response.stepSeconds;
}

type Still = FlowControlState['still'];

/**
 * The signal, with the flow of now and the speed that was given until now: `percent` of it is the speed without what
 * came from the viscosity. It has stopped where it stays the same although the speed moved far a response time ago.
 */
export function stillAfter(
  prepared: PreparedFlowControl,
  state: FlowControlState,
  mlPerMin: number,
  elapsedSeconds: number,
): Still {
  // a pump that stands begins anew
  const before = state.percent === 0 ? undefined : state.still;
  const percent = Math.max(state.percent, lowest(prepared)) - (state.feedForward ?? 0);
  const response = responseSeconds(prepared);
  const trembles =
    before !== undefined &&
    Math.abs(mlPerMin - before.mlPerMin) <= trembleShare * prepared.mlPerMin &&
    (before.told || before.seconds < trembleResponses * response);
  if (before === undefined || (mlPerMin !== before.mlPerMin && !trembles)) {
    const from = mayStay(prepared, state, mlPerMin) ? null : percent;
    return { mlPerMin, percent: from, seconds: 0, farSeconds: 0, told: false };
  }
  if (before.percent === null) return before;
  const perPercent = prepared.response?.gain ?? prepared.mlPerMin / state.percent;
  const far = farShare * prepared.mlPerMin;
  const isFar = mlPerMin <= prepared.mlPerMin + far && Math.abs(percent - before.percent) * perPercent > far;
  const farSeconds = isFar ? before.farSeconds + elapsedSeconds : 0;
  const told = before.told || farSeconds > Math.max(response, elapsedSeconds);
  return { ...before, seconds: before.seconds + elapsedSeconds, farSeconds, told };
}

/**
 * Whether a sound meter may show this figure for long: little, until a pump that stood delivers; much, until a pump
 * set by hand comes down into the range of its meter.
 */
function mayStay(config: PreparedFlowControl, { percent, still }: FlowControlState, mlPerMin: number): boolean {
  const little = startedShare * config.mlPerMin;
  const stood = percent === 0 || (still?.percent === null && still.mlPerMin < little);
  return mlPerMin < little ? stood : percent > 0 && still === undefined && mlPerMin > config.mlPerMin;
}

type Lasting = FlowControlState['dry'];

/** For how long something lasts, after a step in which it did so for `change` seconds, below 0 where it did not. */
function lastingAfter(
  prepared: PreparedFlowControl,
  before: Lasting,
  change: number,
  elapsedSeconds: number,
): NonNullable<Lasting> {
  const { seconds: since, told } = before ?? { seconds: 0, told: false };
  const long = Math.max(longResponses * responseSeconds(prepared), longSteps * elapsedSeconds);
  const seconds = Math.min(since + change, long);
  return { seconds, told: told || seconds >= long };
}

/** A meter at rest may show so much more or less than nothing, as a share of the setpoint (our choice). */
const noiseShare = 0.05;

/** Whether a flow is so far below 0 that no meter at rest shows it: its wire is broken, or it is wired backwards. */
export function isBelow0(mlPerMin: number, setpoint: number): boolean {
  return mlPerMin < -noiseShare * setpoint;
}

/** For how long a pump set by hand has run without flow. Where the flow sets the speed, the limits of it tell. */
export function dryAfter(
  prepared: PreparedFlowControl,
  before: Lasting,
  mlPerMin: number,
  elapsedSeconds: number,
): Lasting {
  if (mlPerMin > noiseShare * prepared.mlPerMin) return undefined;
  return lastingAfter(prepared, before, elapsedSeconds, elapsedSeconds);
}

/** For how long the output stands at a limit of it, less the time since that it did not. */
export function atLimitAfter(
  prepared: PreparedFlowControl,
  before: Lasting,
  percent: number,
  elapsedSeconds: number,
): Lasting {
  const [low, high] = [lowest(prepared), highest(prepared)];
  const near = (high - low) / 100;
  const isAt = percent <= low + near || percent >= high - near;
  const after = lastingAfter(prepared, before, isAt ? elapsedSeconds : -elapsedSeconds, elapsedSeconds);
  return after.seconds > 0 ? after : undefined;
}

/** With what the viscosity's part took over from the rest of the speed, which is no move of it. */
export function shifted(still: NonNullable<Still>, jump: number): NonNullable<Still> {
  return still.percent === null || jump === 0 ? still : { ...still, percent: still.percent - jump };
}

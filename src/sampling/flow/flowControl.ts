/**
 * Keeping the flow: one step of a discrete controller, for a gateway that sets the sample pump itself. The caller holds
 * the state.
 */
import { largestFigure } from '../../rules/bounds.ts';
import { requirePrepared } from '../../state/prepared.ts';
import type { Writable } from '../../state/writable.ts';
import { checkFlowInput, checkFlowState } from './checks.ts';
import { eventsBetween } from './events.ts';
import { feedForwardOf } from './feedForward.ts';
import { offAfter, swingAfter } from './oscillation.ts';
import { flowStateVersion, mostIntegral } from './rules.ts';
import type { FlowControlEvent, FlowControlInput, FlowControlState, PreparedFlowControl } from './types.ts';

/**
 * One step of a PI controller of flow with viscosity feed-forward.
 *
 * - Output limits: a running pump never leaves them, whatever else is wanted. Then slew: never faster than
 *   `slewPerSecond`, by hand as well. A speed of 0 by hand stops the pump: down to `leastPercent` by the slew, then 0.
 * - Anti-windup: where a limit or the slew holds the output back, the integral part takes no more of its step than the
 *   output can follow.
 * - Bumpless: after manual, the output goes on from where it is. So it does where a viscosity is back after a gap, or
 *   where `feedForward` was changed. Feed-forward acts on changes of viscosity from one step to the next and on the
 *   setpoint: between the results of a slow viscometer pass the last one, not null, so that they are fed forward.
 * - Lost flow signal: the output is held, `lostSeconds` counts, and the integral part is kept. With the next sample the
 *   loop goes on as if nothing had been lost. How long a loss may last is for the caller to decide. A standing pump is
 *   not started blind: the output stays 0 until there is a flow signal or a speed set by hand.
 * - Drive in steps (`percentStep`): the output is a whole number of steps, and moves when the wanted speed is three
 *   quarters of a step away. One step of speed is always allowed, however slow the slew.
 * - Deadband: within it the flow is left alone.
 *
 * The settings belong to one pump and line. Those of the example are for a pump of 2.4 mL/min for each percent, with a
 * lag of 12 s and 5 s of dead time; on another pump they may swing. Get your own from `flowControlFor`.
 *
 * Flow control is no safety system, and the pump, not this function, must be safe: it sees neither a closed valve nor a
 * dry inlet. A pump that runs against a closed line builds pressure that bursts hoses and injures; relief valve,
 * dry-run and over-pressure stops belong in the machine's own protection.
 *
 * Source: Åström and Hägglund, PID Controllers (1995), chapter 3 (from memory).
 *
 * @throws `not_prepared`, `bad_state`; errors of type and range for the input.
 *
 * @example
 * ```ts
 * import { advanceFlowControl, flowControlFor, prepareFlowControl, startFlowControl } from 'motescale/sampling';
 * const settings = flowControlFor({ gain: 2.4, lagSeconds: 12, deadSeconds: 5 });
 * const range = { leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
 * const prepared = prepareFlowControl({ ...settings, mlPerMin: 45, ...range });
 * const first = advanceFlowControl(prepared, startFlowControl(prepared), { elapsedSeconds: 1, mlPerMin: 0 });
 * first.percent; // => 8
 * const second = advanceFlowControl(prepared, first.state, { elapsedSeconds: 1, mlPerMin: 12 });
 * second.percent; // => 12
 * ```
 */
export function advanceFlowControl(
  prepared: PreparedFlowControl,
  state: FlowControlState,
  input: FlowControlInput,
): { state: FlowControlState; percent: number; events: readonly FlowControlEvent[] } {
  requirePrepared(prepared, 'flow_control', 'prepareFlowControl');
  checkFlowState(state);
  checkFlowInput(input);
  const seconds = Math.min(input.elapsedSeconds, prepared.longestStepSeconds);
  const mm2PerS = prepared.feedForward === null ? null : (input.mm2PerS ?? null);
  const { percent: feedForward, jump, outside } = feedForwardOf(prepared, state, mm2PerS);
  const base = feedForward ?? 0;
  const flow = input.mlPerMin;
  const deviation = flow === null ? 0 : prepared.mlPerMin - flow;
  const proportional = prepared.gain * beyondDeadband(deviation, prepared.deadbandMlPerMin);
  const manual = input.manualPercent ?? null;
  const within = (percent: number) => limited(prepared, state.percent, percent, seconds);

  // one whose lowest speed is 0 cannot be told from one that stands, and need not
  const stands = state.mode === 'starting' || (state.percent === 0 && prepared.leastPercent > 0);
  let mode: FlowControlState['mode'] = 'automatic';
  let percent: number;
  let integral = state.integral;
  if (manual !== null) {
    mode = 'manual';
    percent = manual === 0 && state.percent <= lowest(prepared) ? 0 : within(manual);
  } else if (flow === null) {
    mode = stands ? 'starting' : 'holding';
    integral -= jump;
    percent = mode === 'starting' ? 0 : within(state.percent);
  } else {
    // where the hand has let go, the loop goes on from the speed it left
    if (state.byHand) integral = state.percent - base - proportional;
    else if (state.mode !== 'starting') integral -= jump;
    const step = (proportional * seconds) / prepared.integralSeconds;
    const wanted = base + proportional + integral + step;
    percent = within(wanted);
    integral += followed(step, wanted, percent);
  }
  percent = percent === 0 ? 0 : inSteps(prepared, state.percent, percent);
  const lost = flow === null;
  const next: Writable<FlowControlState> = {
    version: flowStateVersion,
    percent,
    integral: limitedIntegral(integral, base),
    feedForward,
    mlPerMin: prepared.mlPerMin,
    mm2PerS,
    mode,
    // while the signal is away, neither hand nor flow may set the speed: the last to do so stands
    byHand: mode === 'manual' || (mode !== 'automatic' && state.byHand),
    lost,
    lostSeconds: lost ? Math.min(state.lostSeconds + input.elapsedSeconds, largestFigure) : 0,
    outside,
    swing: swingAfter(prepared, state.swing, mode === 'automatic' ? deviation : 0, input.elapsedSeconds),
  };
  const off = mode === 'automatic' ? offAfter(prepared, state.off, deviation, input.elapsedSeconds) : state.off;
  if (off !== undefined) next.off = off;
  return { state: next, percent, events: eventsBetween(state, next) };
}

/** As much of the integral part's step as the output can follow. */
function followed(step: number, wanted: number, reached: number): number {
  if (reached === wanted) return step;
  const share = reached - (wanted - step);
  return step > 0 ? Math.min(Math.max(share, 0), step) : Math.max(Math.min(share, 0), step);
}

/** One absurd sample at the moment the hand lets go must not hold the output at a limit for hours. */
function limitedIntegral(integral: number, base: number): number {
  return Math.min(Math.max(integral, -mostIntegral - base), mostIntegral - base);
}

/** What of a deviation lies beyond the deadband, so that the output does not jump at its edge. */
function beyondDeadband(deviation: number, deadband: number): number {
  if (deviation > deadband) return deviation - deadband;
  return deviation < -deadband ? deviation + deadband : 0;
}

/** Slew first, limits last, so that the limits always hold. */
function limited(prepared: PreparedFlowControl, from: number, to: number, seconds: number): number {
  const most = Math.max(prepared.slewPerSecond * seconds, prepared.percentStep);
  const slewed = Math.min(Math.max(to, from - most), from + most);
  return Math.min(Math.max(slewed, prepared.leastPercent), prepared.mostPercent);
}

/** The lowest speed of a running pump. */
function lowest({ percentStep, leastPercent }: PreparedFlowControl): number {
  return percentStep === 0 ? leastPercent : Math.ceil(leastPercent / percentStep) * percentStep;
}

/** The nearest step of the drive within the limits; the present one if less than three quarters of a step away. */
function inSteps(prepared: PreparedFlowControl, from: number, to: number): number {
  const { percentStep: step, leastPercent, mostPercent } = prepared;
  if (step === 0) return to;
  const onStep = from === Math.floor(from / step + 0.5) * step && from >= leastPercent && from <= mostPercent;
  if (onStep && Math.abs(to - from) < 0.75 * step) return from;
  const nearest = Math.floor(to / step + 0.5) * step;
  if (nearest < leastPercent) return lowest(prepared);
  // 39 steps of a 39th of 100 are more than 100 by a rounding
  return nearest > mostPercent ? Math.min(Math.floor(mostPercent / step) * step, mostPercent) : nearest;
}

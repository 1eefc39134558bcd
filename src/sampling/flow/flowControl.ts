/**
 * Keeping the flow: one step of a discrete controller, for a gateway that sets the sample pump itself. The caller holds
 * the state.
 */
import { largestFigure } from '../../rules/bounds.ts';
import { requirePrepared } from '../../state/prepared.ts';
import type { Writable } from '../../state/writable.ts';
import { eventsBetween, isStopped, lostStepsOf } from './events.ts';
import { beyondLeft, feedForwardOf, leftAfter, leftToFeedForward } from './feedForward.ts';
import { delayOf } from './flowControlFor.ts';
import { offAfter, swingAfter } from './oscillation.ts';
import { readStep } from './readStep.ts';
import { flowStateVersion, limitedIntegral, noViscosity, stepsThatTell } from './rules.ts';
import { lowest, speedTowards } from './speed.ts';
import { atLimitAfter, dryAfter, isBelow0, shifted, stillAfter } from './still.ts';
import type { FlowControlEvent, FlowControlInput, FlowControlState, PreparedFlowControl } from './types.ts';

/**
 * One step of a PI controller of flow with viscosity feed-forward.
 *
 * - Output limits: a running pump never leaves them, whatever else is wanted. Then slew: never faster than
 *   `slewPerSecond`, by hand as well.
 * - Stop: a speed of 0 by hand, or below half of `leastPercent`, stops the pump at once, without the slew. It comes
 *   before all else: what else cannot be read, a damaged state too, is told by `input_unread` and does not throw. The
 *   pump stays stopped, also through `resumeFlowControl` and with `manualPercent` left out, until a step has `start:
 *   true` or another speed by hand. `ready: false` of a drive stops it too, until `start: true`.
 * - Anti-windup: where a limit or the slew holds the output back, the integral part takes no more of its step than the
 *   output can follow.
 * - Bumpless: after manual, the output goes on from where it is. So it does where a viscosity is back after a gap, or
 *   where `feedForward` was changed. Feed-forward acts on changes of viscosity from one step to the next and on the
 *   setpoint: between the results of a slow viscometer pass the last one, not null, so that they are fed forward.
 * - Lost flow signal: the output is held, `lostSeconds` counts, and the integral part is kept. With the next sample the
 *   loop goes on as if nothing had been lost. How long a loss may last is for the caller to decide. A standing pump is
 *   not started blind: the output stays 0 until there is a flow signal or a speed set by hand. Nor is it on oil that is
 *   told to be thicker than `mostMm2PerS`.
 * - Drive in steps (`percentStep`): the output is a whole number of steps, and moves when the wanted speed is three
 *   quarters of a step away: one step each `percentStep` / `slewPerSecond` seconds at most.
 * - Deadband: within it the flow is left alone.
 * - From a standing pump the first speed is the lowest, however long it stood. Where a feed-forward is known, a start
 *   or a change of setpoint is left to it for two response times (dead time, lag and a step): it goes to its speed by
 *   the slew, and the loop answers what is left then.
 * - Frozen flow signal: where the figure stays the same although the speed has moved for longer than a response time by
 *   what should be a fifth of the setpoint, the speed goes back to where the signal last moved, until it moves again. A
 *   sound meter may show one figure for long below a tenth of the setpoint after a start, above it after a hand let go,
 *   and where its range ends: neither these nor a figure more than a fifth above the setpoint are judged so.
 * - A flow down to a twentieth of the setpoint below 0, as a meter at rest shows it, is read as 0. One farther below is
 *   a lost signal: a broken wire of 4 to 20 mA shows so. A viscosity that is not above 0 is not known. Of a standing
 *   pump pass what the meter shows; null means that there is no signal, and the pump is not started.
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
 * @throws `not_prepared`; where the step is no stop, `bad_state` and errors of type and range for the input.
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
  const { before, step, unread } = readStep(prepared, state, input);
  const { state: after, events } = advanced(prepared, before, step);
  const { mode, percent } = after;
  if (!isStopped(before))
    for (const parameter of unread) events.push({ event: 'input_unread', mode, percent, parameter });
  return { state: after, percent, events };
}

/** The step itself, of what can be read. */
function advanced(
  prepared: PreparedFlowControl,
  state: FlowControlState,
  input: FlowControlInput,
): { state: FlowControlState; events: FlowControlEvent[] } {
  const seconds = Math.min(input.elapsedSeconds, prepared.longestStepSeconds);
  const viscosity = input.mm2PerS ?? 0;
  const mm2PerS = prepared.feedForward === null || viscosity <= noViscosity ? null : viscosity;
  const fed = feedForwardOf(prepared, state, mm2PerS);
  const base = fed.percent ?? 0;
  const { mlPerMin } = input;
  const flow = mlPerMin === null || isBelow0(mlPerMin, prepared.mlPerMin) ? null : Math.max(mlPerMin, 0);
  const deviation = flow === null ? 0 : prepared.mlPerMin - flow;
  const why = startRefusal(prepared, state, input, flow);
  const starts = input.start === true && why === null && input.manualPercent !== 0;
  const cut = input.ready === false || (state.cut === true && !starts);
  const manual = cut ? 0 : (input.manualPercent ?? (isStopped(state) && !starts ? 0 : null));
  // one whose lowest speed is 0 cannot be told from one that stands, and need not
  const stands = state.mode === 'starting' || (state.percent === 0 && prepared.leastPercent > 0);
  const still = flow === null ? state.still : stillAfter(prepared, state, flow, seconds);
  const left = leftToFeedForward(prepared, state, stands, fed.percent, flow);
  const gain = gainAt(prepared, input.elapsedSeconds);
  const proportional = gain * beyondDeadband(beyondLeft(deviation, left), prepared.deadbandMlPerMin);
  const towards = (percent: number) => speedTowards(prepared, state, percent, seconds);

  let mode: FlowControlState['mode'] = 'automatic';
  let speed = { reached: 0, percent: 0, slewLeft: 0 };
  let integral = state.integral - (state.mode === 'starting' ? 0 : fed.jump);
  let isThere = false;
  if (manual !== null) {
    mode = 'manual';
    integral = state.integral;
    if (manual !== 0) speed = towards(manual);
  } else if (flow === null || (stands && why !== null)) {
    mode = stands ? 'starting' : 'holding';
    if (!stands) speed = towards(state.percent);
  } else if (still?.told === true && still.percent !== null) {
    // back to where the signal last moved, and on from there when it moves again
    mode = 'holding';
    speed = towards(base + still.percent - fed.jump);
    integral = speed.percent - base;
  } else if (stands) {
    // it stood, for however long: the slew and the integral part begin now
    speed = { reached: 0, percent: lowest(prepared), slewLeft: 0 };
    integral = 0;
  } else {
    // where the hand has let go, the loop goes on from the speed it left
    if (state.byHand) integral = state.percent - base - proportional;
    const step = (proportional * seconds) / prepared.integralSeconds;
    const wanted = base + proportional + integral + step;
    speed = towards(wanted);
    integral += followed(step, wanted, speed.reached);
    isThere = speed.reached === Math.min(Math.max(wanted, prepared.leastPercent), prepared.mostPercent);
  }
  const { percent, slewLeft } = speed;
  const lost = flow === null;
  const turns = state.turning ?? 0;
  // a gap says neither
  const turning =
    mm2PerS === null && prepared.feedForward !== null ? turns : fed.outside === state.outside ? 0 : turns + 1;
  const next: Writable<FlowControlState> = {
    version: flowStateVersion,
    percent,
    integral: limitedIntegral(integral, base),
    feedForward: fed.percent,
    mlPerMin: prepared.mlPerMin,
    mm2PerS,
    mode,
    // while the signal is away, neither hand nor flow may set the speed: the last to do so stands
    byHand: mode === 'manual' || (mode !== 'automatic' && state.byHand),
    lost,
    lostSeconds: lost ? Math.min(state.lostSeconds + input.elapsedSeconds, largestFigure) : 0,
    outside: turning < stepsThatTell ? state.outside : fed.outside,
    swing: swingAfter(prepared, state.swing, mode === 'automatic' ? deviation : 0, input.elapsedSeconds),
  };
  const runs = mode === 'automatic' && !stands;
  const off = runs ? offAfter(prepared, state.off, deviation, seconds) : state.off;
  const atLimit = runs ? atLimitAfter(prepared, state.atLimit, percent, seconds) : state.atLimit;
  const after = leftAfter(prepared, left, deviation, isThere ? seconds : 0);
  if (lost) next.lostSteps = Math.min(lostStepsOf(state) + 1, stepsThatTell);
  if (turning > 0 && turning < stepsThatTell) next.turning = turning;
  if (cut) next.cut = true;
  if (mode === 'starting' && (state.refused === true || why === 'too_thick')) next.refused = true;
  if (slewLeft > 0) next.slewLeft = slewLeft;
  if (off !== undefined) next.off = off;
  if (atLimit !== undefined) next.atLimit = atLimit;
  if (manual !== null && percent > 0) {
    const dry = flow === null ? state.dry : dryAfter(prepared, state.dry, flow, seconds);
    if (dry !== undefined) next.dry = dry;
  }
  if (after !== undefined && manual === null) next.left = after;
  if (still !== undefined && (manual === null || still.told))
    next.still = shifted(still, state.mode === 'starting' ? 0 : fed.jump);
  const events = eventsBetween(state, next, mlPerMin);
  if (why !== null && percent === 0 && (input.start === true || (next.refused === true && state.refused !== true)))
    events.push({ event: 'start_refused', mode, percent, why });
  return { state: next, events };
}

/** Why a standing pump cannot be started at this step; null where it can, and of a speed by hand. */
function startRefusal(
  { mostMm2PerS }: PreparedFlowControl,
  { refused }: FlowControlState,
  { manualPercent, mm2PerS, ready, start }: FlowControlInput,
  flow: number | null,
): NonNullable<FlowControlEvent['why']> | null {
  if (ready === false) return 'not_ready';
  if ((manualPercent ?? null) !== null) return null;
  if (flow === null) return 'no_signal';
  if (mostMm2PerS === null) return null;
  const viscosity = mm2PerS ?? 0;
  // one that waits for thinner oil goes on so without a viscosity, until an operator starts it
  const isThick = viscosity > noViscosity ? viscosity > mostMm2PerS : refused === true && start !== true;
  return isThick ? 'too_thick' : null;
}

/**
 * The gain for a step of this length: settings are made for one, and half of it is dead time. On a longer step the loop
 * would swing with them.
 */
function gainAt({ gain, response }: PreparedFlowControl, elapsedSeconds: number): number {
  if (response === null || elapsedSeconds <= response.stepSeconds) return gain;
  return (gain * delayOf(response, response.stepSeconds)) / delayOf(response, elapsedSeconds);
}

/** As much of the integral part's step as the output can follow. */
function followed(step: number, wanted: number, reached: number): number {
  if (reached === wanted) return step;
  const share = reached - (wanted - step);
  return step > 0 ? Math.min(Math.max(share, 0), step) : Math.max(Math.min(share, 0), step);
}

/** What of a deviation lies beyond the deadband, so that the output does not jump at its edge. */
function beyondDeadband(deviation: number, deadband: number): number {
  if (deviation > deadband) return deviation - deadband;
  return deviation < -deadband ? deviation + deadband : 0;
}

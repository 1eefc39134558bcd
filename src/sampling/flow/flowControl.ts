/**
 * Keeping the flow: one step of a discrete controller, for a gateway that sets the sample pump itself. The caller holds the state.
 */
import { requireWithin } from '../../checks.ts';
import type { Source } from '../../source.ts';
import { feedForwardOf } from './feedForward.ts';
import { checkConfig, checkInput, checkState } from './flowControlChecks.ts';
import { eventsBetween } from './flowControlEvents.ts';
import type { FlowControlConfig, FlowControlEvent, FlowControlInput, FlowControlState } from './flowControlTypes.ts';

/** The form of the controller. */
export const flowControlSource: Source = {
  document: 'K. J. Åström and T. Hägglund, PID Controllers: Theory, Design, and Tuning',
  edition: '2nd, 1995',
  place: 'chapter 3: integrator windup (conditional integration), bumpless transfer, discretization',
  standing: 'from memory',
};

/** The state before the first step. `percent` is the speed the pump runs at (0, standing, where left out); a running pump goes on from there. */
export function startFlowControl(percent = 0): FlowControlState {
  requireWithin(percent, 'percent', 0, 100);
  return {
    percent,
    integral: 0,
    feedForward: null,
    mlPerMin: null,
    mm2PerS: null,
    mode: percent > 0 ? 'manual' : 'starting',
    byHand: percent > 0,
    lost: false,
    lostSeconds: 0,
    outside: false,
  };
}

/**
 * One step of a PI controller of flow with viscosity feed-forward.
 *
 * - Output limits: never left by a running pump, whatever else is asked. Then slew: never faster than `slewPerSecond`, by hand as well.
 * - Anti-windup: the integral part stands still while a limit holds the output back from where it would go.
 * - Bumpless: from manual to automatic, and after a lost signal, the output goes on from where it is. So it does where a viscosity is back after
 *   a gap, or where `feedForward` was changed. Feed-forward acts on changes of viscosity from one step to the next and on the setpoint: between
 *   the results of a slow viscometer pass the last one, not null, so that they are fed forward.
 * - Lost flow signal: the output is held, and `lostSeconds` counts. How long that may last is for the caller to decide. A standing pump is not
 *   started blind: the output stays 0 until there is a flow signal or a speed set by hand.
 *
 * The pump, not this function, must be safe: it neither sees a closed valve nor a dry inlet. A pump that runs against a closed line
 * builds pressure that bursts hoses and injures; relief valve, dry-run and over-pressure stops belong in the machine's own protection.
 *
 * Steps of 0.2 to 2 s suit lines with time constants of a few seconds. Source: Åström and Hägglund, PID Controllers (1995), chapter 3.
 *
 * @throws errors of type and range for configuration and input; `bad_state` for a state that is none of its own.
 *
 * @example
 * ```ts
 * import { advanceFlowControl, startFlowControl } from 'motescale/sampling';
 * const config = { mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5,
 *   feedForward: { curve: [{ mm2PerS: 60, percent: 22 }, { mm2PerS: 150, percent: 37 }], mlPerMin: 100 } };
 * const first = advanceFlowControl(config, startFlowControl(), { elapsedSeconds: 1, mlPerMin: 0, mm2PerS: 75 });
 * first.percent; // => 5
 * const second = advanceFlowControl(config, first.state, { elapsedSeconds: 1, mlPerMin: 12, mm2PerS: 75 });
 * second.percent; // => 10
 * ```
 */
export function advanceFlowControl(
  config: FlowControlConfig,
  state: FlowControlState,
  input: FlowControlInput,
): { state: FlowControlState; percent: number; events: readonly FlowControlEvent[] } {
  checkConfig(config);
  checkState(state);
  checkInput(input);
  const seconds = Math.min(input.elapsedSeconds, config.longestStepSeconds ?? 10);
  const mm2PerS = config.feedForward === undefined ? null : (input.mm2PerS ?? null);
  const { percent: feedForward, jump, outside } = feedForwardOf(config, state, mm2PerS);
  const base = feedForward ?? 0;
  const flow = input.mlPerMin;
  const deviation = flow === null ? 0 : config.mlPerMin - flow;
  const proportional = config.gain * deviation;
  const manual = input.manualPercent ?? null;
  const within = (percent: number) => limited(config, state.percent, percent, seconds);

  let mode: FlowControlState['mode'] = 'automatic';
  let percent: number;
  let integral = state.integral;
  if (manual !== null) {
    mode = 'manual';
    percent = within(manual);
  } else if (flow === null) {
    mode = state.mode === 'starting' ? 'starting' : 'holding';
    percent = mode === 'starting' ? 0 : within(state.percent);
  } else {
    if (state.mode === 'manual' || state.mode === 'holding') integral = state.percent - base - proportional;
    else if (state.mode === 'automatic') integral -= jump;
    const step = (proportional * seconds) / config.integralSeconds;
    const wanted = base + proportional + integral + step;
    percent = within(wanted);
    const heldBack = (wanted > percent && step > 0) || (wanted < percent && step < 0);
    if (heldBack) percent = within(wanted - step);
    else integral += step;
  }
  const lost = flow === null;
  const lostSeconds = lost ? state.lostSeconds + input.elapsedSeconds : 0;
  // while the signal is away, neither hand nor flow may set the speed: the last to do so stands
  const byHand = mode === 'manual' || (mode !== 'automatic' && state.byHand);
  const { mlPerMin } = config;
  const next = { percent, integral, feedForward, mlPerMin, mm2PerS, mode, byHand, lost, lostSeconds, outside };
  return { state: next, percent, events: eventsBetween(state, next) };
}

/** Slew first, limits last, so that the limits always hold. */
function limited(config: FlowControlConfig, from: number, to: number, seconds: number): number {
  const most = config.slewPerSecond * seconds;
  const slewed = Math.min(Math.max(to, from - most), from + most);
  return Math.min(Math.max(slewed, config.leastPercent), config.mostPercent);
}

/**
 * The flow controller's plain data: what it is told once, what it is told at each step, what it remembers, what it
 * reports.
 */
import type { Prepared } from '../../state/prepared.ts';
import type { StepResponse } from './flowControlFor.ts';
import type { flowModes, flowStateVersion } from './rules.ts';
import type { SpeedPoint } from './speedForViscosity.ts';

/** What the controller is told once. Percent is percent of full pump speed. */
export interface FlowControlConfig {
  /** Wanted flow, mL/min, above 0. */
  readonly mlPerMin: number;
  /** Percent of speed for each mL/min of deviation, above 0. `flowControlFor` gives it for a pump. */
  readonly gain: number;
  /** Time in which the integral part repeats the proportional part, s, above 0. */
  readonly integralSeconds: number;
  /** Output limits, percent, 0 to 100. */
  readonly leastPercent: number;
  /**
   * Above 1, since it is no share. Safety: a dead meter or a thick oil brings the pump there, so choose it by what the
   * pump gives there: still within the flow window of the sensor, below the relief valve by `lineFlow`, and above the
   * inlet limit by `suctionByTemperature`, each with the oil as cold as it comes.
   */
  readonly mostPercent: number;
  /** Fastest change of the output, percent per second, above 0. */
  readonly slewPerSecond: number;
  /**
   * Speeds found when commissioning, and the flow they gave: where the viscosity is known, the output starts from
   * there. For another setpoint they are taken in proportion, which is too low below this flow and too high above
   * wherever slip does not change with it: a pump that slips 30 mL/min at 2 mL/min for each percent needs 45 % for 60
   * mL/min, and 27.5 % for 25, not 18.75 %. The loop makes up for it; better commission at the setpoint.
   */
  readonly feedForward?: { readonly curve: readonly SpeedPoint[]; readonly mlPerMin: number };
  /**
   * A longer interval between two steps counts as this one, s, so that a gateway that slept does not jump. 10 where
   * left out.
   */
  readonly longestStepSeconds?: number;
  /**
   * For a drive that takes speeds in steps of so many percent: the output is a whole number of them. 0, any speed,
   * where left out.
   */
  readonly percentStep?: number;
  /**
   * A flow so near the setpoint is left alone, mL/min: about 0.75 of what one step of speed changes. Less than half the
   * setpoint; 0 where left out.
   */
  readonly deadbandMlPerMin?: number;
  /**
   * Safety: the thickest oil the pump is started on by the flow, mm²/s, as `suctionLimits` gives it for the inlet. On a
   * thicker one a standing pump is not started but by a speed by hand, and one that runs is not stopped. Without a
   * viscosity it is not asked: begin with `stopped: true`, or hand over that of the temperature from the first step on.
   * Any where left out.
   */
  readonly mostMm2PerS?: number;
  /**
   * The step test the settings were made from, as `flowControlFor` passes it on. With it, a step longer than
   * `stepSeconds` gets a lower gain, as the rule has it for this step; and it says when the flow must have answered a
   * change of speed. Where left out, the gain stays, and the answer is waited for during four `integralSeconds`.
   */
  readonly response?: Required<Omit<StepResponse, 'percentStep'>>;
}

/** A configuration that `prepareFlowControl` has checked, with everything left out filled in. */
export interface PreparedFlowControl
  extends Required<Omit<FlowControlConfig, 'feedForward' | 'response' | 'mostMm2PerS'>>,
    Prepared<'flow_control'> {
  readonly response: NonNullable<FlowControlConfig['response']> | null;
  readonly feedForward: NonNullable<FlowControlConfig['feedForward']> | null;
  readonly mostMm2PerS: number | null;
}

/** What the controller remembers: plain data, to be saved and restored as it is. */
export interface FlowControlState {
  readonly version: typeof flowStateVersion;
  /** The last output. */
  readonly percent: number;
  /** The integral part of it. */
  readonly integral: number;
  /** The part that comes from the viscosity; null until one is known. */
  readonly feedForward: number | null;
  /** The setpoint of the last step, which `feedForward` is for; null before the first. */
  readonly mlPerMin: number | null;
  /** The viscosity at the last step; null where it was not known. */
  readonly mm2PerS: number | null;
  /** What the last step did. `starting`: the pump stands until there is a flow signal, and oil that is thin enough. */
  readonly mode: (typeof flowModes)[number];
  /** Whether the speed was last set by hand, and since then not by the flow. */
  readonly byHand: boolean;
  /** Whether the flow signal was lost at the last step. */
  readonly lost: boolean;
  /** How long the flow signal has been lost, s. */
  readonly lostSeconds: number;
  /** Whether the viscosity lies outside the commissioning points: it changes with the sixth step in turn. */
  readonly outside: boolean;
  /**
   * Swings of the flow: the side of the setpoint it last passed, since when, how many came in turn, and the smoothed
   * deviation.
   */
  readonly swing: {
    readonly side: -1 | 0 | 1;
    readonly mean: number;
    readonly seconds: number;
    readonly count: number;
    /** Turns from each step to the next, below 0 where the flow was above the setpoint last; left out where none. */
    readonly turns?: number;
  };
  /**
   * For how long the flow has stayed off the setpoint while the flow set the speed, s, less three times what it was
   * near it since; `told` from `off_setpoint` until it is 0 again; and the smoothed deviation.
   */
  readonly off?: { readonly seconds: number; readonly told: boolean; readonly mean?: number };
  /** How many steps in turn had no flow signal, 6 at most; left out where the last had one. */
  readonly lostSteps?: number;
  /** How many steps in turn the viscosity was where `outside` says it is not; left out where none. */
  readonly turning?: number;
  /** The drive was not ready: the pump stands until `start: true`; left out where it may run. */
  readonly cut?: boolean;
  /** Its start waits for thinner oil, which has been told; left out where it does not. */
  readonly refused?: boolean;
  /** What of the slew a drive in steps has not used, percent; left out where nothing. */
  readonly slewLeft?: number;
  /** The deviation that is left to the feed-forward after a start or a change of setpoint, and since when, s. */
  readonly left?: { readonly mlPerMin: number; readonly seconds: number };
  /**
   * The flow signal since it last changed: its figure, the speed then, without what came from the viscosity (null where
   * a sound meter may show this figure for long), for how long, and for how long the speed has been far from there;
   * `told` from `signal_frozen` on.
   */
  readonly still?: {
    readonly mlPerMin: number;
    readonly percent: number | null;
    readonly seconds: number;
    readonly farSeconds: number;
    readonly told: boolean;
  };
  /** For how long the output has stood at a limit, s, less what it did not since; left out where it is 0. */
  readonly atLimit?: { readonly seconds: number; readonly told: boolean };
  /** For how long a pump set by hand has run without flow, s; left out where there is flow. */
  readonly dry?: { readonly seconds: number; readonly told: boolean };
}

/** What the controller is told at each step. */
export interface FlowControlInput {
  /** Time since the last step, s, 0 or more. */
  readonly elapsedSeconds: number;
  /**
   * Measured flow, mL/min; null where the signal is lost, and more than a twentieth of the setpoint below 0 means so.
   */
  readonly mlPerMin: number | null;
  /**
   * Kinematic viscosity, mm²/s; left out, null, or 0 and less where it is not known: the last one stands, and what
   * comes after it makes no jump.
   */
  readonly mm2PerS?: number | null;
  /**
   * A speed set by hand, percent; below half of `leastPercent`, and 0, stops the pump. Left out or null for automatic,
   * but of a stopped pump.
   */
  readonly manualPercent?: number | null;
  /**
   * Once true, a pump that was stopped may run again. Give it for one step, where an operator starts it: where it
   * cannot start at this step, `start_refused` tells. One that was stopped stays so; one that has not run yet starts by
   * itself when it can.
   */
  readonly start?: boolean | undefined;
  /**
   * Safety: false where the drive is not ready to run (emergency stop, tripped, isolated). It stops the pump as a speed
   * of 0 by hand does, so that nothing winds up; and it stays stopped, whatever speed is set by hand, until `start:
   * true`, so that it does not start by itself when the drive is reset. Where left out, give a `manualPercent` of 0
   * meanwhile: else the speed rises to `mostPercent`, at which the pump starts by itself when the drive is back.
   */
  readonly ready?: boolean | undefined;
}

/**
 * Something that happened at a step; `flowControlText` says it in words. The events come in pairs and take turns: a
 * speed no longer set by hand while the flow signal is lost is held, and `to_automatic` comes when the flow sets it.
 *
 * `signal_lost` is told at the sixth step in turn without a signal; `lost` of the state says it at once. `started`
 * comes with the first speed of a pump that stood, `stopped` where it was stopped by hand or by its drive;
 * `start_refused` where it cannot start: `why`. `input_unread` tells what could not be read in a step that stops the
 * pump: `parameter`. These two have no counterpart. `no_flow` comes where a pump
 * set by hand has run for ten response times and 20 steps with a twentieth of the setpoint or less.
 *
 * `off_setpoint` comes late: after 100 `integralSeconds` and (`mostPercent` - `leastPercent`) / `slewPerSecond`, and 20
 * steps: 20 minutes with the settings of `flowControlFor` for a lag of 12 s, judged by a deviation that is smoothed.
 * `speed_at_limit` comes after ten response times and 20 steps. They protect nothing. `signal_frozen` is told of a
 * figure that stays the same, so now and then of a sound meter in steps of a twentieth of the setpoint or more; of one
 * that trembles by a five-hundredth only where the speed runs away within five response times. A meter that shows 0.8
 * or 1.2 of the flow is not told. `oscillation` takes noise of 3 % (one standard deviation) for swings now and then, of
 * 4 % and more soon, and of 2 % and more where it is alike from step to step, as a filter leaves it: give means of
 * samples that no other step has.
 */
export interface FlowControlEvent {
  readonly event:
    | 'signal_lost'
    | 'signal_back'
    | 'to_manual'
    | 'to_automatic'
    | 'viscosity_outside'
    | 'viscosity_inside'
    | 'oscillation'
    | 'oscillation_ended'
    | 'off_setpoint'
    | 'at_setpoint'
    | 'signal_frozen'
    | 'signal_frozen_ended'
    | 'speed_at_limit'
    | 'speed_off_limit'
    | 'stopped'
    | 'started'
    | 'start_refused'
    | 'input_unread'
    | 'no_flow'
    | 'no_flow_ended';
  /** What the pump does: as `mode` of the state. */
  readonly mode: FlowControlState['mode'];
  /** The output, percent. */
  readonly percent: number;
  /** On `signal_lost`: what the meter shows, where that is too far below 0 to be a flow. */
  readonly mlPerMin?: number;
  /** On `start_refused`. */
  readonly why?: 'no_signal' | 'too_thick' | 'not_ready';
  /** On `input_unread`: such as `input.mlPerMin`. */
  readonly parameter?: string;
}

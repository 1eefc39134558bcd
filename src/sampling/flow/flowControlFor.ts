/** Settings of the flow controller for a pump and its line, from a step test, by a published rule. */
import { requireMembers, requireNonNegative, requireObject, requirePositive } from '../../checks.ts';

/** A pump and its line, as a step of speed shows them. */
export interface StepResponse {
  /** What one percent of speed changes the flow by in the end, mL/min for each percent, above 0. */
  readonly gain: number;
  /** Time until 63 % of the change is there, counted from its beginning, s, above 0. */
  readonly lagSeconds: number;
  /** Time until anything changes at all, s, 0 or more. */
  readonly deadSeconds: number;
  /** Time between two steps of the controller, s, above 0. 1 where left out. */
  readonly stepSeconds?: number;
  /** The step of speed the drive can make, percent, 0 or more. 0, any speed, where left out. */
  readonly percentStep?: number;
}

/** What `prepareFlowControl` takes of it. */
export interface FlowControlSettings {
  readonly gain: number;
  readonly integralSeconds: number;
  readonly longestStepSeconds: number;
  readonly percentStep: number;
  readonly deadbandMlPerMin: number;
  /** What they were made from. */
  readonly response: Required<Omit<StepResponse, 'percentStep'>>;
}

/**
 * Gain and integral time for a pump, by the SIMC rule with its closed-loop time set to the dead time.
 *
 * Make a step test to find the three figures: set a speed by hand, wait until the flow is steady, change the speed by a
 * few percent, and watch. Open the return line and check the relief valve before you do. Half the time between two
 * steps counts as dead time, as the rule has it for a sampled controller. With no dead time at all, a tenth of the lag
 * is taken for it.
 *
 * With `percentStep`, the deadband is 0.75 of what one step of speed changes: two neighbouring speeds then always leave
 * the flow within it (common practice). From half the setpoint on, `prepareFlowControl` refuses it: a step of it is
 * then two thirds of the flow, and no loop can hold it.
 *
 * @throws `out_of_range`, `negative`, `wrong_type` for a figure; `unknown_option` for a misspelt one.
 *
 * Source: S. Skogestad, Simple analytic rules for model reduction and PID controller tuning, Journal of Process Control
 * 13 (2003) 291-309, equations 23 and 24 and the half rule (from memory).
 *
 * @example
 * ```ts
 * import { flowControlFor } from 'motescale/sampling';
 * const settings = flowControlFor({ gain: 2.4, lagSeconds: 12, deadSeconds: 5.5 });
 * settings.gain; // ~> 0.4167
 * settings.integralSeconds; // => 12
 * ```
 */
export function flowControlFor(response: StepResponse): FlowControlSettings {
  requireObject(response, 'response', 'a step response { gain, lagSeconds, deadSeconds }');
  requireMembers(response, 'response', ['gain', 'lagSeconds', 'deadSeconds', 'stepSeconds', 'percentStep']);
  const gain = requirePositive(response.gain, 'response.gain');
  const lagSeconds = requirePositive(response.lagSeconds, 'response.lagSeconds');
  const deadSeconds = requireNonNegative(response.deadSeconds, 'response.deadSeconds');
  const stepSeconds = requirePositive(response.stepSeconds ?? 1, 'response.stepSeconds');
  const percentStep = requireNonNegative(response.percentStep ?? 0, 'response.percentStep');
  const delay = delayOf({ lagSeconds, deadSeconds }, stepSeconds);
  return {
    gain: lagSeconds / (gain * 2 * delay),
    integralSeconds: Math.min(lagSeconds, 8 * delay),
    longestStepSeconds: Math.max(10, 2 * stepSeconds),
    percentStep,
    deadbandMlPerMin: 0.75 * percentStep * gain,
    response: { gain, lagSeconds, deadSeconds, stepSeconds },
  };
}

/** What the rule takes for the dead time, s, where two steps lie so far apart. */
export function delayOf(
  { lagSeconds, deadSeconds }: Pick<StepResponse, 'lagSeconds' | 'deadSeconds'>,
  stepSeconds: number,
): number {
  return Math.max(deadSeconds + stepSeconds / 2, lagSeconds / 10);
}

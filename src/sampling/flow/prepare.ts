/** The flow controller prepared, started and resumed. */
import { requireBoolean, requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { markOf, requirePrepared } from '../../state/prepared.ts';
import { checkFlowConfig, checkFlowState } from './checks.ts';
import { flowState1Rule, flowStateRule, flowStateVersion, limitedIntegral, requirePercent } from './rules.ts';
import type { FlowControlConfig, FlowControlEvent, FlowControlState, PreparedFlowControl } from './types.ts';

const noSwing: FlowControlState['swing'] = { side: 0, mean: 0, seconds: 0, count: 0 };

/**
 * Checks a configuration, fills in what it leaves out, and returns it for `startFlowControl` and `advanceFlowControl`.
 *
 * @throws `bad_configuration`; `problemsOf` gives every mistake.
 *
 * @example
 * ```ts
 * import { prepareFlowControl } from 'motescale/sampling';
 * const range = { leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
 * const prepared = prepareFlowControl({ mlPerMin: 45, gain: 0.2, integralSeconds: 4, ...range });
 * prepared.longestStepSeconds; // => 10
 * ```
 */
export function prepareFlowControl(config: FlowControlConfig): PreparedFlowControl {
  checkFlowConfig(config);
  const { mlPerMin, gain, integralSeconds, leastPercent, mostPercent, slewPerSecond, feedForward = null } = config;
  const {
    longestStepSeconds = 10,
    percentStep = 0,
    deadbandMlPerMin = 0,
    response = null,
    mostMm2PerS = null,
  } = config;
  return {
    ...markOf('flow_control'),
    mlPerMin,
    gain,
    integralSeconds,
    leastPercent,
    mostPercent,
    slewPerSecond,
    // copies: a configuration edited afterwards must not move the pump
    feedForward: feedForward && { ...feedForward, curve: feedForward.curve.map((point) => ({ ...point })) },
    longestStepSeconds,
    percentStep,
    deadbandMlPerMin,
    response: response && { ...response },
    mostMm2PerS,
  };
}

/**
 * The state before the first step.
 *
 * @param options `percent`: the speed the pump runs at now, 0 to 100; 0, standing, where left out. A running pump goes
 *   on from there. `stopped`: it was stopped by hand, and stays so until `start: true`; give what the state saved
 *   before a power cut says (`mode` is `manual` and `percent` 0).
 *
 * @example
 * ```ts
 * import { prepareFlowControl, startFlowControl } from 'motescale/sampling';
 * const range = { leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
 * const prepared = prepareFlowControl({ mlPerMin: 45, gain: 0.2, integralSeconds: 4, ...range });
 * startFlowControl(prepared).mode; // => 'starting'
 * startFlowControl(prepared, { percent: 31 }).mode; // => 'manual'
 * ```
 */
export function startFlowControl(
  prepared: PreparedFlowControl,
  options: { readonly percent?: number | undefined; readonly stopped?: boolean | undefined } = {},
): FlowControlState {
  requirePrepared(prepared, 'flow_control', 'prepareFlowControl');
  requireObject(options, 'options', undefined, ['percent', 'stopped']);
  const percent = requirePercent(options.percent ?? 0, 'options.percent');
  const stopped = requireBoolean(options.stopped ?? false, 'options.stopped');
  if (stopped && percent > 0) throw motescaleError('out_of_range', 'options.percent', percent, '0 of a stopped pump');
  const byHand = stopped || percent > 0;
  return {
    version: flowStateVersion,
    percent,
    integral: 0,
    feedForward: null,
    mlPerMin: null,
    mm2PerS: null,
    mode: byHand ? 'manual' : 'starting',
    byHand,
    lost: false,
    lostSeconds: 0,
    outside: false,
    swing: { ...noSwing },
  };
}

/**
 * The state to go on from after it was saved, of this version of the library or of any before. The speed saved is given
 * again at once: only for a pump that ran on. After a power cut it stands, and `startFlowControl` is the one to call.
 *
 * The controller's state belongs to no configuration: under another one the output goes on from where it is, so all is
 * kept.
 *
 * @throws `bad_state` for a state that is damaged.
 *
 * @example
 * ```ts
 * import { prepareFlowControl, resumeFlowControl, startFlowControl } from 'motescale/sampling';
 * const range = { leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
 * const prepared = prepareFlowControl({ mlPerMin: 45, gain: 0.2, integralSeconds: 4, ...range });
 * const saved = JSON.stringify(startFlowControl(prepared, { percent: 31 }));
 * resumeFlowControl(prepared, JSON.parse(saved)).state.percent; // => 31
 * ```
 */
export function resumeFlowControl(
  prepared: PreparedFlowControl,
  state: unknown,
): { state: FlowControlState; events: FlowControlEvent[]; kept: string[]; dropped: string[]; added: string[] } {
  requirePrepared(prepared, 'flow_control', 'prepareFlowControl');
  const older = (state as FlowControlState | null | undefined)?.version === undefined;
  checkFlowState(state, older ? flowState1Rule : flowStateRule);
  const saved = state as FlowControlState;
  const now = older ? ofNow(saved) : saved;
  return { state: now, events: [], kept: ['output'], dropped: [], added: older ? ['swing'] : [] };
}

/** A state of version 0.1.0, whose integral part had no limit. */
function ofNow(old: FlowControlState): FlowControlState {
  const integral = limitedIntegral(old.integral, old.feedForward ?? 0);
  return { ...old, integral, version: flowStateVersion, swing: { ...noSwing } };
}

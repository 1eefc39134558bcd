/**
 * What is asked of configuration, state and input before the flow controller makes a step.
 */
import { requireNonNegative, requireObject, requirePositive, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import type { FlowControlConfig, FlowControlInput, FlowControlState } from './flowControlTypes.ts';
import { checkCurve } from './speedForViscosity.ts';

/** A configuration the controller can work with, or an error. */
export function checkConfig(config: FlowControlConfig): void {
  requireObject(config, 'config');
  requirePositive(config.mlPerMin, 'config.mlPerMin');
  requirePositive(config.gain, 'config.gain');
  requirePositive(config.integralSeconds, 'config.integralSeconds');
  const least = requireWithin(config.leastPercent, 'config.leastPercent', 0, 100);
  requireWithin(config.mostPercent, 'config.mostPercent', least, 100);
  requirePositive(config.slewPerSecond, 'config.slewPerSecond');
  if (config.longestStepSeconds !== undefined) requirePositive(config.longestStepSeconds, 'config.longestStepSeconds');
  if (config.feedForward === undefined) return;
  requireObject(config.feedForward, 'config.feedForward', 'a curve and its flow { curve, mlPerMin }');
  requirePositive(config.feedForward.mlPerMin, 'config.feedForward.mlPerMin');
  checkCurve(config.feedForward.curve, 'config.feedForward.curve');
}

/** A state of the controller's own, or `bad_state`. */
export function checkState(state: FlowControlState): void {
  const expected = 'a state as startFlowControl or advanceFlowControl gives it';
  const whole =
    typeof state === 'object' &&
    state !== null &&
    isNumber(state.percent) &&
    isNumber(state.integral) &&
    (state.feedForward === null || (isNumber(state.feedForward) && state.mlPerMin !== null)) &&
    (state.mlPerMin === null || isPositive(state.mlPerMin)) &&
    (state.mm2PerS === null || isPositive(state.mm2PerS)) &&
    isNumber(state.lostSeconds) &&
    [state.byHand, state.lost, state.outside].every((flag) => typeof flag === 'boolean') &&
    ['starting', 'manual', 'automatic', 'holding'].indexOf(state.mode) >= 0;
  if (!whole) throw motescaleError('bad_state', 'state', state, expected);
}

function isNumber(value: unknown): boolean {
  return typeof value === 'number' && isFinite(value);
}

function isPositive(value: unknown): boolean {
  return isNumber(value) && (value as number) >= 1e-60 && (value as number) <= 1e60;
}

/** An input the controller can work with, or an error. */
export function checkInput(input: FlowControlInput): void {
  requireObject(input, 'input');
  requireNonNegative(input.elapsedSeconds, 'input.elapsedSeconds');
  if (input.mlPerMin !== null) requireNonNegative(input.mlPerMin, 'input.mlPerMin', 'a flow of 0 or more, or null');
  if (input.mm2PerS !== undefined && input.mm2PerS !== null) requirePositive(input.mm2PerS, 'input.mm2PerS');
  if (input.manualPercent !== undefined && input.manualPercent !== null) {
    requireWithin(input.manualPercent, 'input.manualPercent', 0, 100);
  }
}

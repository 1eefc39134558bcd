/**
 * What is asked of configuration, state and input of the flow controller.
 */
import { motescaleError, noteProblem, type Problem, throwProblems } from '../../errors.ts';
import { checkRule } from '../../rules/check.ts';
import { firstOf } from '../../rules/require.ts';
import { flowControlRule, flowInputRule } from './rules.ts';
import type { FlowControlConfig, FlowControlInput, FlowControlState } from './types.ts';

/** Throws `bad_configuration` with every mistake. */
export function checkFlowConfig(config: FlowControlConfig): void {
  const problems: Problem[] = [];
  if (checkRule(flowControlRule(), config, [], problems)) {
    const { leastPercent, mostPercent, feedForward } = config;
    if (mostPercent < leastPercent) {
      noteProblem(problems, ['mostPercent'], 'out_of_range', mostPercent, `a number from ${leastPercent} to 100`);
    }
    const { percentStep: step = 0 } = config;
    if (step > 0 && Math.ceil(leastPercent / step) * step > mostPercent) {
      const expected = 'a step small enough that one speed lies within the limits';
      noteProblem(problems, ['percentStep'], 'out_of_range', step, expected);
    }
    const seen: number[] = [];
    (feedForward?.curve ?? []).forEach(({ mm2PerS }, i) => {
      const path = ['feedForward', 'curve', i, 'mm2PerS'];
      if (seen.indexOf(mm2PerS) >= 0) noteProblem(problems, path, 'out_of_range', mm2PerS, 'each viscosity once');
      seen.push(mm2PerS);
    });
  }
  throwProblems('bad_configuration', 'config', config, problems);
}

/** Throws for an input the controller cannot work with: the error is that of its first mistake. */
export function checkFlowInput(input: FlowControlInput): void {
  const problems: Problem[] = [];
  if (checkRule(flowInputRule, input, [], problems)) return;
  const { path, code, expected } = firstOf(problems) as Problem;
  const name = path[0] as keyof FlowControlInput | undefined;
  throw motescaleError(code, name === undefined ? 'input' : `input.${name}`, name ? input[name] : input, expected);
}

/** Throws `bad_state` unless the state is of this version; of an older one too where `any`. */
export function checkFlowState(state: FlowControlState, any = false): void {
  const expected = 'a state as startFlowControl, advanceFlowControl or resumeFlowControl gives it';
  if (!isWhole(state) || (!any && !(state.version === 2 && isSwing(state.swing))))
    throw motescaleError('bad_state', 'state', state, expected);
}

function isWhole(state: FlowControlState): boolean {
  return (
    typeof state === 'object' &&
    state !== null &&
    isNumber(state.percent) &&
    isNumber(state.integral) &&
    (state.feedForward === null || (isNumber(state.feedForward) && state.mlPerMin !== null)) &&
    (state.mlPerMin === null || isPositive(state.mlPerMin)) &&
    (state.mm2PerS === null || isPositive(state.mm2PerS)) &&
    isNumber(state.lostSeconds) &&
    typeof state.byHand === 'boolean' &&
    typeof state.lost === 'boolean' &&
    typeof state.outside === 'boolean' &&
    ['starting', 'manual', 'automatic', 'holding'].indexOf(state.mode) >= 0
  );
}

function isSwing(swing: FlowControlState['swing']): boolean {
  return (
    typeof swing === 'object' &&
    swing !== null &&
    [-1, 0, 1].indexOf(swing.side) >= 0 &&
    isNumber(swing.mean) &&
    isNumber(swing.seconds) &&
    isNumber(swing.count)
  );
}

function isNumber(value: unknown): boolean {
  return typeof value === 'number' && isFinite(value);
}

function isPositive(value: unknown): boolean {
  return isNumber(value) && (value as number) >= 1e-60 && (value as number) <= 1e60;
}

/** What is asked of configuration, state and input of the flow controller. */
import { motescaleError, noteProblem, type Problem, throwProblems } from '../../errors.ts';
import { shownEnd } from '../../numeric/shown.ts';
import { checkRule } from '../../rules/check.ts';
import { firstOf, requireStateRule } from '../../rules/require.ts';
import type { ObjectRule } from '../../rules/rule.ts';
import { flowControlRule, flowInputRule, flowStateRule, flowStateVersion, mostIntegral } from './rules.ts';
import { hasStep } from './speed.ts';
import type { FlowControlConfig, FlowControlInput, FlowControlState } from './types.ts';

/** From here on the loop would leave half the flow, or one and a half of it, alone for ever (our choice). */
const widestDeadband = 0.5;
/** Throws `bad_configuration` with every mistake. */
export function checkFlowConfig(config: FlowControlConfig): void {
  const problems: Problem[] = [];
  if (checkRule(flowControlRule(), config, [], problems)) {
    const { leastPercent, mostPercent, feedForward } = config;
    if (mostPercent < leastPercent) {
      noteProblem(problems, ['mostPercent'], 'out_of_range', mostPercent, `a number from ${leastPercent} to 100`);
    }
    const { percentStep: step = 0 } = config;
    if (step > 0 && !hasStep(step, leastPercent, mostPercent)) {
      const expected = 'a step small enough that one speed lies within the limits';
      noteProblem(problems, ['percentStep'], 'out_of_range', step, expected);
    }
    if (mostPercent <= 1) {
      const expected = 'percent of full speed, 92 for 92 %, not a share';
      noteProblem(problems, ['mostPercent'], 'out_of_range', mostPercent, expected);
    }
    const { mlPerMin, deadbandMlPerMin: deadband = 0 } = config;
    if (deadband >= widestDeadband * mlPerMin) {
      const half = shownEnd(widestDeadband * mlPerMin, false);
      const expected = `less than ${half}, half the setpoint: a flow within it is left alone`;
      noteProblem(problems, ['deadbandMlPerMin'], 'out_of_range', deadband, expected);
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

/** Throws `bad_state` unless the state is of this version, or by the rule of an older one. */
export function checkFlowState(state: unknown, rule: ObjectRule = flowStateRule): void {
  requireStateRule(rule, state);
  const { feedForward, mlPerMin, integral, version } = state as FlowControlState;
  if (feedForward !== null && mlPerMin === null)
    throw motescaleError('bad_state', 'state.mlPerMin', mlPerMin, 'the setpoint that `feedForward` is for');
  const most = mostIntegral + Math.abs(feedForward ?? 0);
  if (version === flowStateVersion && Math.abs(integral) > most)
    throw motescaleError('bad_state', 'state.integral', integral, `a number from -${most} to ${most}`);
}

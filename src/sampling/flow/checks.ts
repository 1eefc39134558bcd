/** What is asked of configuration, state and input of the flow controller. */
import { motescaleError, noteProblem, type Path, type Problem, throwProblems } from '../../errors.ts';
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
  const refuse = (path: Path, value: number, expected: string) =>
    noteProblem(problems, path, 'out_of_range', value, expected);
  if (checkRule(flowControlRule(), config, [], problems)) {
    const { mlPerMin, leastPercent, mostPercent, percentStep = 0, deadbandMlPerMin = 0, feedForward } = config;
    if (mostPercent < leastPercent) refuse(['mostPercent'], mostPercent, `a number from ${leastPercent} to 100`);
    if (percentStep > 0 && !hasStep(percentStep, leastPercent, mostPercent))
      refuse(['percentStep'], percentStep, 'a step small enough that one speed lies within the limits');
    if (mostPercent <= 1) refuse(['mostPercent'], mostPercent, 'percent of full speed, 92 for 92 %, not a share');
    if (deadbandMlPerMin >= widestDeadband * mlPerMin) {
      const half = shownEnd(widestDeadband * mlPerMin, false);
      const expected = `less than ${half}, half the setpoint: a flow within it is left alone`;
      refuse(['deadbandMlPerMin'], deadbandMlPerMin, expected);
    }
    const seen: number[] = [];
    (feedForward?.curve ?? []).forEach(({ mm2PerS }, i) => {
      if (seen.indexOf(mm2PerS) >= 0) refuse(['feedForward', 'curve', i, 'mm2PerS'], mm2PerS, 'each viscosity once');
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

/** A step as it is read: a stop comes before all else, whatever else is wrong with the step. */
import { isObject } from '../../checks.ts';
import { isMotescaleError, type Problem } from '../../errors.ts';
import { checkRule } from '../../rules/check.ts';
import { checkFlowInput, checkFlowState } from './checks.ts';
import { startFlowControl } from './prepare.ts';
import { flowInputRule } from './rules.ts';
import type { FlowControlInput, FlowControlState, PreparedFlowControl } from './types.ts';

interface ReadStep {
  readonly before: FlowControlState;
  readonly step: FlowControlInput;
  /** What could not be read, of a step that stops the pump. */
  readonly unread: readonly string[];
}

/** A hand at a slider seldom finds 0, and a running pump cannot go below `leastPercent`. */
function stops(prepared: PreparedFlowControl, input: unknown): boolean {
  if (!isObject(input)) return false;
  const { manualPercent: by, ready } = input;
  return ready === false || (typeof by === 'number' && (by <= 0 || by < prepared.leastPercent / 2));
}

/** Throws for what cannot be read, but of a step that stops the pump: there it counts as not known. */
export function readStep(prepared: PreparedFlowControl, state: FlowControlState, input: FlowControlInput): ReadStep {
  if (!stops(prepared, input)) {
    checkFlowState(state);
    checkFlowInput(input);
    return { before: state, step: input, unread: [] };
  }
  const unread: string[] = [];
  let before = state;
  try {
    checkFlowState(state);
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    unread.push('state');
    before = startFlowControl(prepared, { percent: prepared.mostPercent });
  }
  const problems: Problem[] = [];
  checkRule(flowInputRule, input, [], problems);
  const step: { [name: string]: unknown } = { ...input };
  for (const { path } of problems) {
    delete step[path[0] as string];
    unread.push(`input.${path[0]}`);
  }
  return { before, step: { elapsedSeconds: 0, mlPerMin: null, ...step, manualPercent: 0 }, unread };
}

/**
 * What the members of a monitor's configuration ask of each other: the rules of class tables, and those of the monitor.
 */
import type { ClassTable } from '../codes/index.ts';
import { isBadConfiguration } from '../monitor/index.ts';
import { checkMonitorConfig } from '../monitor/monitorConfig.ts';
import { examineClassTable } from './classTable.ts';
import { type InputProblem, pathText } from './inputError.ts';
import { elements, member } from './loose.ts';

/** Every rule that a configuration breaks, as far as its shape allows to tell. */
export function configProblems(config: unknown): InputProblem[] {
  if (typeof config !== 'object' || config === null) return [];
  const problems: InputProblem[] = [];
  const places: number[] = [];
  const sound: { readonly table: ClassTable; readonly target: unknown; readonly columns: unknown }[] = [];
  const codes = elements(member(config, 'codes'));
  codes.forEach((entry, i) => {
    const examined = examineClassTable(member(entry, 'table'), 'config', ['codes', i, 'table']);
    if (examined.problems !== null) {
      problems.push(...examined.problems);
      return;
    }
    places.push(i);
    sound.push({ table: examined.value, target: member(entry, 'target'), columns: member(entry, 'columns') });
  });
  const allSound = Array.isArray(member(config, 'codes')) && sound.length === codes.length;
  for (const problem of monitorProblems({ ...config, codes: sound })) {
    const [first, place, ...rest] = problem.path;
    // an alarm on a code whose table is not sound is no mistake of the alarm
    if (!allSound && rest.join('.') === 'figure.code') continue;
    if (first !== 'codes' || typeof place !== 'number') problems.push(problem);
    else problems.push(movedTo(problem, ['codes', places[place] as number, ...rest]));
  }
  return problems;
}

/** The same problem at another place. */
function movedTo(problem: InputProblem, path: InputProblem['path']): InputProblem {
  return { ...problem, path, parameter: pathText('config', path) };
}

function monitorProblems(config: object): InputProblem[] {
  try {
    checkMonitorConfig(config as never);
    return [];
  } catch (error) {
    if (!isBadConfiguration(error)) throw error;
    return error.problems.map((problem) => ({
      ...problem,
      code: 'bad_configuration' as const,
      path: pathOf(problem.parameter),
    }));
  }
}

/** `['alarms', 2, 'deadband']` from `config.alarms[2].deadband`. */
function pathOf(parameter: string): (string | number)[] {
  const steps = parameter.slice('config'.length).match(/\[\d+\]|\w+/g) ?? [];
  return steps.map((step) => (step.charAt(0) === '[' ? Number(step.slice(1, -1)) : step));
}

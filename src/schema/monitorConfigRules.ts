/**
 * What the members of a monitor's configuration ask of each other: the rules of class tables, and those of the monitor.
 */
import type { ClassTable } from '../codes/index.ts';
import { checkMonitorConfig } from '../monitor/config.ts';
import { examineClassTable } from './classTable.ts';
import { movedTo, refusals } from './configurationRefusals.ts';
import type { InputProblem } from './inputError.ts';
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
  for (const problem of refusals(() => checkMonitorConfig({ ...config, codes: sound } as never))) {
    const [first, place, ...rest] = problem.path;
    // an alarm on a code whose table is not sound is no mistake of the alarm
    if (!allSound && rest.join('.') === 'figure.code') continue;
    if (first !== 'codes' || typeof place !== 'number') problems.push(problem);
    else problems.push(movedTo(problem, ['codes', places[place] as number, ...rest]));
  }
  return problems;
}

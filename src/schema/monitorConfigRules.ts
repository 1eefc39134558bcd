/**
 * What the members of a monitor's configuration ask of each other: the rules of class tables, and those of the monitor.
 */
import type { ClassTable } from '../codes/index.ts';
import { prepareMonitor } from '../monitor/prepare.ts';
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
  const own: ClassTable[] = [];
  elements(member(config, 'tables')).forEach((table, i) => {
    const examined = examineClassTable(table, 'config', ['tables', i]);
    if (examined.problems === null) own.push(examined.value);
    else problems.push(...examined.problems);
  });
  const codes = elements(member(config, 'codes'));
  codes.forEach((entry, i) => {
    const table = member(entry, 'table');
    // a table named by its id that is not among one's own is handed to `prepareMonitor`, and known only there
    const known = typeof table === 'string' ? own.filter(({ id }) => id === table)[0] : undefined;
    if (typeof table === 'string' && known === undefined) return;
    const examined = known === undefined ? examineClassTable(table, 'config', ['codes', i, 'table']) : null;
    if (examined !== null && examined.problems !== null) {
      problems.push(...examined.problems);
      return;
    }
    places.push(i);
    const value = known ?? (examined as { readonly value: ClassTable }).value;
    sound.push({ table: value, target: member(entry, 'target'), columns: member(entry, 'columns') });
  });
  const allSound = Array.isArray(member(config, 'codes')) && sound.length === codes.length;
  const checked = { ...config, tables: undefined, codes: sound };
  for (const problem of refusals(() => prepareMonitor(checked as never))) {
    const [first, place, ...rest] = problem.path;
    // an alarm on a code whose table is not sound, or not known here, is no mistake of the alarm
    if (!allSound && rest.join('.') === 'figure.code') continue;
    if (first !== 'codes' || typeof place !== 'number') problems.push(problem);
    else problems.push(movedTo(problem, ['codes', places[place] as number, ...rest]));
  }
  return problems;
}

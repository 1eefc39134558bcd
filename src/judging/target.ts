/**
 * What a target or a setpoint on a code may be.
 */
import type { ClassTable } from '../codes/index.ts';
import { asksFor, requireTarget } from '../codes/meets.ts';
import { motescaleError } from '../errors.ts';
import { type ConfigurationProblem, note, throwProblems } from '../state/configuration.ts';

/** A code that the table can read, and that asks for something in the columns judged; no class that nothing can exceed. */
export function requireCode(
  table: ClassTable,
  text: string,
  parameter: string,
  columns: readonly string[] = table.columns.map(({ label }) => label),
): void {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => {
    const parts = requireTarget(table, text);
    if (!asksFor(parts, columns) || parts.some(({ mark }) => mark === 'beyond'))
      throw motescaleError('bad_code', parameter, text, `classes of the table, for one of '${columns.join("', '")}'`);
  });
  throwProblems(
    problems.map((problem) => ({ ...problem, parameter })),
    parameter,
    text,
  );
}

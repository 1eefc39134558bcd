/** Columns asked for by name. */
import { requireFilled, requireOneOf } from '../checks.ts';
import type { ClassTable } from './types.ts';

/** Labels of columns that the table has. */
export function requireLabels(table: ClassTable, labels: unknown, parameter: string): readonly string[] {
  const known = table.columns.map(({ label }) => label);
  const asked = requireFilled(labels, parameter, 'column labels');
  for (let i = 0; i < asked.length; i += 1) requireOneOf(asked[i], `${parameter}[${i}]`, known);
  return asked as readonly string[];
}

/**
 * The short question asked of every table handed in; `classTable` asks the long ones, once.
 */
import { motescaleError } from '../errors.ts';
import type { ClassTable } from './types.ts';

/** Throws unless this looks like a class table. */
export function requireTable(table: ClassTable, parameter = 'table'): void {
  const looks =
    typeof table === 'object' && table !== null && Array.isArray(table.columns) && Array.isArray(table.limits);
  if (!looks)
    throw motescaleError('wrong_type', parameter, table, 'a class table, such as iso4406 or one made by classTable');
}

/**
 * The short question asked of every table handed in; `classTable` asks the long ones, once.
 */
import { motescaleError } from '../errors.ts';
import type { ClassTable, Notation } from './types.ts';

/** How a result can be written. */
export const notations: readonly Notation[] = ['scale_numbers', 'scale_numbers_after_dash', 'lettered', 'single'];

/** Throws unless this has the shape of a class table. */
export function requireTable(table: ClassTable, parameter = 'table'): void {
  if (!looksLikeTable(table)) {
    throw motescaleError('wrong_type', parameter, table, 'a class table, such as iso4406 or one made by classTable');
  }
}

function looksLikeTable(table: ClassTable): boolean {
  if (typeof table !== 'object' || table === null) return false;
  const { columns, classes, limits, notation } = table;
  if (notation !== undefined && notations.indexOf(notation) < 0) return false;
  if (!Array.isArray(columns) || !Array.isArray(classes) || !Array.isArray(limits)) return false;
  if (columns.length === 0 || classes.length === 0 || limits.length !== classes.length) return false;
  for (const column of columns) {
    if (typeof column !== 'object' || column === null) return false;
    if (typeof column.from !== 'object' || column.from === null || column.to === null) return false;
  }
  for (const row of limits) if (!Array.isArray(row) || row.length !== columns.length) return false;
  return true;
}

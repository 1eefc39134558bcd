/**
 * What every function asks of a table handed in; `classTable` asks more, once. Each limit is asked where it is read (`limitAt`), each size too
 * (`columnSizes`), so that no cell is looked at in vain.
 */
import { motescaleError } from '../errors.ts';
import { limitReader } from './tables/frozen.ts';
import type { ClassColumn, ClassTable, Notation } from './types.ts';

/** How a result can be written. */
export const notations: readonly Notation[] = ['scale_numbers', 'scale_numbers_after_dash', 'lettered', 'single'];

/** Throws unless this has the shape of a class table. */
export function requireTable(table: ClassTable, parameter = 'table'): void {
  if (isTable(table)) return;
  const expected = 'a class table, such as iso4406 or one made by classTable, which says what is wrong with one';
  throw motescaleError('wrong_type', parameter, table, expected);
}

function isTable(table: ClassTable): boolean {
  if (typeof table !== 'object' || table === null) return false;
  if (limitReader(table) !== undefined) return true;
  const { columns, classes, limits, notation, perVolumeMl, fewCounted, elsewhere } = table;
  if (!isText(table.id) || !isText(table.title)) return false;
  if (perVolumeMl !== 1 && perVolumeMl !== 100) return false;
  if (notation !== undefined && notations.indexOf(notation) < 0) return false;
  if (fewCounted !== undefined && typeof fewCounted !== 'number') return false;
  if (elsewhere !== undefined && !isText(elsewhere)) return false;
  if (!Array.isArray(columns) || !Array.isArray(classes) || !Array.isArray(limits)) return false;
  if (columns.length === 0 || classes.length === 0 || limits.length !== classes.length) return false;
  for (let i = 0; i < columns.length; i += 1) if (!isColumn(columns[i])) return false;
  for (let i = 0; i < classes.length; i += 1) {
    const row: unknown = limits[i];
    if (!isText(classes[i]) || !Array.isArray(row) || row.length !== columns.length) return false;
  }
  return true;
}

function isColumn(column: ClassColumn | undefined): boolean {
  if (typeof column !== 'object' || column === null || !isText(column.label)) return false;
  const { from, to } = column;
  return typeof from === 'object' && from !== null && (to === undefined || (typeof to === 'object' && to !== null));
}

function isText(value: unknown): boolean {
  return typeof value === 'string';
}

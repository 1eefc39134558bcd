/**
 * What every function asks of a table handed in; `classTable` asks more, once. Each limit is asked where it is read
 * (`limitAt`), each size too (`columnSizes`), so that no cell is looked at in vain.
 */
import { isObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { limitReader } from './tables/frozen.ts';
import type { ClassTable, Notation } from './types.ts';

/** How a result can be written. */
export const notations: readonly Notation[] = ['scale_numbers', 'scale_numbers_after_dash', 'lettered', 'single'];

/** Throws unless this has the shape of a class table. */
export function requireTable(table: ClassTable, parameter = 'table'): void {
  if (isTable(table)) return;
  throw motescaleError('wrong_type', parameter, table, 'a class table; classTable says what is wrong with one');
}

function isTable(table: ClassTable): boolean {
  if (!isObject(table)) return false;
  if (limitReader(table) !== undefined) return true;
  const {
    id,
    title,
    columns,
    classes,
    limits,
    notation = 'single',
    perVolumeMl,
    fewCounted = 0,
    elsewhere = '',
  } = table;
  return (
    all([id, title, elsewhere], isText) &&
    (perVolumeMl === 1 || perVolumeMl === 100) &&
    notations.indexOf(notation) >= 0 &&
    typeof fewCounted === 'number' &&
    all(columns, isColumn) &&
    all(classes, isText) &&
    all(limits, (row) => all(row as unknown, () => true) && (row as unknown[]).length === columns.length) &&
    limits.length === classes.length
  );
}

/** A filled array of which every element is so; `every` would leave out those that are not there. */
function all(list: unknown, isSo: (element: unknown) => boolean): boolean {
  if (!Array.isArray(list) || list.length === 0) return false;
  for (let i = 0; i < list.length; i += 1) if (!isSo(list[i])) return false;
  return true;
}

function isColumn(column: unknown): boolean {
  if (!isObject(column)) return false;
  const { label, from, to = from } = column;
  return isText(label) && isObject(from) && isObject(to);
}

function isText(value: unknown): boolean {
  return typeof value === 'string';
}

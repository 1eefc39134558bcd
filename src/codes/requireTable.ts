/** What every function asks of a table; `classTable` asks more, once, and what it returns is not asked again. */
import { isObject, isWithin, requireFilled, requireOneOf } from '../checks.ts';
import { countedRule, sizeRule } from '../counts/ranges.ts';
import { motescaleError } from '../errors.ts';
import { isFrozen } from './tables/frozen.ts';
import type { ClassTable, Notation } from './types.ts';

export const notations: readonly Notation[] = ['scale_numbers', 'scale_numbers_after_dash', 'lettered', 'single'];

/** Throws unless this has the shape of a class table. */
export function requireTable(table: ClassTable, parameter = 'table'): void {
  if (isTable(table)) return;
  throw motescaleError('wrong_type', parameter, table, 'a class table from classTable');
}

export function isTable(table: ClassTable): boolean {
  if (!isObject(table)) return false;
  if (isFrozen(table)) return true;
  const { id, title, columns, limits, notation = 'single', perVolumeMl, fewCounted = 0, elsewhere = '' } = table;
  return (
    all([id, title, elsewhere], isText) &&
    (perVolumeMl === 1 || perVolumeMl === 100) &&
    notations.indexOf(notation) >= 0 &&
    isWithin(fewCounted, countedRule) &&
    all(columns, isColumn) &&
    all(table.classes, isText) &&
    all(limits, (row) => all(row, isLimit) && (row as unknown[]).length === columns.length) &&
    limits.length === table.classes.length
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
  return isText(label) && isSizes(from) && isSizes(to);
}

/** Sizes by sizing; a column that no particle counter fills has none. */
function isSizes(sizes: unknown): boolean {
  return isObject(sizes) && Object.keys(sizes).every((sizing) => isWithin(sizes[sizing], sizeRule));
}

/** With NaN, no count would keep the limit. */
function isLimit(limit: unknown): boolean {
  return limit === null || (typeof limit === 'number' && limit >= 0 && limit < Infinity);
}

function isText(value: unknown): boolean {
  return typeof value === 'string';
}

export function requireLabels(table: ClassTable, labels: unknown, parameter: string): readonly string[] {
  const known = table.columns.map(({ label }) => label);
  const asked = requireFilled(labels, parameter, 'column labels');
  for (let i = 0; i < asked.length; i += 1) requireOneOf(asked[i], `${parameter}[${i}]`, known);
  return asked as readonly string[];
}

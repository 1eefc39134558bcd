/**
 * Tables that nobody can change: a limit overwritten in one place would change a class in the whole process.
 *
 * Engines read frozen arrays slowly. So a frozen table has one member that is not listed (neither JSON nor a spread
 * copies it): a function that reads its limits from a copy of its own. A table that has it was whole when it was
 * frozen, and is whole still.
 */
import type { ClassTable } from '../types.ts';

type LimitReader = (index: number, column: number) => number | null;
const hidden = '~limitAt';

/** Freezes a table of a standard, or one that has been checked, and returns it. */
export function frozen(table: ClassTable): ClassTable {
  const width = table.columns.length;
  const limits = ([] as (number | null)[]).concat(...table.limits);
  const read: LimitReader = (index, column) => limits[index * width + column] as number | null;
  Object.defineProperty(table, hidden, { value: read });
  return freezeAll(table);
}

export function isFrozen(table: ClassTable): boolean {
  return typeof (table as { readonly [hidden]?: unknown })[hidden] === 'function';
}

/** What reads the limits of a table, by class and column. */
export function limitReader(table: ClassTable): LimitReader {
  const read = (table as { readonly [hidden]?: LimitReader })[hidden];
  return read ?? ((index, column) => (table.limits[index] as readonly (number | null)[])[column] as number | null);
}

function freezeAll<Data>(data: Data): Data {
  if (typeof data === 'object' && data !== null) {
    for (const name of Object.keys(data)) freezeAll((data as { readonly [name: string]: unknown })[name]);
    Object.freeze(data);
  }
  return data;
}

/**
 * The class of a count: the first, from clean to dirty, whose printed limit it keeps. Compared with the limit, never computed.
 */
import { scaleDecimal } from '../numeric/decimal.ts';
import type { ClassTable } from './types.ts';

/** Index of the class; `table.classes.length` beyond the last. A class that sets no limit for the column keeps any count. */
export function classIndex(table: ClassTable, column: number, keeps: (limit: number) => boolean): number {
  let index = 0;
  while (index < table.classes.length) {
    const limit = limitAt(table, index, column);
    if (limit === null || keeps(limit)) return index;
    index += 1;
  }
  return index;
}

/** The printed limit, null where none is set. */
export function limitAt(table: ClassTable, index: number, column: number): number | null {
  return (table.limits[index] as readonly (number | null)[])[column] as number | null;
}

/** A limit per mL; null where none is set. */
export function limitPerMl(table: ClassTable, limit: number | null): number | null {
  return limit === null || table.perVolumeMl === 1 ? limit : scaleDecimal(limit, 1, table.perVolumeMl);
}

/** The name of a class by index; `>12` beyond the last. */
export function className(table: ClassTable, index: number): string {
  const last = table.classes.length - 1;
  return index > last ? `>${table.classes[last]}` : (table.classes[index] as string);
}

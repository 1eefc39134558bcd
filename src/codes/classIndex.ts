/** The class of a count: the first, from clean to dirty, whose printed limit it keeps. Compared, never computed. */
import { scaleDecimal } from '../numeric/decimal.ts';
import { limitReader } from './tables/frozen.ts';
import type { ClassTable } from './types.ts';

/** Index of the class; `table.classes.length` beyond the last. A class without a limit there keeps any count. */
export function classIndex(table: ClassTable, column: number, keeps: (limit: number) => boolean): number {
  let index = 0;
  while (index < table.classes.length) {
    const limit = limitAt(table, index, column);
    if (limit === null || keeps(limit)) return index;
    index += 1;
  }
  return index;
}

/** The printed limit, null where none is set, as beyond the last class. */
export function limitAt(table: ClassTable, index: number, column: number): number | null {
  return index < table.classes.length ? limitReader(table)(index, column) : null;
}

/**
 * The class of a count per mL. In a table per 100 mL a rough product decides where limit and count are plainly
 * apart; else the exact decimal does.
 */
export function classOfPerMl(table: ClassTable, column: number, perMl: number): number {
  const { length } = table.classes;
  const rough = perMl * table.perVolumeMl;
  const read = limitReader(table);
  // far more than one rounding can take
  const nearby = 1e-9;
  for (let index = 0; index < length; index += 1) {
    const limit = read(index, column);
    if (limit === null) return index;
    if (rough > limit * (1 + nearby)) continue;
    if (rough < limit * (1 - nearby) || perMl <= (limitPerMl(table, limit) as number)) return index;
  }
  return length;
}

/** A limit per mL; null where none is set. */
export function limitPerMl(table: ClassTable, limit: number | null): number | null {
  return limit === null || table.perVolumeMl === 1 ? limit : scaleDecimal(limit, 1, table.perVolumeMl);
}

/** The place of a class by name, from clean to dirty; the number of classes for beyond the last. */
export function placeOf(table: ClassTable, name: string | null): number {
  const { classes } = table;
  // where classes are called by their number it is its place
  const number = Number(name);
  if (classes[number] === name) return number;
  const index = classes.indexOf(name as string);
  return index < 0 ? classes.length : index;
}

/** The name of a class by index; `>12` beyond the last. */
export function className(table: ClassTable, index: number): string {
  const { classes } = table;
  return classes[index] ?? `>${classes[classes.length - 1]}`;
}

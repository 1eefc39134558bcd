/** The limits of a table's classes as concentrations, for a count that is not known exactly. */
import { limitAt, limitPerMl } from '../classIndex.ts';
import type { ClassTable } from '../types.ts';
import type { UnsureColumn } from './budget.ts';
import { chanceBelow } from './spread.ts';

/**
 * A class's limit per mL; null where it sets none. Where a table allows no particle at all, half a particle in its
 * volume: the concentration of an oil is never exactly none.
 */
export function keptPerMl(table: ClassTable, index: number, column: number): number | null {
  const perMl = limitPerMl(table, limitAt(table, index, column));
  return perMl === 0 ? 0.5 / table.perVolumeMl : perMl;
}

/** The chance of each class of a column, the last one that of beyond all of them. Together they make 1. */
export function classChances(table: ClassTable, { index: column, spread }: UnsureColumn): number[] {
  const chances: number[] = [];
  let before = 0;
  for (let index = 0; index <= table.classes.length; index += 1) {
    const perMl = keptPerMl(table, index, column);
    const below = perMl === null || before === 1 ? 1 : Math.max(before, chanceBelow(perMl, spread));
    chances.push(below - before);
    before = below;
  }
  return chances;
}

/** The place of the greatest. */
export function greatest(list: readonly number[]): number {
  let place = 0;
  for (let i = 1; i < list.length; i += 1) if ((list[i] as number) > (list[place] as number)) place = i;
  return place;
}

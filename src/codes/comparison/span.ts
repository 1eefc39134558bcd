/** The lowest and the highest class that what is known leaves to any sample: shortest paths through the differences. */
import { classIndex, className, limitAt } from '../classIndex.ts';
import { columnSizes } from '../columnSizes.ts';
import type { ClassSpan, ClassTable } from '../types.ts';
import { type Bound, isSharper, leavesRoom, plus } from './bound.ts';
import { isPossible, largestDifference, placeOfSize } from './countSystem.ts';
import type { Knowledge } from './knowledge.ts';

/** The span of what is known, which holds no contradiction. */
export function spanOf(table: ClassTable, knowledge: Knowledge): ClassSpan {
  const { places } = knowledge;
  const columns: { column: string; lowest: string; highest: string }[] = [];
  const unseen: string[] = [];
  let worst = 0;
  table.columns.forEach((column, i) => {
    const ends = columnEnds(table, i, knowledge);
    if (ends === null) {
      unseen.push(column.label);
      return;
    }
    const most = largestDifference(places, knowledge.differences, ends.from, ends.to);
    // never null: the count of larger particles is never above the count of smaller ones
    const least = largestDifference(places, knowledge.differences, ends.to, ends.from) as Bound;
    const low = classIndex(table, i, (limit) => leavesRoom(plus(knowledge.inUnit(limit), least)));
    // how strict the bound is does not matter: with less than so many, all up to it are reached
    const keeps = (limit: number) => most !== null && !isSharper(knowledge.inUnit(limit), { ...most, strict: 0 });
    const high = classIndex(table, i, keeps);
    if (most === null && leavesRoom(least)) unseen.push(column.label);
    worst = Math.max(worst, high);
    columns.push({ column: column.label, lowest: className(table, low), highest: className(table, high) });
  });
  return {
    lowest: className(table, lowestTogether(table, knowledge)),
    highest: className(table, worst),
    columns,
    unseen,
  };
}

/** The cleanest class whose limits one sample can keep in all columns at once. */
function lowestTogether(table: ClassTable, knowledge: Knowledge): number {
  for (let index = 0; index < table.classes.length; index += 1) {
    const differences = knowledge.differences.slice();
    table.columns.forEach((_column, i) => {
      const ends = columnEnds(table, i, knowledge);
      const limit = limitAt(table, index, i);
      if (ends === null || limit === null) return;
      differences.push({ of: ends.from, minus: ends.to, bound: knowledge.inUnit(limit) });
    });
    if (isPossible(knowledge.places, differences)) return index;
  }
  return table.classes.length;
}

function columnEnds(table: ClassTable, i: number, knowledge: Knowledge): { from: number; to: number } | null {
  const sizes = columnSizes(table.columns[i] as ClassTable['columns'][number], knowledge.sizing);
  if (sizes === null) return null;
  return { from: placeOfSize(knowledge.sizes, sizes.from), to: placeOfSize(knowledge.sizes, sizes.to) };
}

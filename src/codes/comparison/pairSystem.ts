/** Two tables in one system: the counts at every boundary of both, which codes bound. */
import { sizings } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/types.ts';
import type { ClassColumn, ClassTable } from '../types.ts';
import { none } from './bound.ts';
import type { Claim } from './claims.ts';
import { type Difference, nothing } from './countSystem.ts';
import { type LimitUnit, limitUnit } from './limitUnit.ts';

/** Where the counts of both tables stand, and what holds of any sample. */
export interface PairSystem {
  /** In µm, ascending. The count of sizes[i] has the place i + 1; those of boundaries without a size follow. */
  readonly sizes: readonly number[];
  readonly places: number;
  readonly differences: readonly Difference[];
  readonly unit: LimitUnit;
  readonly said: (table: ClassTable, claim: Claim) => Difference[];
}

type Ends = ClassColumn['from'];

/**
 * Counts of larger particles are never above those of smaller ones. A boundary that its table does not size in this
 * sizing (200 µm for a counter to ISO 11171) stands where another sizing puts it among those of its table; fibres and
 * mass stand alone.
 */
export function pairSystem(tables: readonly ClassTable[], sizing: Sizing): PairSystem {
  const sizes: number[] = [];
  const unsized: string[] = [];
  for (const table of tables) {
    for (const column of table.columns) {
      for (const ends of endsOf(column)) {
        const size = ends[sizing];
        if (size === undefined) addOnce(unsized, nameOf(table, column, ends));
        else addOnce(sizes, size);
      }
    }
  }
  sizes.sort((a, b) => a - b);
  const placeOf = (table: ClassTable, column: ClassColumn, ends: Ends | undefined) => {
    if (ends === undefined) return nothing;
    const size = ends[sizing];
    return 1 + (size === undefined ? sizes.length + unsized.indexOf(nameOf(table, column, ends)) : sizes.indexOf(size));
  };
  const places = 1 + sizes.length + unsized.length;
  const differences: Difference[] = [];
  const notAbove = (larger: number, smaller: number) => {
    if (larger !== smaller) differences.push({ of: larger, minus: smaller, bound: none });
  };
  for (let place = 1; place < places; place += 1) notAbove(place < sizes.length ? place + 1 : nothing, place);
  for (const table of tables) {
    for (const other of sizings) {
      const placed: { readonly size: number; readonly place: number }[] = [];
      for (const column of table.columns) {
        for (const ends of endsOf(column)) {
          const size = ends[other];
          if (size !== undefined) placed.push({ size, place: placeOf(table, column, ends) });
        }
      }
      placed.sort((a, b) => a.size - b.size);
      for (let i = 1; i < placed.length; i += 1) {
        const [smaller, larger] = [placed[i - 1], placed[i]] as [(typeof placed)[0], (typeof placed)[0]];
        if (Math.max(smaller.place, larger.place) <= sizes.length) continue;
        notAbove(larger.place, smaller.place);
        if (larger.size === smaller.size) notAbove(smaller.place, larger.place);
      }
    }
  }
  const unit = limitUnit(tables, places);
  const said = (table: ClassTable, { column, above, upTo }: Claim) => {
    const counted = table.columns[column] as ClassColumn;
    const [start, end] = [placeOf(table, counted, counted.from), placeOf(table, counted, counted.to)];
    const found: Difference[] = [];
    if (upTo !== null) found.push({ of: start, minus: end, bound: unit.most(table, upTo) });
    if (above !== null) found.push({ of: end, minus: start, bound: { ...unit.least(table, above), strict: 1 } });
    return found;
  };
  return { sizes, places, differences, unit, said };
}

function endsOf({ from, to }: ClassColumn): Ends[] {
  return to === undefined ? [from] : [from, to];
}

function addOnce<T>(list: T[], one: T): void {
  if (list.indexOf(one) < 0) list.push(one);
}

/** Of a boundary without a size in the sizing chosen: alike where its table names one size in another sizing. */
function nameOf({ id }: ClassTable, { label }: ClassColumn, ends: Ends): string {
  const other = sizings.filter((sizing) => ends[sizing] !== undefined)[0];
  return other === undefined ? `${id} ${label}` : `${id} ${other} ${ends[other]}`;
}

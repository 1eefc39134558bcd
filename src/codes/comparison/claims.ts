/** What a code says of its counts, no less and no more: a class is the first, clean to dirty, whose limit is kept. */
import { limitAt, placeOf } from '../classIndex.ts';
import { hasSizes } from '../columnSizes.ts';
import type { ClassColumn, ClassTable, Code, CodePart } from '../types.ts';
import { isAlike, worstOf } from '../written/formatParts.ts';

/** Of a column: more than `above`, and up to `upTo`, in the table's volume. Null where nothing is said. */
export interface Claim {
  readonly column: number;
  readonly above: number | null;
  readonly upTo: number | null;
}

/** What holds in any case, and lists of which one entry holds at least; of an empty one none can. */
export interface Claims {
  readonly always: readonly Claim[];
  readonly oneOf: readonly (readonly (readonly Claim[])[])[];
}

/**
 * What a code says. Of columns with one class together (`6B-F`, NAS 1638 `6`) all keep that class and one has it; of
 * `8 or dirtier` one has it. Fibres and mass, which no counter sees, may have decided a class; where they did not, it
 * is not known whether anyone looked at them.
 */
export function claimsOf(table: ClassTable, { parts }: Code): Claims {
  const always: Claim[] = [];
  const oneOf: Claim[][][] = [];
  const worst = Math.max(0, worstOf(table, parts));
  let i = 0;
  while (i < parts.length) {
    const part = parts[i] as CodePart;
    const start = i;
    do i += 1;
    while (isTogether(part) && isAlike(part, parts[i]));
    if (part.mark === 'no_dirtier') always.push(kept(table, worst, start));
    if (part.class === null) continue;
    const index = placeOf(table, part.class);
    const columns: number[] = [];
    for (let column = start; column < i; column += 1) columns.push(column);
    const keeping = part.mark === 'at_most' ? columns : [];
    for (const column of keeping) if (isCounted(table, column)) always.push(kept(table, index, column));
    const others = keeping.filter((column) => !isCounted(table, column));
    const keptByOthers = others.map((column) => kept(table, index, column));
    const ways: Claim[][] = [];
    for (const column of columns) {
      const claim = isTogether(part) ? exactly(table, index, column) : alone(table, index, column);
      if (claim !== null) ways.push(isCounted(table, column) ? [claim] : [claim, ...keptByOthers]);
    }
    oneOf.push(ways);
  }
  return { always, oneOf };
}

/** A column that has its class with others: `at_most`, one of them has it; `or_dirtier`, one of them at least. */
export function isTogether({ mark }: CodePart): boolean {
  return mark === 'at_most' || mark === 'or_dirtier';
}

export function isCounted(table: ClassTable, column: number): boolean {
  return hasSizes(table.columns[column] as ClassColumn);
}

function kept(table: ClassTable, index: number, column: number): Claim {
  return { column, above: null, upTo: limitAt(table, index, column) };
}

/** The column decides the class; null where it cannot, since the class before allows as much. */
export function exactly(table: ClassTable, index: number, column: number): Claim | null {
  const upTo = limitAt(table, index, column);
  if (index === 0) return { column, above: null, upTo };
  const above = limitAt(table, index - 1, column);
  return above === null || (upTo !== null && upTo <= above) ? null : { column, above, upTo };
}

/** A class for this column alone: of neighbours that share a limit any may be written. */
function alone(table: ClassTable, index: number, column: number): Claim | null {
  let place = index;
  const limit = limitAt(table, index, column);
  while (place > 0 && limit !== null && limitAt(table, place - 1, column) === limit) place -= 1;
  return exactly(table, place, column);
}

/** Parts of a code as text, in each of the notations. */
import type { ClassTable, CodePart, Notation } from '../types.ts';

/** Follows a class where a size that was not counted could make it worse. */
const orDirtier = ' or dirtier';

/** How results of a table are written. */
export function notationOf(table: ClassTable): Notation {
  return table.notation ?? 'single';
}

/**
 * The text of parts that stand in the order of the table's columns, none of them over a span of sizes; `worst` of all
 * the classes.
 */
export function formatParts(table: ClassTable, parts: readonly CodePart[], worst: string | null): string {
  const notation = notationOf(table);
  if (notation === 'single') {
    const open = parts.some(({ mark }) => mark === 'or_dirtier') ? orDirtier : '';
    return worst === null ? '-' : worst + open;
  }
  const lettered = notation === 'lettered';
  let text = notation === 'scale_numbers_after_dash' ? '-' : '';
  for (const { class: named, column, mark } of parts) {
    if (lettered && named === null) continue;
    if (text !== '') text += '/';
    text += lettered
      ? named + column
      : mark === 'too_many'
        ? '*'
        : named === null
          ? '-'
          : mark === 'few_counted'
            ? `>=${named}`
            : named;
  }
  return text || '-';
}

/** Parts of a code as text, in each of the notations. */

import { className, placeOf } from '../classIndex.ts';
import type { ClassTable, CodePart, Notation } from '../types.ts';

/** Follows a class where a size that was not counted could make it worse. */
const orDirtier = ' or dirtier';

export function notationOf(table: ClassTable): Notation {
  return table.notation ?? 'single';
}

/**
 * The text of parts that stand in the order of the table's columns, none of them over a span of sizes; `worst` of all
 * the classes.
 */
export function formatParts(table: ClassTable, parts: readonly CodePart[], worst: string): string {
  const notation = notationOf(table);
  if (notation === 'single') return worst + (parts.some(({ mark }) => mark === 'or_dirtier') ? orDirtier : '');
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
  return text;
}

/** The text of parts that stand in the order of the table's columns. */
export function formatAnyParts(table: ClassTable, parts: readonly CodePart[]): string {
  const worst = worstOf(table, parts);
  if (worst === null && notationOf(table) === 'single') return '-';
  return formatParts(table, joinSpans(parts), worst as string) || '-';
}

/** Neighbours that share an "at most" class as one part, `B-F`. */
function joinSpans(parts: readonly CodePart[]): readonly CodePart[] {
  const joined: CodePart[] = [];
  for (let i = 0; i < parts.length; i += 1) {
    const first = parts[i] as CodePart;
    let last = first;
    while (isSpan(first, parts[i + 1])) {
      i += 1;
      last = parts[i] as CodePart;
    }
    joined.push(first.mark === 'at_most' ? { ...first, column: `${first.column}-${last.column}` } : first);
  }
  return joined;
}

function isSpan(first: CodePart, next: CodePart | undefined): boolean {
  return first.mark === 'at_most' && next !== undefined && next.mark === 'at_most' && next.class === first.class;
}

/** The dirtiest class of all; null where there is none. */
function worstOf(table: ClassTable, parts: readonly CodePart[]): string | null {
  let worst = -1;
  for (const part of parts) {
    if (part.class !== null) worst = Math.max(worst, placeOf(table, part.class));
  }
  return worst < 0 ? null : className(table, worst);
}

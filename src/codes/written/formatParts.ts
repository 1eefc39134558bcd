/** Parts of a code as text, in each of the notations. */
import { className, placeOf } from '../classIndex.ts';
import type { ClassTable, CodePart, Notation } from '../types.ts';

/** Follows a class where a size that was not counted could make it worse. */
const orDirtier = ' or dirtier';

export function notationOf(table: ClassTable): Notation {
  return table.notation ?? 'single';
}

/** The text of parts in the order of the table's columns, none over a span of sizes; `worst` of all the classes. */
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
  if (worst < 0 && notationOf(table) === 'single') return '-';
  return formatParts(table, joinSpans(parts), className(table, worst)) || '-';
}

/** Neighbours that share an "at most" class as one part, `B-F`. */
function joinSpans(parts: readonly CodePart[]): readonly CodePart[] {
  const joined: CodePart[] = [];
  for (let i = 0; i < parts.length; i += 1) {
    const first = parts[i] as CodePart;
    let last = first;
    while (first.mark === 'at_most' && isAlike(first, parts[i + 1])) {
      i += 1;
      last = parts[i] as CodePart;
    }
    joined.push(first.mark === 'at_most' ? { ...first, column: `${first.column}-${last.column}` } : first);
  }
  return joined;
}

/** Whether a part says the same of its column as the one before. */
export function isAlike(part: CodePart, next: CodePart | undefined): boolean {
  return next !== undefined && next.class === part.class && next.mark === part.mark;
}

/** The place of the dirtiest class of all parts; -1 where there is none. */
export function worstOf(table: ClassTable, parts: readonly CodePart[]): number {
  let worst = -1;
  for (const part of parts) if (part.class !== null) worst = Math.max(worst, placeOf(table, part.class));
  return worst;
}

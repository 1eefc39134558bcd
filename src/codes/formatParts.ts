/**
 * Parts of a code as text, in each of the notations.
 */
import type { ClassTable, CodePart, Notation } from './types.ts';

/** Follows a class where a size that was not counted could make it worse. */
export const orDirtier = ' or dirtier';

/** How results of a table are written. */
export function notationOf(table: ClassTable): Notation {
  return table.notation ?? 'single';
}

/** The text of parts that stand in the order of the table's columns. */
export function formatParts(table: ClassTable, parts: readonly CodePart[]): string {
  switch (notationOf(table)) {
    case 'scale_numbers':
      return parts.map(scaleText).join('/');
    case 'scale_numbers_after_dash':
      return `-/${parts.map(scaleText).join('/')}`;
    case 'lettered':
      return letteredText(parts);
    case 'single':
      return worstOf(table, parts);
  }
}

function scaleText(part: CodePart): string {
  if (part.mark === 'too_many') return '*';
  if (part.class === null) return '-';
  return part.mark === 'few_counted' ? `>=${part.class}` : part.class;
}

/** Neighbours that share an "at most" class are written as one span. */
function letteredText(parts: readonly CodePart[]): string {
  const written: string[] = [];
  let i = 0;
  while (i < parts.length) {
    const part = parts[i] as CodePart;
    let end = i;
    if (part.mark === 'at_most') {
      while (parts[end + 1]?.mark === 'at_most' && parts[end + 1]?.class === part.class) end += 1;
      written.push(`${part.class}${part.column}-${(parts[end] as CodePart).column}`);
    } else if (part.class !== null) {
      written.push(`${part.class}${part.column}`);
    }
    i = end + 1;
  }
  return written.length === 0 ? '-' : written.join('/');
}

function worstOf(table: ClassTable, parts: readonly CodePart[]): string {
  let worst = -1;
  for (const part of parts) {
    if (part.class === null) continue;
    const index = table.classes.indexOf(part.class);
    worst = Math.max(worst, index < 0 ? table.classes.length : index);
  }
  if (worst < 0) return '-';
  const named = worst === table.classes.length ? `>${table.classes[worst - 1]}` : (table.classes[worst] as string);
  return parts.some(({ mark }) => mark === 'or_dirtier') ? `${named}${orDirtier}` : named;
}

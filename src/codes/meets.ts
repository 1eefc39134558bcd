/** Is the target met, and by how much at each size. */
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { classifySound, columnsAsked } from './classify.ts';
import { columnPlace } from './columnCount.ts';
import { requireTable } from './requireTable.ts';
import { nothingCounted, outcomeOf, type TargetOutcome, wantedOf } from './targetOutcome.ts';
import type { ClassTable, Code, CodePart } from './types.ts';
import { asCode } from './written/code.ts';

/**
 * Compares counts, or a code of the same table (as text or data), with a target: a code, a class, or a mixed one
 * (`18/-/13`, `7B/6C`, `6`).
 *
 * A size too dirty to count (`*`) fails. A size asked for but not known is listed in `missing`: nothing is shown then
 * (`met` is null), unless another size fails. With no particle of the next smaller size there is none of it. In a class
 * for all sizes (NAS 1638) there are no more particles of a size than of the next smaller one, less those of the next
 * larger: where the class asked for allows as many, it is kept, also where none of the table's own sizes was counted
 * (GOST 17216 by a counter of 6, 14 and 21 µm(c)). Fibres and mass, which no particle counter tells, are listed in
 * `missing` and decide nothing. A class beyond the table has a margin as if it were one class past the last. A
 * class for several sizes together (`6B-F`) is that of one of them and the most of the others: it fails where each of
 * them is asked for less, and else those asked for less are missing.
 *
 * Chance counts too: `uncertain` lists the sizes of so few particles that the oil may be dirtier than asked though its
 * counts are not (none in 10 mL leaves 37 per 100 mL possible): by the upper limit of the count, of a code alone by its
 * `>=`. What NAS 1638 and its like call met is met by the counts alone; look at `uncertain`. Of counts per mL without a
 * volume nothing is known of chance, and an empty list says nothing: zeros per mL keep any target, and are listed as
 * soon as a volume says how little oil they stand for. Nor are all others certain: 24 particles in 0.3 mL, 80 per mL
 * against a limit of 80, are met and not listed, and met in truth with 45 % (`targetProbability`).
 * `meets(table, target, codeInterval(table, counts).high)` asks whether the target is met even at the upper limit.
 *
 * Whether a machine may run is not decided here: a target met supports that decision and does not replace it.
 *
 * @param options `columns`: judge these only; a counter without the large sizes can still be held to the ranges it sees
 * @throws `bad_code`, `wrong_table`, `unknown_option`, and the errors of `classify`.
 *
 * @example
 * ```ts
 * import { iso4406, meets } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const outcome = meets(iso4406, '18/16/13', cumulativeCounts({ 4: 1890, 6: 700, 14: 33 }));
 * outcome.met; // => false
 * outcome.margins[1]; // => { column: '6', classes: -1 }
 * ```
 */
export function meets(
  table: ClassTable,
  target: string | Code,
  actual: CumulativeCounts | string | Code,
  options?: { readonly columns?: readonly string[] | undefined },
): TargetOutcome {
  requireTable(table);
  const judged = columnsAsked(table, options);
  const wanted = requireTarget(table, target);
  const isCode = typeof actual === 'string' || (typeof actual === 'object' && actual !== null && 'parts' in actual);
  const keeps = wantedOf(table, wanted, judged);
  if (isCode) return outcomeOf(table, keeps, asCode(table, actual as string | Code, 'actual').parts);
  const counts = checkCounts(actual as CumulativeCounts, 'actual');
  if (judged === null && table.columns.every((column) => columnPlace(column, counts) === null)) {
    const bounded = outcomeOf(table, keeps, nothingCounted(table), counts);
    if (bounded.met) return bounded;
  }
  return outcomeOf(table, keeps, classifySound(table, counts, 'actual', null).parts, counts);
}

/** A target must ask for what can be kept: a number for one size at least, and nothing that was never counted. */
export function requireTarget(table: ClassTable, target: string | Code): readonly CodePart[] {
  return targetIn(asCode(table, target, 'target'));
}

/** The parts of a target that has been read. */
export function targetIn({ parts, text }: Code): readonly CodePart[] {
  const vain =
    parts.some(({ mark, class: asked }) => mark === 'too_many' || (mark === 'or_dirtier' && asked !== null)) ||
    !asksFor(parts);
  if (vain) throw motescaleError('bad_code', 'target', text, "a class for at least one size, and no '*'");
  return parts;
}

/** Whether a class is asked for in one of the columns; of all of them where none are named. */
export function asksFor(parts: readonly CodePart[], columns?: readonly string[]): boolean {
  return parts.some((part) => part.class !== null && (columns === undefined || columns.indexOf(part.column) >= 0));
}

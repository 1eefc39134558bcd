/**
 * Is the target met, and by how much at each size.
 */
import type { CumulativeCounts } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { limitAt } from './classIndex.ts';
import { classifyAs, columnsAsked } from './classify.ts';
import { asCode, partIndex } from './code.ts';
import { requireTable } from './requireTable.ts';
import type { ClassTable, Code, CodePart } from './types.ts';

/** The outcome of comparing with a target. */
export interface TargetOutcome {
  /** True only if every size the target asks for is shown to keep it. */
  readonly met: boolean;
  /** How many classes cleaner than asked; negative: dirtier. */
  readonly margins: readonly { readonly column: string; readonly classes: number }[];
  /** Columns the target asks for of which nothing is known. */
  readonly missing: readonly string[];
  /** Columns whose class rests on few counted particles (`>=`): kept as counted, perhaps not in truth. */
  readonly uncertain: readonly string[];
}

/**
 * Compares counts, or a code of the same table (as text or data), with a target: a code, a class, or a mixed one (`18/-/13`, `7B/6C`, `6`).
 *
 * A size too dirty to count (`*`) fails. A size asked for but not known is listed in `missing`, and the target then counts as not met:
 * it was not shown. A class beyond the table has a margin as if it were one class past the last.
 *
 * Chance counts too: `meets(table, target, codeInterval(iso4406, counts).high)` asks whether the target is met even at the upper limit of the counting
 * statistics. `uncertain` lists only what a code itself marks, and per-mL counts mark nothing.
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
  options?: { readonly columns?: readonly string[] },
): TargetOutcome {
  requireTable(table);
  const judged = columnsAsked(table, options);
  const wanted = requireTarget(table, target);
  const isCode = typeof actual === 'string' || (typeof actual === 'object' && actual !== null && 'parts' in actual);
  const found = (
    isCode
      ? asCode(table, actual as string | Code, 'actual')
      : classifyAs(table, actual as CumulativeCounts, 'actual', null)
  ).parts;
  const margins: { column: string; classes: number }[] = [];
  const missing: string[] = [];
  const uncertain: string[] = [];
  wanted.forEach((part, i) => {
    if (part.class === null || (judged !== null && judged.indexOf(part.column) < 0)) return;
    const asked = partIndex(table, part, 'target');
    if (asked < table.classes.length && limitAt(table, asked, i) === null) return;
    const other = found[i] as CodePart;
    if (other.mark === 'too_many') {
      margins.push({ column: part.column, classes: asked - table.classes.length });
    } else if (other.class === null) {
      missing.push(part.column);
    } else {
      margins.push({ column: part.column, classes: asked - partIndex(table, other, 'actual') });
      if (other.mark === 'few_counted') uncertain.push(part.column);
    }
  });
  const met = missing.length === 0 && margins.length > 0 && margins.every((margin) => margin.classes >= 0);
  return { met, margins, missing, uncertain };
}

/** A target must ask for something that can be kept: a number for one size at least, and nothing that was never counted. */
export function requireTarget(table: ClassTable, target: string | Code): readonly CodePart[] {
  const { parts, text } = asCode(table, target, 'target');
  const vain = parts.some((part) => part.mark === 'too_many') || !asksFor(parts);
  if (vain) throw motescaleError('bad_code', 'target', text, "a class for at least one size, and no '*'");
  return parts;
}

/** Whether a class is asked for in one of the columns; of all of them where none are named. */
export function asksFor(parts: readonly CodePart[], columns?: readonly string[]): boolean {
  return parts.some((part) => part.class !== null && (columns === undefined || columns.indexOf(part.column) >= 0));
}

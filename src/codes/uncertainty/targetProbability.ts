/** How likely it is that a target is met in truth, and not only by the figures counted. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { columnsAsked } from '../classify.ts';
import { hasSizes } from '../columnSizes.ts';
import { requireTarget } from '../meets.ts';
import { type Wanted, wantedOf } from '../targetOutcome.ts';
import type { ClassColumn, ClassTable, Code } from '../types.ts';
import { emptyColumn, type UnsureColumn, unsureColumns } from './budget.ts';
import { requireUnsureColumns } from './codeUncertainty.ts';
import type { MeasurementErrors } from './errors.ts';
import { keptPerMl } from './limits.ts';
import { chanceBelow } from './spread.ts';
import { chanceTogether, type Kept } from './together.ts';

/** How likely a target is met. */
export interface TargetProbability {
  /** At all sizes together; null where a size was asked for and not counted, or none sets a limit. */
  readonly probability: number | null;
  /** What must hold however the errors of the sizes hang together: from all failing apart to all failing at once. */
  readonly atLeast: number;
  readonly atMost: number;
  /** Size by size. */
  readonly columns: readonly { readonly column: string; readonly probability: number }[];
  /** Columns the target asks for that the counts cannot fill; fibres and mass among them leave nothing open. */
  readonly missing: readonly string[];
}

/**
 * The probability that a sample meets a target, by the same errors as `codeUncertainty`: "18/16/13 is met with 97 %".
 *
 * At several sizes the parts that they share (volume, flow, sampling, dilution) move all counts at once; counting, size
 * calibration and coincidence count as independent, which is exact for ranges and on the cautious side for counts of a
 * size and larger. `atLeast` and `atMost` hold whatever hangs together.
 *
 * **It holds if nothing is known of the oil beforehand, and must not be the rule that ends a flush.** Of one size and
 * of oils even about the limit it is what it says (64 % met it where 50 to 75 % were said); of oils mostly dirtier it
 * says too much: about 1.3 times the limit with a scatter of 20 % 40 % met it, about 1.2 times with 10 % 16 %. Counted
 * again until 95 % were said, oil at 1.05 times the limit got it within 48 readings in 48 % (34 particles a reading),
 * 27 % (134) and 7 % (672). docs/sure.md has the table. For a flush there is `advanceAcceptance`.
 *
 * **Of several sizes it is too low where an oil's sizes go together.** Simulated: oils
 * at 0.4 to 2.5 times all limits at once, with 10 % of scatter between sizes. 18/16/13 in 10 mL was met in 93 to 96 %
 * where 40 to 60 % was said and in 69 to 77 % where 25 to 40 %; 13/11/8 in 1 mL in 95 to 97 and 77 to 80 % (6000 oils
 * each).
 *
 * A size asked for and not counted is listed in `missing`: then `probability` is null and `atLeast` 0. Where none was
 * counted of the next smaller size there is none of it, and it counts as that count of none does. Fibres and mass,
 * which no particle counter tells, are listed and decide nothing, as in `meets`.
 *
 * Of few or no particles it says too little rather than too much: an empty range counts as one that may hold one more
 * (`codeUncertainty` says how far). A clean oil needs a larger volume to show that it keeps a clean target.
 *
 * It is a probability for the oil in the sample at the time it was taken. Whether a machine may run on it is the
 * decision of those who answer for the machine.
 *
 * Range, accuracy and sources: those of `codeUncertainty`; 0.002 for several sizes.
 *
 * @param table a class table
 * @param target a code, a class or a mixed one (`18/-/13`), as `meets` takes it
 * @param counts raw counts (made with `volumeMl`)
 * @param errors relative standard uncertainties; `defaultMeasurementErrors` where left out
 * @param options `columns`: judge these only
 * @throws `bad_code`, `wrong_table`, `unknown_option`, and the errors of `codeUncertainty`.
 *
 * @example
 * ```ts
 * import { iso4406, targetProbability } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
 * targetProbability(iso4406, '18/16/12', counts).probability; // ~> 0.95
 * targetProbability(iso4406, '18/16/13', counts).columns[0]?.probability; // ~> 0.99
 * ```
 */
export function targetProbability(
  table: ClassTable,
  target: string | Code,
  counts: CumulativeCounts,
  errors: MeasurementErrors = {},
  options: { readonly columns?: readonly string[] | undefined } = {},
): TargetProbability {
  const known = requireUnsureColumns(table, counts, errors);
  const judged = columnsAsked(table, options);
  return probabilityOf(table, wantedOf(table, requireTarget(table, target), judged), counts, errors, known);
}

/** The same of what has been checked: a target that has been read, and the columns that the counts fill. */
export function probabilityOf(
  table: ClassTable,
  wanted: Wanted,
  counts: CumulativeCounts,
  errors: MeasurementErrors,
  known: readonly UnsureColumn[] = unsureColumns(table.columns, counts, errors),
): TargetProbability {
  const kept: Kept[] = [];
  const missing: string[] = [];
  let open = false;
  wanted.forEach((place, i) => {
    const perMl = place === null ? null : keptPerMl(table, place, i);
    if (perMl === null) return;
    const column = known.filter(({ index }) => index === i)[0] ?? emptyColumn(table, i, counts, errors);
    if (column !== null) {
      kept.push({ column, perMl });
      return;
    }
    const asked = table.columns[i] as ClassColumn;
    missing.push(asked.label);
    if (hasSizes(asked)) open = true;
  });
  const columns = kept.map(({ column, perMl }) => ({
    column: column.label,
    probability: chanceBelow(perMl, column.spread),
  }));
  let failures = 0;
  let atMost = 1;
  for (const { probability } of columns) {
    failures += 1 - probability;
    atMost = Math.min(atMost, probability);
  }
  const whole = !open && kept.length > 0;
  // of one size both bounds are its own probability, and rounding must not turn them round
  const atLeast = whole ? Math.min(atMost, Math.max(0, 1 - failures)) : 0;
  const probability = whole ? Math.min(atMost, Math.max(atLeast, chanceTogether(kept))) : null;
  return { probability, atLeast, atMost, columns, missing };
}

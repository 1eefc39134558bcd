/** How sure a code is, by all that a counter and a sample leave unsure, not only the draw of the particles. */
import { requireConfidence, requireObject } from '../../checks.ts';
import { checkCounts } from '../../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../../counts/types.ts';
import { codeOfClasses } from '../assemble.ts';
import { className, classOfPerMl } from '../classIndex.ts';
import { requireSizingOf } from '../columnSizes.ts';
import { requireTable } from '../requireTable.ts';
import type { ClassTable, Code } from '../types.ts';
import { notationOf } from '../written/formatParts.ts';
import { parseCode } from '../written/parseCode.ts';
import { type UncertaintyRow, type UnsureColumn, unsureColumns } from './budget.ts';
import { checkErrors, type MeasurementErrors } from './errors.ts';
import { classChances, greatest, keptPerMl } from './limits.ts';
import { quantile } from './spread.ts';
import { chanceTogether } from './together.ts';

/** What is known of one size, or range of sizes. */
export interface ColumnUncertainty {
  readonly column: string;
  /** The sizes it counts from and up to, in the sizing of the counts; `to` is null without an upper one. */
  readonly from: number;
  readonly to: number | null;
  /** Particles per mL, as counted. */
  readonly perMl: number;
  /** Lower and upper limit of the true count per mL, at the confidence asked for. */
  readonly low: number;
  readonly high: number;
  /** Relative standard uncertainty of the count, all parts together. */
  readonly relative: number;
  /** Every class of the table, from clean to dirty, then beyond the last, with its probability. They add up to 1. */
  readonly probabilities: readonly { readonly class: string; readonly probability: number }[];
}

/** How sure a code is. */
export interface CodeUncertainty {
  /** Of the counts. */
  readonly sizing: Sizing;
  /** The columns that the counts fill. */
  readonly columns: readonly ColumnUncertainty[];
  /** The most probable class at each size; where a class is the worst of all columns, the most probable worst. */
  readonly mostProbable: Code;
  /** Of the limits, at each size on its own. */
  readonly confidence: number;
  /** The codes of the lower and of the upper limits. */
  readonly low: Code;
  readonly high: Code;
  /** Each part of the uncertainty, column by column. */
  readonly budget: readonly UncertaintyRow[];
}

/**
 * The probability of every class at every size, an interval of codes, and the budget it comes from: counting, volume
 * and flow, size calibration and its certificate, coincidence, sampling. `codeInterval` knows the counting alone,
 * which says too much: with sizes off by 3 % a count is off by 7 to 9 %, however many particles were counted.
 *
 * The true concentration is taken as Gamma(q + 1) for q particles counted, times the other errors, which are taken as
 * lognormal and independent. An error of size becomes one of count through the slope of the counts at that size, the
 * steeper of both sides. At an outermost size, where the counts fall ever faster, it is that of the parabola through
 * three sizes; of two sizes it is their chord; a size without any other gets a slope of 3 (common practice). A loss by
 * coincidence of up to c is taken as anywhere from 0 to c at the smallest size counted, and moves the estimate up by
 * half of it. At larger ones, where two small particles are seen as one that is not there, it is anywhere from c too
 * few to c too many. A smaller error never widens the limits relative to the estimate.
 *
 * What is not given is taken from `defaultMeasurementErrors`: common practice for volume and size calibration, and
 * nothing at all for sampling, which in a bottle is often the largest part. Under a microscope nothing is usual:
 * `errors` must give both. It does not see air, water or a fouled line: no probability makes a bad sample good.
 *
 * Few particles: the model takes one more for the mean than was counted, also of a range in which none was. So several
 * empty ranges can make a worse class more probable than the counts show (182, 9, 2 and 0 particles of 6, 14, 21 and 38
 * µm(c) in 10 mL: NAS 1638 3; with a 0 at 70 as well: 6). Limits of 95 % hold the truth in 94 to 97 % where 2 particles
 * or more are expected, in 92 % at 1, in 82 % at 0.2, and never where fewer than 0.025 are: they lie above it then. It
 * errs on the dirty side; to know better, count a larger volume. docs/sure.md has the table. For that the errors must
 * be as large as stated, and the counts must tell the slope. Of two sizes alone, where counts fall ever faster, the
 * limits of the larger hold in 90 to 93 %; of one size alone in 91 % where the slope is 3.44 and in 86 % where it is 4:
 * give `slope` then.
 *
 * Range: up to 1e9 particles at a size; errors as `MeasurementErrors` says; confidence 0.5 to 0.9999. Accuracy,
 * within the model: 0.0005 of a probability, 0.1 % of a limit.
 *
 * Sources: JCGM 101:2008, 6.4.11 (a count as Gamma); JCGM 100:2008, 5.1.6 and 4.3.7 (relative variances add;
 * rectangular distribution).
 *
 * @param table a class table
 * @param counts raw counts (made with `volumeMl`)
 * @param errors relative standard uncertainties, such as `{ volume: 0.02 }`
 * @param options `confidence` of the interval, 0.95 where left out: at each size on its own
 * @throws `missing_volume` if the counts carry no particles counted and volume; `missing_size` if they fill no column;
 * `no_answer` for counts under a microscope without `volume` and `sizing` in `errors`;
 * `sizing_not_convertible`, `out_of_range`, `unknown_option`, `negative`, and the errors of bad counts.
 *
 * @example
 * ```ts
 * import { codeUncertainty, iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const sure = codeUncertainty(iso4406, cumulativeCounts({ 4: 12600, 6: 2400, 14: 60 }, { volumeMl: 10 }));
 * sure.mostProbable.text; // => '17/15/10'
 * sure.low.text; // => '17/15/9'
 * sure.high.text; // => '18/15/10'
 * sure.columns[0]?.probabilities[17]?.probability; // ~> 0.60
 * sure.columns[0]?.probabilities[18]?.probability; // ~> 0.40
 * sure.budget.filter(({ share }) => share > 0.5)[0]?.part; // => 'sizing'
 * ```
 */
export function codeUncertainty(
  table: ClassTable,
  counts: CumulativeCounts,
  errors: MeasurementErrors = {},
  options: { readonly confidence?: number | undefined } = {},
): CodeUncertainty {
  const columns = requireUnsureColumns(table, counts, errors);
  requireObject(options, 'options', undefined, ['confidence']);
  const confidence = requireConfidence(options.confidence);
  const tail = (1 - confidence) / 2;
  const found = columns.map((column) => ({
    ...column,
    chances: classChances(table, column),
    low: quantile(tail, column.spread),
    high: quantile(1 - tail, column.spread),
  }));
  const codeOf = (indexOf: (column: (typeof found)[number]) => number): Code => {
    const classes: (number | null)[] = table.columns.map(() => null);
    for (const column of found) classes[column.index] = indexOf(column);
    return codeOfClasses(table, classes, counts);
  };
  const low = codeOf((column) => classOfPerMl(table, column.index, column.low));
  const high = codeOf((column) => classOfPerMl(table, column.index, column.high));
  return {
    sizing: counts.sizing,
    columns: found.map((column) => ({
      column: column.label,
      from: column.from,
      to: column.to,
      perMl: column.spread.counted * column.spread.onePerMl,
      low: column.low,
      high: column.high,
      relative: Math.sqrt(column.rows.reduce((sum, { relative }) => sum + relative * relative, 0)),
      probabilities: column.chances.map((probability, index) => ({ class: className(table, index), probability })),
    })),
    mostProbable:
      notationOf(table) === 'single'
        ? parseCode(table, className(table, mostProbableWorst(table, columns)))
        : codeOf(({ chances }) => greatest(chances)),
    confidence,
    low,
    high,
    budget: columns.reduce<UncertaintyRow[]>((all, { rows }) => all.concat(rows), []),
  };
}

/** The columns that the counts fill, everything checked. */
export function requireUnsureColumns(
  table: ClassTable,
  counts: CumulativeCounts,
  errors: MeasurementErrors,
): UnsureColumn[] {
  requireTable(table);
  checkCounts(counts);
  requireSizingOf(table, counts.sizing, 'counts.sizing');
  return unsureColumns(table.columns, counts, checkErrors(errors));
}

/** The class that is the worst over all columns with the highest probability. */
function mostProbableWorst(table: ClassTable, columns: readonly UnsureColumn[]): number {
  const chances: number[] = [];
  let before = 0;
  for (let index = 0; index <= table.classes.length; index += 1) {
    const kept = columns.map((column) => ({ column, perMl: keptPerMl(table, index, column.index) ?? Infinity }));
    const together = before === 1 ? 1 : chanceTogether(kept);
    chances.push(together - before);
    before = together;
  }
  return greatest(chances);
}

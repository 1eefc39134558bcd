/** How often a target was kept in a period, and whether the last reading kept it. */
import { type ClassTable, type Code, type MeasurementErrors, meets, targetProbability } from '../../codes/index.ts';
import { asksFor, requireTarget } from '../../codes/meets.ts';
import { errorParts, tellErrors } from '../../codes/uncertainty/errors.ts';
import { parseGiven } from '../../codes/written/givenCode.ts';
import { motescaleError } from '../../errors.ts';
import { codeText, tableCode } from '../classSteps.ts';
import type { ReportReading } from '../reportReading.ts';
import { errorsTaken, type TakenErrors } from '../takenErrors.ts';
import { codeOf, type Judging } from './periodCounts.ts';

/** How often a target was kept. Numbers of good and uncertain readings. */
export interface TargetFigures {
  readonly code: string;
  readonly met: number;
  /** How many of those that met it are good. */
  readonly metGood: number;
  readonly judged: number;
  /** Sizes are missing, or rest on too few particles to tell, and the others do not decide it. */
  readonly unjudged: number;
  /** Whether the last one met it; null where it could not be judged. */
  readonly last: boolean | null;
  /**
   * The probability that the last reading met it in truth, where `errors` are given; null without raw counts and their
   * volume, where a size is missing, or where the counts are a microscope's and `errors` lack `volume` or `sizing`.
   */
  readonly probability?: number | null;
  /** The errors that probability was reckoned with, those left out at their usual values; none where it is null. */
  readonly errors?: TakenErrors;
}

/** A target that the table can read, and that asks for something in the columns judged. */
export function checkTarget(table: ClassTable, target: string | Code, columns: readonly string[] | undefined): void {
  if (asksFor(requireTarget(table, target), columns)) return;
  throw motescaleError('bad_code', 'options.target', codeText(target), 'a class for at least one of options.columns');
}

/** Judges each reading. Codes of one text are judged once. */
export function targetFigures(
  usable: readonly ReportReading[],
  judging: Judging,
  target: string | Code,
  errors?: MeasurementErrors,
): TargetFigures {
  const { table } = judging;
  const known: { [text: string]: boolean | null } = {};
  let met = 0;
  let metGood = 0;
  let judged = 0;
  let last: boolean | null = null;
  for (const reading of usable) {
    const found = codeOfReading(judging, reading);
    last = null;
    if (found !== null) {
      // the parts and not the text, which says only the worst of all in some tables
      const key = found.parts.map((part) => `${part.class}${part.mark ?? ''}`).join();
      if (!(key in known)) known[key] = meets(table, target, found, judging.options).met;
      last = known[key] as boolean | null;
      // counts may show more than their code: where there is none of a size, there is none of a larger one
      if (last === null && reading.counts !== undefined)
        last = meets(table, target, reading.counts, judging.options).met;
    }
    if (last === null) continue;
    judged += 1;
    if (!last) continue;
    met += 1;
    if ((reading.quality ?? 'good') === 'good') metGood += 1;
  }
  const figures = { code: codeText(target), met, metGood, judged, unjudged: usable.length - judged, last };
  if (errors === undefined) return figures;
  const { counts } = usable[usable.length - 1] as ReportReading;
  const canTell = counts?.counted !== undefined && counts.volumeMl !== undefined && tellErrors(errors, counts);
  const probability = canTell ? targetProbability(table, target, counts, errors, judging.options).probability : null;
  if (probability === null) return { ...figures, probability };
  return { ...figures, probability, errors: errorsTaken(errors, errorParts) };
}

function codeOfReading(judging: Judging, reading: ReportReading): Code | null {
  if (reading.counts !== undefined) return codeOf(judging, reading.counts);
  const text = tableCode(reading, judging.table);
  return text === null ? null : parseGiven(judging.table, text, 'readings.codes');
}

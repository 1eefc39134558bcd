/**
 * How often a target was kept in a period, and whether the last reading kept it.
 */
import { type ClassTable, type Code, meets } from '../codes/index.ts';
import { asksFor, requireTarget } from '../codes/meets.ts';
import type { CumulativeCounts } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import { codeText, shortTitle } from './classSteps.ts';
import { percentText } from './figures.ts';
import { codeOf, type Judging } from './periodCounts.ts';
import type { ReportReading } from './reportReading.ts';

/** A target that the table can read, and that asks for something in the columns judged. */
export function checkTarget(table: ClassTable, target: string | Code, columns: readonly string[] | undefined): void {
  if (asksFor(requireTarget(table, target), columns)) return;
  throw motescaleError('bad_code', 'options.target', codeText(target), 'a class for at least one of options.columns');
}

/** `ISO 4406 18/16/13: met by 2 of 3 readings (66.7 %), not by the last`. */
export function targetText(usable: readonly ReportReading[], judging: Judging, target: string | Code): string {
  const outcomes = usable.map(({ counts }) => verdictOn(judging, target, counts));
  const judged = outcomes.filter((outcome) => outcome !== null);
  const met = judged.filter((outcome) => outcome).length;
  const unjudged = usable.length - judged.length;
  const last = outcomes[outcomes.length - 1] as boolean | null;
  let text = 'could not be judged: no reading has all its sizes';
  if (judged.length > 0) {
    text = `met by ${met} of ${judged.length} readings (${percentText(met, judged.length)})`;
    if (met > 0 && met < judged.length && last !== null) text += `, ${last ? 'also' : 'not'} by the last`;
    if (unjudged > 0) text += `; ${unjudged} could not be judged${last === null ? ', the last among them' : ''}`;
  }
  return `${shortTitle(judging.table)} ${codeText(target)}: ${text}`;
}

/** Whether the target is met; null where sizes are missing and those known do not decide it. */
function verdictOn(judging: Judging, target: string | Code, counts: CumulativeCounts): boolean | null {
  const code = codeOf(judging, counts);
  if (code === null) return null;
  const { met, margins } = meets(judging.table, target, code, judging.options);
  if (met || margins.some(({ classes }) => classes < 0)) return met;
  return null;
}

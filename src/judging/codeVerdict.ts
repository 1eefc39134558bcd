/** The codes of a reading in the tables asked for, and how they stand to their targets. */
import { hasOwn } from '../checks.ts';
import { classifySound } from '../codes/classify.ts';
import type { Classification, ClassTable, Code } from '../codes/index.ts';
import { outcomeOf, type Wanted } from '../codes/targetOutcome.ts';
import { parseGiven } from '../codes/written/givenCode.ts';
import { riseWithSize } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { caught } from '../errors.ts';
import type { Reading } from '../reading/reading.ts';
import type { CodePlan } from './codePlan.ts';
import type { CodeVerdict } from './types.ts';

/**
 * One verdict for each table: by the counts or, without counts, by the code the instrument gave in that table. A table
 * that has neither gives no code but a reason. Asked of readings that have passed the gate.
 */
export function codeVerdicts(plans: readonly CodePlan[], reading: Reading): CodeVerdict[] {
  return plans.map((plan) => {
    const { table, target } = plan;
    const { id, standard = id } = table;
    const { counts } = reading;
    const code = counts === undefined ? codeGiven(table, reading) : counted(plan, counts);
    if (typeof code === 'string') {
      const none = { table: id, standard, text: null, code: null, from: null, classification: null, reason: code };
      return target === null ? { ...none, outcome: null } : { ...none, target, outcome: null };
    }
    const { text } = code;
    const from = counts === undefined ? 'code' : 'counts';
    const classification = counts === undefined ? null : (code as Classification);
    if (target === null) return { table: id, standard, text, code, from, classification, outcome: null };
    const outcome = outcomeOf(table, plan.wanted as Wanted, code.parts, counts);
    return { table: id, standard, text, code, from, classification, target, outcome };
  });
}

function counted({ table, columns }: CodePlan, counts: CumulativeCounts): Classification | string {
  if (riseWithSize(counts)) return 'counts rise with size';
  try {
    return classifySound(table, counts, 'counts', columns);
  } catch (error) {
    return caught(error).message;
  }
}

/** The code in a table as the instrument gave it, or why there is none that can be read. */
export function codeGiven(table: ClassTable, { codes }: Reading): Code | string {
  if (codes === undefined || !hasOwn(codes, table.id))
    return `neither counts nor a code of '${table.id}' in the reading`;
  try {
    return parseGiven(table, codes[table.id] as string, `reading.codes.${table.id}`);
  } catch (error) {
    return caught(error).message;
  }
}

/** Whether all targets are met; null where that cannot be said. */
export function inTarget(codes: readonly CodeVerdict[]): boolean | null {
  let shown: boolean | null = null;
  let unknown = false;
  for (const { target, outcome } of codes) {
    if (target === undefined) continue;
    if (outcome === null) {
      unknown = true;
      continue;
    }
    if (outcome.margins.some((margin) => margin.classes < 0)) return false;
    if (!outcome.met) unknown = true;
    shown = true;
  }
  return unknown ? null : shown;
}

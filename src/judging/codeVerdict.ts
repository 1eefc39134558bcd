/**
 * The codes of a reading in the tables asked for, and how they stand to their targets.
 */
import { type Classification, classify, meets } from '../codes/index.ts';
import { isMotescaleError } from '../errors.ts';
import type { TimedReading } from '../reading/reading.ts';
import type { CodeVerdict, WatchedTable } from './types.ts';

/** One verdict for each table. Counts that a table cannot classify give no code but a reason. */
export function codeVerdicts(tables: readonly WatchedTable[], reading: TimedReading): CodeVerdict[] {
  return tables.map((entry): CodeVerdict => {
    const { table, target } = entry;
    const { id, standard = id } = table;
    const asked = target === undefined ? {} : { target };
    let classification: Classification;
    try {
      classification = classify(table, reading.counts, columnsOf(entry));
    } catch (error) {
      if (!isMotescaleError(error)) throw error;
      return { table: id, standard, text: null, classification: null, reason: error.message, ...asked, outcome: null };
    }
    const outcome = target === undefined ? null : meets(table, target, classification, columnsOf(entry));
    return { table: id, standard, text: classification.text, classification, ...asked, outcome };
  });
}

/** The columns to judge, as `classify` and `meets` take them. */
export function columnsOf({ columns }: { readonly columns?: readonly string[] }): { columns?: readonly string[] } {
  return columns === undefined ? {} : { columns };
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

/** By how many classes the worst size is dirtier than a code, negative where all are cleaner; null where one not known could be. */
export function classesBeyond(
  tables: readonly WatchedTable[],
  codes: readonly CodeVerdict[],
  table: string,
  setpoint: string,
): number | null {
  for (let i = 0; i < codes.length; i += 1) {
    const { table: id, classification, target, outcome } = codes[i] as CodeVerdict;
    if (id !== table) continue;
    if (classification === null) return null;
    const known = target === setpoint ? outcome : null;
    const entry = tables[i] as WatchedTable;
    const { margins, missing } = known ?? meets(entry.table, setpoint, classification, columnsOf(entry));
    let worst: number | null = null;
    for (const { classes } of margins) if (worst === null || 0 - classes > worst) worst = 0 - classes;
    return missing.length > 0 && (worst === null || worst <= 0) ? null : worst;
  }
  return null;
}

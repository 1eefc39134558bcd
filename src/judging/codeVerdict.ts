/**
 * The codes of a reading in the tables asked for, and how they stand to their targets.
 */
import { type Classification, type ClassTable, type Code, classify, meets, parseCode } from '../codes/index.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { isMotescaleError } from '../errors.ts';
import type { Reading } from '../reading/reading.ts';
import type { CodeVerdict, WatchedTable } from './types.ts';

/**
 * One verdict for each table: by the counts or, without counts, by the code the instrument gave in that table. A table that has neither gives no
 * code but a reason. Asked of readings that have passed the gate.
 */
export function codeVerdicts(tables: readonly WatchedTable[], reading: Reading): CodeVerdict[] {
  return tables.map((entry): CodeVerdict => {
    const { table, target } = entry;
    const wanted = target === undefined ? {} : { target };
    const { id, standard = id } = table;
    const found = reading.counts === undefined ? given(table, reading) : counted(entry, reading.counts);
    if (typeof found === 'string') {
      const none = { text: null, code: null, from: null, classification: null, outcome: null };
      return { table: id, standard, ...none, reason: found, ...wanted };
    }
    const { code, classification } = found;
    const outcome = target === undefined ? null : meets(table, target, code, columnsOf(entry));
    const from = classification === null ? 'code' : 'counts';
    return { table: id, standard, text: code.text, code, from, classification, ...wanted, outcome };
  });
}

interface Found {
  readonly code: Code;
  readonly classification: Classification | null;
}

function counted(entry: WatchedTable, counts: CumulativeCounts): Found | string {
  try {
    const classification = classify(entry.table, counts, columnsOf(entry));
    return { code: classification, classification };
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return error.code === 'counts_rise_with_size' ? 'counts rise with size' : error.message;
  }
}

function given(table: ClassTable, { codes }: Reading): Found | string {
  if (codes === undefined || Object.keys(codes).indexOf(table.id) < 0)
    return `neither counts nor a code of '${table.id}' in the reading`;
  const code = codeGiven(table, codes[table.id] as string);
  return typeof code === 'string' ? code : { code, classification: null };
}

/** A code as the instrument gave it, or why it cannot be read. */
export function codeGiven(table: ClassTable, text: string): Code | string {
  try {
    return parseCode(table, text, `reading.codes.${table.id}`);
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return error.message;
  }
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
    const { table: id, code, target, outcome } = codes[i] as CodeVerdict;
    if (id !== table) continue;
    if (code === null) return null;
    const known = target === setpoint ? outcome : null;
    const entry = tables[i] as WatchedTable;
    const { margins, missing } = known ?? meets(entry.table, setpoint, code, columnsOf(entry));
    let worst: number | null = null;
    for (const { classes } of margins) if (worst === null || 0 - classes > worst) worst = 0 - classes;
    return missing.length > 0 && (worst === null || worst <= 0) ? null : worst;
  }
  return null;
}

/**
 * The codes of a configuration: each table found, its columns and its target read.
 */
import type { ClassTable } from '../codes/index.ts';
import { requireTable } from '../codes/requireTable.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import { isMotescaleError, motescaleError, noteProblem, type Path, type Problem } from '../errors.ts';
import { isObject } from '../rules/check.ts';
import { type CodePlan, wantedOf } from './codePlan.ts';

/** A table to write codes in, by itself or by its id, with a target or without. */
export interface CodeEntry {
  readonly table: unknown;
  readonly target?: string;
  readonly columns?: readonly string[];
}

/** Tables handed in to be found by their ids. */
export function tablesOf(tables: readonly ClassTable[], parameter: string): readonly ClassTable[] {
  if (!Array.isArray(tables)) throw motescaleError('wrong_type', parameter, tables, 'an array of class tables');
  for (let i = 0; i < tables.length; i += 1) requireTable(tables[i], `${parameter}[${i}]`);
  return tables;
}

/** The plan of one code, or null with its mistakes noted. `seen`: ids of the tables before it. */
export function planCode(
  entry: CodeEntry,
  tables: readonly ClassTable[],
  seen: string[],
  path: Path,
  problems: Problem[],
): CodePlan | null {
  const table = tableOf(entry.table, tables, [...path, 'table'], problems);
  if (table === null) return null;
  const before = problems.length;
  if (seen.indexOf(table.id) >= 0)
    noteProblem(problems, [...path, 'table'], 'unknown_option', table.id, 'each table once');
  seen.push(table.id);
  const { columns, target } = entry;
  const labels = table.columns.map(({ label }) => label);
  if (columns !== undefined && Array.isArray(columns))
    columns.forEach((label, i) => {
      if (labels.indexOf(label) >= 0) return;
      noteProblem(problems, [...path, 'columns', i], 'unknown_option', label, `one of '${labels.join("', '")}'`);
    });
  if (problems.length > before) return null;
  const judged = columns ?? null;
  if (target === undefined) return { table, columns: judged, target: null, wanted: null };
  const wanted = readCode(table, target, judged, [...path, 'target'], problems);
  return wanted === null ? null : { table, columns: judged, target, wanted };
}

function tableOf(table: unknown, tables: readonly ClassTable[], path: Path, problems: Problem[]): ClassTable | null {
  if (typeof table === 'string') {
    const ids: string[] = [];
    // one's own come last and go before
    for (let i = tables.length - 1; i >= 0; i -= 1) {
      const known = tables[i] as ClassTable;
      if (known.id === table) return known;
      ids.push(known.id);
    }
    const among = ids.length === 0 ? 'none was handed in, as `tables`' : `'${ids.reverse().join("', '")}'`;
    noteProblem(problems, path, 'unknown_option', table, `the id of a table: ${among}`);
    return null;
  }
  try {
    requireTable(table as ClassTable);
    return table as ClassTable;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    if (typeof table === 'object' && table !== null) noteProblem(problems, path, error.code, table, error.expected);
    return null;
  }
}

/** A code that the table can read, and that asks for something in the columns judged; no class that nothing can exceed. */
export function readCode(
  table: ClassTable,
  text: string,
  columns: readonly string[] | null,
  path: Path,
  problems: Problem[],
): Wanted | null {
  if (typeof text !== 'string') return null;
  try {
    const wanted = wantedOf(table, text, columns);
    const asked = wanted.filter((place) => place !== null) as number[];
    if (asked.length > 0 && asked.every((place) => place < table.classes.length)) return wanted;
    const labels = columns ?? table.columns.map(({ label }) => label);
    throw motescaleError('bad_code', 'code', text, `classes of the table, for one of '${labels.join("', '")}'`);
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    noteProblem(problems, path, error.code, text, error.expected);
    return null;
  }
}

/** The tables of a configuration, or none with the first mistake noted. */
export function notingTables(own: readonly unknown[], problems: Problem[]): readonly ClassTable[] {
  try {
    return tablesOf(own as readonly ClassTable[], 'config.tables');
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    problems.push({ path: ['tables'], code: error.code, received: error.received, expected: error.expected });
    return [];
  }
}

/** The configuration with an empty object for each table, so that a rule can be asked of all the rest. */
export function withoutTables(config: unknown): unknown {
  if (!isObject(config)) return config;
  const bare: { [name: string]: unknown } = { ...config };
  const empty = (table: unknown) => (isObject(table) ? {} : table);
  if (Array.isArray(config.tables) && config.tables.length < 100) bare.tables = config.tables.map(empty);
  if ('table' in config) bare.table = empty(config.table);
  if (Array.isArray(config.codes) && config.codes.length < 100)
    bare.codes = config.codes.map((entry: unknown) =>
      isObject(entry) && 'table' in entry ? { ...entry, table: empty(entry.table) } : entry,
    );
  return bare;
}

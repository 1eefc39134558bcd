/** The codes of a configuration: each table found, its columns and its target read. */
import { isObject, requireArray } from '../checks.ts';
import type { ClassTable, MeasurementErrors } from '../codes/index.ts';
import { targetIn } from '../codes/meets.ts';
import { noteUnsound } from '../codes/ownTable/noteUnsound.ts';
import { isFrozen } from '../codes/tables/frozen.ts';
import { type Wanted, wantedOf } from '../codes/targetOutcome.ts';
import { parseCode } from '../codes/written/parseCode.ts';
import { caught, noteProblem, type Path, type Problem, throwMistakes } from '../errors.ts';
import type { EitherRule, Rule } from '../rules/rule.ts';
import { oneOf } from '../rules/words.ts';
import { nameRule } from '../state/rules.ts';
import type { CodePlan } from './codePlan.ts';

/** A table to write codes in, by itself or by its id, with a target or without. */
export interface CodeEntry {
  readonly table: unknown;
  readonly target?: string | undefined;
  readonly columns?: readonly string[] | undefined;
  readonly errors?: MeasurementErrors | undefined;
}

/** A class table by its rule, or the id of one. */
export function tableOrIdRule(table: Rule, expected: string): EitherRule {
  const id: Rule = { ...nameRule, expected: 'the id of a table' };
  return { kind: 'either', expected, forms: [id, table], choose: (value) => (typeof value === 'string' ? id : table) };
}

/** Tables handed in to be found by their ids. */
export function tablesOf(tables: readonly ClassTable[]): readonly ClassTable[] {
  requireArray(tables, 'options.tables', 'an array of class tables');
  const problems: Problem[] = [];
  for (let i = 0; i < tables.length; i += 1) noteUnsound(tables[i], [i], problems);
  throwMistakes('options.tables', tables, problems);
  return tables;
}

/** Tables to be found by their ids. */
export interface KnownTables {
  readonly tables: readonly ClassTable[];
  /** More may be handed in later: an id not known yet is no mistake, but its code is not read. */
  readonly open: boolean;
}

/**
 * The plan of one code; null with its mistakes noted, where its table has one already, or where its table is yet to
 * come. With a target that cannot be read, which is noted, the plan is made all the same, so that alarms are held
 * against its table.
 */
export function planCode(
  entry: CodeEntry,
  known: KnownTables,
  seen: string[],
  path: Path,
  problems: Problem[],
): CodePlan | null {
  const place = [...path, 'table'];
  if (hasMistake(problems, place)) return null;
  const before = problems.length;
  const found = tableOf(entry.table, known, place, problems);
  if (problems.length > before) return null;
  const table = found === null || isFrozen(found) ? found : ownCopyOf(found);
  // one that is yet to come has its id
  const id = table === null ? (entry.table as unknown as string) : table.id;
  if (seen.indexOf(id) >= 0) noteProblem(problems, place, 'unknown_option', id, 'each table once');
  seen.push(id);
  if (table === null) return null;
  // asked of columns and a target that keep their own rules
  if (hasMistake(problems, [...path, 'columns']) || hasMistake(problems, [...path, 'target'])) return null;
  const { columns, target, errors } = entry;
  const labels = table.columns.map(({ label }) => label);
  columns?.forEach((label, i) => {
    if (labels.indexOf(label) < 0)
      noteProblem(problems, [...path, 'columns', i], 'unknown_option', label, oneOf(labels));
  });
  if (problems.length > before) return null;
  const judged = columns === undefined ? null : columns.slice();
  if (target === undefined && errors !== undefined)
    noteProblem(problems, [...path, 'errors'], 'unknown_option', 'errors', 'a target beside it');
  if (target === undefined) return { table, columns: judged, target: null, wanted: null };
  const wanted = readCode(table, target, judged, [...path, 'target'], problems);
  return { table, columns: judged, target, wanted, ...(errors === undefined ? {} : { errors: { ...errors } }) };
}

/** What decides a class, so that nobody changes a prepared table by changing what it was made from. */
function ownCopyOf(table: ClassTable): ClassTable {
  return {
    ...table,
    columns: table.columns.map((column) => {
      const from = { ...column.from };
      return column.to === undefined ? { ...column, from } : { ...column, from, to: { ...column.to } };
    }),
    classes: table.classes.slice(),
    limits: table.limits.map((row) => row.slice()),
  };
}

/** Whether a mistake has been found at a place or within it. */
export function hasMistake(problems: readonly Problem[], place: Path): boolean {
  return problems.some(({ path }) => place.every((step, i) => path[i] === step));
}

function tableOf(table: unknown, { tables, open }: KnownTables, path: Path, problems: Problem[]): ClassTable | null {
  if (typeof table === 'string') {
    const ids: string[] = [];
    // one's own come last and go before
    for (let i = tables.length - 1; i >= 0; i -= 1) {
      const known = tables[i] as ClassTable;
      if (known.id === table) return known;
      ids.push(known.id);
    }
    if (open) return null;
    const none = 'a class table itself: no `tables` were handed in that an id could name';
    const expected = ids.length === 0 ? none : `the id of a table: '${ids.reverse().join("', '")}'`;
    noteProblem(problems, path, 'unknown_option', table, expected);
    return null;
  }
  return noteUnsound(table, path, problems) ? table : null;
}

/**
 * A code that the table can read, and that asks for something in the columns judged; no class that nothing can exceed.
 */
export function readCode(
  table: ClassTable,
  text: string,
  columns: readonly string[] | null,
  path: Path,
  problems: Problem[],
): Wanted | null {
  try {
    const wanted = wantedOf(table, targetIn(parseCode(table, text, 'target')), columns);
    const asked = wanted.filter((place) => place !== null) as number[];
    const last = table.classes.length - 1;
    if (asked.length > 0 && asked.every((place) => place <= last)) return wanted;
    const labels = columns ?? table.columns.map(({ label }) => label);
    const expected =
      asked.length > 0
        ? `classes up to ${table.classes[last]}: any oil keeps the one beyond`
        : `classes of the table, for ${oneOf(labels)}`;
    noteProblem(problems, path, 'bad_code', text, expected);
  } catch (error) {
    const { code, expected } = caught(error);
    noteProblem(problems, path, code, text, expected);
  }
  return null;
}

/** The tables of a configuration that are whole; the others are noted, unless they have been. */
export function notingTables(own: unknown, problems: Problem[]): readonly ClassTable[] {
  const tables: ClassTable[] = [];
  if (!Array.isArray(own)) return tables;
  for (let i = 0; i < own.length && i < mostListed; i += 1) {
    const path = ['tables', i];
    const table = hasMistake(problems, path) ? null : tableOf(own[i], { tables: [], open: true }, path, problems);
    if (table !== null) tables.push(table);
  }
  return tables;
}

/** No configuration has more tables or codes. */
const mostListed = 100;

/** The configuration with each table that stands in it changed, by where it stands; of whatever shape the rest is. */
export function withTables(config: unknown, change: (table: object, path: Path) => unknown): unknown {
  if (!isObject(config)) return config;
  const bare: { [name: string]: unknown } = { ...config };
  const changed = (table: unknown, path: Path) => (isObject(table) ? change(table, path) : table);
  const each = (list: unknown, one: (element: unknown, i: number) => unknown) =>
    Array.isArray(list) && list.length < mostListed ? list.map(one) : list;
  if ('tables' in config) bare.tables = each(config.tables, (table, i) => changed(table, ['tables', i]));
  if ('table' in config) bare.table = changed(config.table, ['table']);
  if ('codes' in config)
    bare.codes = each(config.codes, (entry, i) =>
      isObject(entry) && 'table' in entry ? { ...entry, table: changed(entry.table, ['codes', i, 'table']) } : entry,
    );
  return bare;
}

/** The configuration with an empty object for each table, so that a rule can be asked of all the rest. */
export function withoutTables(config: unknown): unknown {
  return withTables(config, () => ({}));
}

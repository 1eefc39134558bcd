/**
 * A user's own table: checked once, then as good as any standard's.
 */
import {
  requireCount,
  requireFilledArray,
  requireMembers,
  requireNonNegative,
  requireObject,
  requireOneOf,
  requirePositive,
  requireText,
} from '../checks.ts';
import { requireSizing } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/types.ts';
import { motescaleError } from '../errors.ts';
import { standings } from '../source.ts';
import { notations } from './requireTable.ts';
import { frozen } from './tables/frozen.ts';
import type { ClassColumn, ClassTable, Notation } from './types.ts';

/** A table before it is checked: `source` may be left out. */
export type OwnTable = Omit<ClassTable, 'source'> & Partial<Pick<ClassTable, 'source'>>;

const sourceMembers = ['document', 'edition', 'place', 'standing'];
const members = [
  'id',
  'standard',
  'title',
  'source',
  'counting',
  'perVolumeMl',
  'notation',
  'fewCounted',
  'columns',
  'classes',
  'limits',
  'wording',
  'notes',
  'elsewhere',
];

/**
 * Checks a user's own table and returns it, ready for every function that takes a table. Written as a single worst class unless
 * `notation` says otherwise.
 *
 * What must hold: at least one column and one class, each named once; a limit (or null) for every class and column; limits never fall
 * from a cleaner class to a dirtier, and once null (not normed) stay null (columns that no counter fills are free in this);
 * sizes ascend; a range ends where the next one starts, and only the last may be open. The table returned is a copy that nobody can change.
 * Reports call its results by `standard`, and by `id` where that is left out.
 *
 * @throws `bad_table` and the usual ones, each naming the member at fault.
 *
 * @example
 * ```ts
 * import { classify, classTable } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * const gateOil = classTable({
 *   id: 'gateOil', title: 'Lock gate oil', counting: 'cumulative', perVolumeMl: 1,
 *   columns: [{ label: '6', from: { iso11171: 6 } }, { label: '14', from: { iso11171: 14 } }],
 *   classes: ['run', 'filter'], limits: [[640, 80], [2500, 320]],
 * });
 * classify(gateOil, cumulativeCounts({ 6: 700, 14: 60 })).text; // => 'filter'
 * ```
 */
export function classTable(own: OwnTable): ClassTable {
  requireMembers(requireObject(own, 'own', 'a class table'), 'own', members);
  requireFilledText(own.id, 'own.id');
  requireFilledText(own.title, 'own.title');
  if (own.standard !== undefined) requireFilledText(own.standard, 'own.standard');
  requireOneOf(own.counting, 'own.counting', ['cumulative', 'differential']);
  if (own.perVolumeMl !== 1 && own.perVolumeMl !== 100) {
    throw motescaleError('unknown_option', 'own.perVolumeMl', own.perVolumeMl, '1 or 100');
  }
  const notation = own.notation === undefined ? 'single' : requireOneOf(own.notation, 'own.notation', notations);
  requireFilledArray(own.columns, 'own.columns');
  requireFilledArray(own.classes, 'own.classes');
  const largest: { [sizing in Sizing]?: number } = {};
  for (let i = 0; i < own.columns.length; i += 1) checkColumn(own, own.columns[i] as ClassColumn, i, largest);
  checkMeeting(own);
  requireDistinct(
    own.columns.map((column) => column.label),
    'own.columns',
  );
  for (let i = 0; i < own.classes.length; i += 1) requireFilledText(own.classes[i], `own.classes[${i}]`);
  requireDistinct(own.classes, 'own.classes');
  checkNames(own, notation);
  checkLimits(own);
  checkTexts(own);
  if (own.fewCounted !== undefined) requireCount(own.fewCounted, 'own.fewCounted');
  return frozen(copyOf(own, notation));
}

/** A copy of its own, so that nobody changes a checked table by changing what it was made from. */
function copyOf(own: OwnTable, notation: Notation): ClassTable {
  if (own.source !== undefined) {
    requireMembers(requireObject(own.source, 'own.source', 'a source'), 'own.source', sourceMembers);
  }
  const { document, edition, place, standing } = own.source ?? {
    document: own.title,
    edition: '',
    place: "the user's own table",
    standing: 'common practice' as const,
  };
  const copy: ClassTable = {
    ...own,
    notation,
    source: {
      document: requireText(document, 'own.source.document'),
      edition: requireText(edition, 'own.source.edition'),
      place: requireText(place, 'own.source.place'),
      standing: requireOneOf(standing, 'own.source.standing', standings),
    },
    columns: own.columns.map((column) => {
      const copy = { label: column.label, from: { ...column.from } };
      return column.to === undefined ? copy : { ...copy, to: { ...column.to } };
    }),
    classes: own.classes.slice(),
    limits: own.limits.map((row) => row.slice()),
  };
  const { wording, notes } = own;
  const withNotes = notes === undefined ? copy : { ...copy, notes: notes.slice() };
  if (wording === undefined) return withNotes;
  const words: { [name: string]: { [column: string]: string } } = {};
  for (const name of Object.keys(wording)) words[name] = { ...wording[name] };
  return { ...withNotes, wording: words };
}

/** `largest`: the largest size so far in each sizing, kept up to date. */
function checkColumn(own: OwnTable, column: ClassColumn, i: number, largest: { [sizing in Sizing]?: number }): void {
  const name = `own.columns[${i}]`;
  requireMembers(requireObject(column, name, 'a column { label, from }'), name, ['label', 'from', 'to']);
  requireFilledText(column.label, `${name}.label`);
  requireObject(column.from, `${name}.from`, 'sizes by sizing, such as { iso11171: 6 }');
  if (column.to !== undefined) requireObject(column.to, `${name}.to`, 'sizes by sizing, such as { iso11171: 14 }');
  for (const key of Object.keys(column.from)) {
    const sizing = requireSizing(key, `${name}.from`);
    const from = requirePositive(column.from[sizing], `${name}.from.${sizing}`, 'a size in µm above 0');
    if (column.to !== undefined) {
      const to = requirePositive(column.to[sizing], `${name}.to.${sizing}`, `a size in µm above ${from}`);
      if (to <= from) throw motescaleError('sizes_out_of_order', `${name}.to.${sizing}`, to, `a size above ${from} µm`);
    }
    const before = largest[sizing] ?? 0;
    if (from <= before) {
      throw motescaleError('sizes_out_of_order', `${name}.from.${sizing}`, from, `a size above ${before} µm`);
    }
    largest[sizing] = from;
  }
  if (own.counting === 'cumulative' && column.to !== undefined) {
    throw motescaleError('bad_table', `${name}.to`, column.to, 'no upper end in a cumulative table');
  }
  if (column.to !== undefined) requireMembers(column.to, `${name}.to`, Object.keys(column.from));
}

/** A particle belongs to one range: each ends where the next of its sizing starts. */
function checkMeeting(own: OwnTable): void {
  if (own.counting === 'cumulative') return;
  for (let i = 0; i < own.columns.length; i += 1) {
    const { from, to } = own.columns[i] as ClassColumn;
    for (const sizing of Object.keys(from) as Sizing[]) {
      const next = nextFrom(own, i, sizing);
      const end = to?.[sizing];
      if (next === undefined || end === next) continue;
      const name = to === undefined ? `own.columns[${i}].to` : `own.columns[${i}].to.${sizing}`;
      throw motescaleError('bad_table', name, end, `${next}, where the next range starts`);
    }
  }
}

function nextFrom(own: OwnTable, i: number, sizing: Sizing): number | undefined {
  for (const { from } of own.columns.slice(i + 1)) if (from[sizing] !== undefined) return from[sizing];
  return undefined;
}

function checkLimits(own: OwnTable): void {
  requireFilledArray(own.limits, 'own.limits');
  if (own.limits.length !== own.classes.length) {
    throw motescaleError('length_mismatch', 'own.limits', own.limits, `${own.classes.length} rows, one for each class`);
  }
  for (let i = 0; i < own.limits.length; i += 1) {
    const row = own.limits[i] as readonly (number | null)[];
    const name = `own.limits[${i}]`;
    if (requireFilledArray(row, name).length !== own.columns.length) {
      throw motescaleError('length_mismatch', name, row, `${own.columns.length} limits, one for each column`);
    }
    for (let j = 0; j < row.length; j += 1) {
      const limit = row[j] as number | null;
      const cleaner = i === 0 ? 0 : ((own.limits[i - 1] as readonly (number | null)[])[j] as number | null);
      if (limit !== null) requireNonNegative(limit, `${name}[${j}]`, 'a limit of 0 or more, or null');
      const counted = Object.keys((own.columns[j] as ClassColumn).from).length > 0;
      if (counted && limit !== null && (cleaner === null || limit < cleaner)) {
        throw motescaleError(
          'bad_table',
          `${name}[${j}]`,
          limit,
          `at least ${cleaner}, the limit of the cleaner class`,
        );
      }
    }
  }
}

function checkTexts({ elsewhere, notes, wording }: OwnTable): void {
  if (elsewhere !== undefined) requireText(elsewhere, 'own.elsewhere');
  if (notes !== undefined) {
    if (!Array.isArray(notes)) throw motescaleError('wrong_type', 'own.notes', notes, 'an array of texts');
    for (let i = 0; i < notes.length; i += 1) requireText(notes[i], `own.notes[${i}]`);
  }
  if (wording === undefined) return;
  requireObject(wording, 'own.wording', 'texts by class and column');
  for (const name of Object.keys(wording)) {
    const words = requireObject(wording[name], `own.wording.${name}`, 'texts by column') as Record<string, unknown>;
    for (const column of Object.keys(words)) requireText(words[column], `own.wording.${name}.${column}`);
  }
}

/** The names must be readable again in the notation: no signs of its own, and single letters where sizes are lettered. */
function checkNames(own: OwnTable, notation: Notation): void {
  own.classes.forEach((name, i) => {
    const readable = notation === 'lettered' ? /^\d+$/.test(name) : /^[^\s/>=≥*-]([^/]*[^\s/])?$/.test(name);
    if (!readable) {
      const expected = notation === 'lettered' ? 'digits' : "a name without '/', that starts with a letter or digit";
      throw motescaleError('bad_table', `own.classes[${i}]`, name, expected);
    }
  });
  if (notation !== 'lettered') return;
  own.columns.forEach((column, i) => {
    if (!/^[A-Z]$/.test(column.label))
      throw motescaleError('bad_table', `own.columns[${i}].label`, column.label, 'one capital letter');
  });
}

function requireFilledText(value: unknown, parameter: string): void {
  if (requireText(value, parameter) === '')
    throw motescaleError('empty', parameter, value, 'a text of at least one character');
}

function requireDistinct(names: readonly string[], parameter: string): void {
  const seen: { [name: string]: true } = {};
  names.forEach((name, i) => {
    // marked, so that no name is one that every object has
    const key = `name ${name}`;
    if (seen[key]) throw motescaleError('bad_table', `${parameter}[${i}]`, name, 'each name once');
    seen[key] = true;
  });
}

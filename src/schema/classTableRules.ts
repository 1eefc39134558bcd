/**
 * What the members of a class table ask of each other: the rules of `classTable`, all of them and not up to the first one broken.
 */
import type { ErrorCode } from '../errors.ts';
import { type InputProblem, problemAt } from './inputError.ts';
import { anotherName, elements, hasMember, inherited, member } from './loose.ts';

type Path = readonly (string | number)[];
type Note = (path: Path, code: ErrorCode, received: unknown, expected: string) => void;

/** Every rule that a table breaks, as far as its shape allows to tell. `above` is where it stands in what was handed in. */
export function tableProblems(root: string, above: Path, table: unknown): InputProblem[] {
  const problems: InputProblem[] = [];
  const note: Note = (path, code, received, expected) => {
    problems.push(problemAt(root, [...above, ...path], code, received, expected));
  };
  const columns = elements(member(table, 'columns'));
  const classes = elements(member(table, 'classes'));
  const largest: Record<string, number> = {};
  columns.forEach((column, i) => {
    noteSizes(column, largest, i, note);
    const to = member(column, 'to');
    if (to !== undefined && member(table, 'counting') === 'cumulative')
      note(['columns', i, 'to'], 'bad_table', to, 'no upper end in a cumulative table');
  });
  const labels = columns.map((column) => member(column, 'label'));
  if (member(table, 'counting') === 'differential') noteMeeting(columns, note);
  noteRepeated(labels, (i) => ['columns', i, 'label'], note);
  noteRepeated(classes, (i) => ['classes', i], note);
  noteNames(member(table, 'notation') === 'lettered', labels, classes, note);
  noteLimits(elements(member(table, 'limits')), columns, classes, note);
  noteWording(member(table, 'wording'), note);
  return problems;
}

/** Sizes ascend from column to column, and a range ends above its start. `largest` is that of the columns before, by sizing. */
function noteSizes(column: unknown, largest: Record<string, number>, i: number, note: Note): void {
  const sizes = member(column, 'from');
  if (typeof sizes !== 'object' || sizes === null) return;
  const ends = member(column, 'to');
  for (const sizing of Object.keys(ends ?? {})) {
    const named = Object.keys(sizes);
    if (named.indexOf(sizing) < 0)
      note(['columns', i, 'to', sizing], 'unknown_option', sizing, `one of '${named.join("', '")}'`);
  }
  for (const sizing of Object.keys(sizes)) {
    const from = member(sizes, sizing);
    // a size of no value is no size left out: the column could never be filled
    if (from === undefined) note(['columns', i, 'from', sizing], 'wrong_type', from, 'a size in µm above 0');
    if (typeof from !== 'number') continue;
    const to = member(ends, sizing);
    if (ends !== undefined && (to === undefined || (typeof to === 'number' && to <= from))) {
      const code = to === undefined ? 'wrong_type' : 'sizes_out_of_order';
      note(['columns', i, 'to', sizing], code, to, `a size above ${from} µm`);
    }
    const before = largest[sizing] ?? 0;
    if (from <= before) note(['columns', i, 'from', sizing], 'sizes_out_of_order', from, `a size above ${before} µm`);
    largest[sizing] = Math.max(before, from);
  }
}

/** A particle belongs to one range: each ends where the next of its sizing starts. */
function noteMeeting(columns: readonly unknown[], note: Note): void {
  columns.forEach((column, i) => {
    const [starts, ends] = [member(column, 'from'), member(column, 'to')];
    for (const sizing of Object.keys(starts ?? {})) {
      const later = columns.slice(i + 1).map((one) => member(member(one, 'from'), sizing));
      const next = later.find((from) => from !== undefined);
      const end = member(ends, sizing);
      if (typeof next !== 'number' || end === next || (ends !== undefined && typeof end !== 'number')) continue;
      const path = ends === undefined ? ['columns', i, 'to'] : ['columns', i, 'to', sizing];
      note(path, 'bad_table', end, `${next}, where the next range starts`);
      // an open range is said to be open once, not in each sizing
      if (ends === undefined) return;
    }
  });
}

/** Names in the wording are copied; one of them is no name of a member but that of what an object inherits. */
function noteWording(wording: unknown, note: Note): void {
  if (typeof wording !== 'object' || wording === null) return;
  for (const path of [[], ...Object.keys(wording).map((name) => [name])]) {
    const names = path.reduce<unknown>(member, wording);
    if (hasMember(names, inherited)) note(['wording', ...path, inherited], 'unknown_option', inherited, anotherName);
  }
}

function noteRepeated(names: readonly unknown[], path: (i: number) => Path, note: Note): void {
  const seen = new Set<unknown>();
  names.forEach((name, i) => {
    if (seen.has(name)) note(path(i), 'bad_table', name, 'each name once');
    if (typeof name === 'string') seen.add(name);
  });
}

/** The names must be readable again in the notation: no signs of its own, and single letters where sizes are lettered. */
function noteNames(lettered: boolean, labels: readonly unknown[], classes: readonly unknown[], note: Note): void {
  const readable = lettered ? /^\d+$/ : /^[^\s/>=≥*-]([^/]*[^\s/])?$/;
  const expected = lettered ? 'digits' : "a name without '/', that starts with a letter or digit";
  classes.forEach((name, i) => {
    if (typeof name === 'string' && !readable.test(name)) note(['classes', i], 'bad_table', name, expected);
  });
  labels.forEach((label, i) => {
    if (lettered && typeof label === 'string' && !/^[A-Z]$/.test(label))
      note(['columns', i, 'label'], 'bad_table', label, 'one capital letter');
  });
}

/** A limit for every class and column, never below that of a cleaner class; once null, always null. */
function noteLimits(
  limits: readonly unknown[],
  columns: readonly unknown[],
  classes: readonly unknown[],
  note: Note,
): void {
  if (limits.length !== classes.length)
    note(['limits'], 'length_mismatch', limits, `${classes.length} rows, one for each class`);
  limits.forEach((row, i) => {
    if (Array.isArray(row) && row.length !== columns.length)
      note(['limits', i], 'length_mismatch', row, `${columns.length} limits, one for each column`);
    elements(row).forEach((limit, j) => {
      const counted = Object.keys(member(columns[j], 'from') ?? {}).length > 0;
      if (!counted || typeof limit !== 'number') return;
      const cleaner = i === 0 ? 0 : member(limits[i - 1], j);
      if (cleaner === null) note(['limits', i, j], 'bad_table', limit, 'null, as in the cleaner class');
      else if (typeof cleaner === 'number' && limit < cleaner)
        note(['limits', i, j], 'bad_table', limit, `at least ${cleaner}, the limit of the cleaner class`);
    });
  });
}

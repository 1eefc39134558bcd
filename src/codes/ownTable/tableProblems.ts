/** Everything wrong with a class table: its members by their rule, and what sound ones ask of each other. */
import { isObject } from '../../checks.ts';
import { noteProblem, type Path, type Problem } from '../../errors.ts';
import { checkRule } from '../../rules/check.ts';
import { holds } from '../../rules/holds.ts';
import type { Rule } from '../../rules/rule.ts';
import { hasSizes } from '../columnSizes.ts';
import type { ClassColumn, OwnTable } from '../types.ts';
import { readableClass, sizeLetter } from './readable.ts';
import { tableRule } from './tableRule.ts';

type Sizes = { readonly [sizing: string]: number };

/** Notes every mistake in a table that stands at a path, and says whether there is none. */
export function noteTable(own: unknown, path: Path, problems: Problem[]): own is OwnTable {
  const found = tableProblems(own);
  for (const problem of found) problems.push({ ...problem, path: [...path, ...problem.path] });
  return found.length === 0;
}

/** Every mistake in a table, in the order of its members, those between members last. */
export function tableProblems(own: unknown): Problem[] {
  const problems: Problem[] = [];
  checkRule(tableRule, own, [], problems);
  if (!isObject(own)) return problems;
  const { counting, notation, columns, classes, limits } = own as unknown as OwnTable;
  const keeps = (name: string) => holds(tableRule.members[name] as Rule, own[name]);
  const [soundColumns, soundClasses] = [keeps('columns'), keeps('classes')];
  const lettered = notation === 'lettered';
  if (soundColumns) {
    noteSizes(columns, counting === 'cumulative', problems);
    if (counting === 'differential') noteMeeting(columns, problems);
    const labels = columns.map(({ label }) => label);
    noteTwice(labels, (i) => ['columns', i, 'label'], problems);
    if (lettered) noteUnreadable(labels, sizeLetter, 'one capital letter', (i) => ['columns', i, 'label'], problems);
  }
  if (soundClasses) {
    noteTwice(classes, (i) => ['classes', i], problems);
    const readable = readableClass(lettered);
    const expected = lettered ? 'digits' : "a name without '/', that starts with a letter or digit";
    noteUnreadable(classes, readable, expected, (i) => ['classes', i], problems);
  }
  if (keeps('limits'))
    noteLimits(limits, soundColumns ? columns : null, soundClasses ? classes.length : null, problems);
  return problems;
}

/** Sizes ascend from column to column, and a range ends above its start. */
function noteSizes(columns: readonly ClassColumn[], cumulative: boolean, problems: Problem[]): void {
  const largest: { [sizing: string]: number } = {};
  for (let i = 0; i < columns.length; i += 1) {
    const { from, to } = columns[i] as { readonly from: Sizes; readonly to?: Sizes };
    const sizings = Object.keys(from);
    if (cumulative && to !== undefined)
      noteProblem(problems, ['columns', i, 'to'], 'bad_table', to, 'no upper end in a cumulative table');
    for (const sizing of Object.keys(to ?? {})) {
      if (sizings.indexOf(sizing) >= 0) continue;
      const expected = `one of '${sizings.join("', '")}'`;
      noteProblem(problems, ['columns', i, 'to', sizing], 'unknown_option', sizing, expected);
    }
    for (const sizing of sizings) {
      const start = from[sizing] as number;
      const end = to?.[sizing];
      if (to !== undefined && (end === undefined || end <= start)) {
        const code = end === undefined ? 'wrong_type' : 'sizes_out_of_order';
        noteProblem(problems, ['columns', i, 'to', sizing], code, end, `a size above ${start} µm`);
      }
      const before = largest[sizing] ?? 0;
      if (start <= before)
        noteProblem(problems, ['columns', i, 'from', sizing], 'sizes_out_of_order', start, `a size above ${before} µm`);
      largest[sizing] = Math.max(before, start);
    }
  }
}

/** A particle belongs to one range: each ends where the next of its sizing starts, and only the last may be open. */
function noteMeeting(columns: readonly ClassColumn[], problems: Problem[]): void {
  const next: { [sizing: string]: number } = {};
  const backwards: Problem[] = [];
  for (let i = columns.length - 1; i >= 0; i -= 1) {
    const { from, to } = columns[i] as { readonly from: Sizes; readonly to?: Sizes };
    let told = false;
    for (const sizing of Object.keys(from)) {
      const [start, end, meets] = [from[sizing] as number, to?.[sizing], next[sizing]];
      next[sizing] = start;
      // an open range is said to be open once, not in each sizing; an end that is missing or too low has been told
      if (told || meets === undefined || end === meets) continue;
      if (to !== undefined && (end === undefined || end <= start)) continue;
      const path: Path = to === undefined ? ['columns', i, 'to'] : ['columns', i, 'to', sizing];
      noteProblem(backwards, path, 'bad_table', end, `${meets}, where the next range starts`);
      told = to === undefined;
    }
  }
  for (let i = backwards.length - 1; i >= 0; i -= 1) problems.push(backwards[i] as Problem);
}

function noteTwice(names: readonly string[], path: (i: number) => Path, problems: Problem[]): void {
  const seen: { [name: string]: true } = {};
  names.forEach((name, i) => {
    // marked, so that no name is one that every object has
    const key = `name ${name}`;
    if (seen[key]) noteProblem(problems, path(i), 'bad_table', name, 'each name once');
    seen[key] = true;
  });
}

function noteUnreadable(
  names: readonly string[],
  readable: RegExp,
  expected: string,
  path: (i: number) => Path,
  problems: Problem[],
): void {
  names.forEach((name, i) => {
    if (!readable.test(name)) noteProblem(problems, path(i), 'bad_table', name, expected);
  });
}

/** A row for each class, a limit for each column; none falls from clean to dirty, and once null it stays null. */
function noteLimits(
  limits: OwnTable['limits'],
  columns: readonly ClassColumn[] | null,
  classes: number | null,
  problems: Problem[],
): void {
  if (classes !== null && limits.length !== classes)
    noteProblem(problems, ['limits'], 'length_mismatch', limits, `${classes} rows, one for each class`);
  if (columns === null) return;
  // columns that no counter fills are free
  const counted = columns.map(hasSizes);
  limits.forEach((row, i) => {
    if (row.length !== columns.length)
      noteProblem(problems, ['limits', i], 'length_mismatch', row, `${columns.length} limits, one for each column`);
    row.forEach((limit, j) => {
      if (!counted[j] || limit === null) return;
      const cleaner = i === 0 ? 0 : limits[i - 1]?.[j];
      if (cleaner === undefined || (cleaner !== null && limit >= cleaner)) return;
      const expected =
        cleaner === null ? 'null: as in the cleaner class' : `at least ${cleaner}, the limit of the cleaner class`;
      noteProblem(problems, ['limits', i, j], 'bad_table', limit, expected);
    });
  });
}

/** The ids that codes of a reading come under. A misspelt one would pass for a code that never came. */
import type { ClassTable } from '../codes/types.ts';
import { noteProblem, type Problem, throwMistakes } from '../errors.ts';
import { idHint } from '../rules/hints.ts';
import type { Reading } from './reading.ts';

/** The ids of `standardTables`, by name alone: a bundle need not hold the tables. */
export const standardIds: readonly string[] = [
  'iso4406',
  'iso4406Microscope',
  'as4059Cumulative',
  'as4059Differential',
  'nas1638',
  'gost17216',
  'sae749d',
  'navair',
  'cc1246',
];

/** The ids of tables at hand, each once, and those of the standards. */
export function idsWith(tables: readonly ClassTable[]): readonly string[] {
  const ids = standardIds.slice();
  for (let i = 0; i < tables.length; i += 1) {
    const { id } = tables[i] as ClassTable;
    if (ids.indexOf(id) < 0) ids.push(id);
  }
  return ids;
}

/** Throws where a code stands under another id. Asked of checked readings. */
export function requireTableIds({ codes }: Reading, ids: readonly string[], root: string): void {
  if (codes === undefined) return;
  const problems: Problem[] = [];
  noteOtherIds(codes, ids, problems, '');
  throwMistakes(root, codes, problems);
}

/** Notes each code that stands under another id: where it is, and the ids there are. */
export function noteOtherIds(codes: object, ids: readonly string[], problems: Problem[], before: string): void {
  for (const id of Object.keys(codes)) {
    if (ids.indexOf(id) >= 0) continue;
    const expected = `${before}${idHint(id, ids)}one of '${ids.join("', '")}'`;
    noteProblem(problems, ['codes', id], 'unknown_option', id, expected);
  }
}

/** A user's own table: checked once, then as good as any standard's. */
import { throwMistakes } from '../../errors.ts';
import { frozen } from '../tables/frozen.ts';
import type { ClassTable, OwnTable } from '../types.ts';
import { tableProblems } from './tableProblems.ts';

/**
 * Checks a user's own table and returns it, ready for every function that takes a table. Written as a single worst
 * class unless `notation` says otherwise.
 *
 * What must hold: at least one column and one class, each named once; a limit (or null) for every class and column;
 * limits never fall from a cleaner class to a dirtier, and once null (not normed) stay null (columns that no counter
 * fills are free in this); sizes ascend; a range ends where the next one starts, and only the last may be open. The
 * table returned is a copy that nobody can change. Reports call its results by `standard`, and by `id` where that is
 * left out.
 *
 * @throws one error that names the member at fault; where several are, `problemsOf` gives every mistake, and its code
 * is that of the first. Of what its members ask of each other: `bad_table`, `sizes_out_of_order`, `length_mismatch`.
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
  throwMistakes('own', own, tableProblems(own));
  return frozen(copyOf(own));
}

/** A copy of its own, so that nobody changes a checked table by changing what it was made from. */
function copyOf(own: OwnTable): ClassTable {
  const { wording, notes, notation = 'single' } = own;
  const source = own.source ?? {
    document: own.title,
    edition: '',
    place: "the user's own table",
    standing: 'common practice' as const,
  };
  const copy: ClassTable = {
    ...own,
    notation,
    source: { ...source },
    columns: own.columns.map(({ label, from, to }) => {
      const column = { label, from: { ...from } };
      return to === undefined ? column : { ...column, to: { ...to } };
    }),
    classes: own.classes.slice(),
    limits: own.limits.map((row) => row.slice()),
  };
  const withNotes = notes === undefined ? copy : { ...copy, notes: notes.slice() };
  if (wording === undefined) return withNotes;
  const words: { [name: string]: { [column: string]: string } } = {};
  for (const name of Object.keys(wording)) words[name] = { ...wording[name] };
  return { ...withNotes, wording: words };
}

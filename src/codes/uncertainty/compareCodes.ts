/** Pair by pair: what a class in one standard says against a code in another, of the same oil. */
import { requireMembers, requireObject } from '../../checks.ts';
import { requireSizing } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { placeOf } from '../classIndex.ts';
import { requireSizingOf, sizingsOf } from '../columnSizes.ts';
import { casesOf, spanOfAny } from '../comparison/cases.ts';
import { claimsOf, isTogether } from '../comparison/claims.ts';
import { pairSystem } from '../comparison/pairSystem.ts';
import type { ClassTable, Code, CodePart } from '../types.ts';
import { asCode } from '../written/code.ts';

/** A code with the table it was made with. */
export interface CodeOfTable {
  readonly table: ClassTable;
  readonly code: string | Code;
}

/** What one code says against another. */
export interface CodeComparison {
  /** The sizing in which both were read. */
  readonly sizing: Sizing;
  /** Whether one sample can have both, as counted. False is a proof that no counts give both. */
  readonly possible: boolean;
  /**
   * The classes of the first table that the second code alone leaves possible, whatever the first says: where
   * `possible` is false, what a sample with the second code can have instead.
   */
  readonly lowest: string;
  readonly highest: string;
  /**
   * Column by column of the first, each on its own: the class given, and those that the second code leaves. Each may be
   * possible where all together are not.
   */
  readonly columns: readonly {
    readonly column: string;
    readonly given: string;
    readonly lowest: string;
    readonly highest: string;
    /** `cleaner`, `dirtier`: than the second code allows. */
    readonly outcome: 'possible' | 'cleaner' | 'dirtier';
  }[];
  /** Columns of the first of which the second code says nothing. */
  readonly unseen: readonly string[];
}

/**
 * Whether a class in one standard and a code in another can be those of one sample: the laboratory's NAS 1638 class
 * against the code of a counter, or a class against a microscope code. `possible: true` says no more than that; the
 * classes that are left are often many.
 *
 * It is decided exactly, over the counts at all sizes of both tables: each keeps the limits of its class, and one of
 * the columns that have a class together exceeds those of the class before. A sample has one class in a table, so two
 * different ones are impossible. But for GOST 17216: fibres and mass may have decided a class, and from a class alone
 * nobody can tell whether they were looked at (`8` by a counter, and `10` with fibres).
 *
 * Both are read in one sizing: the first of `iso11171`, `microscope`, `iso4402`, `iso11171b` in which both tables
 * have sizes, unless one is given. NAS 1638 has sizes in three of them: against `iso4406Microscope` it is read by
 * microscope.
 *
 * Errors of both counts are not allowed for: near a limit, two right measurements can contradict each other.
 * `codeUncertainty` says how near that is. Nor is chance: a class marked `>=`, found from fewer than 20 particles, is
 * taken as counted, and two right counts of one oil may then be `possible: false` (`>=7` of one particle in 1 mL, 8 of
 * 200 in 100 mL). `countsDiffer` compares such counts.
 *
 * @param first the class in question, with its table
 * @param second the code it is held against, with its table
 * @param options `sizing`: the sizing to read both in
 * @throws `sizing_not_convertible` where the tables have no sizing in common; `bad_code`, `wrong_table`,
 * `unknown_sizing`, `unknown_option`; `no_answer` where no sample can have the second code (`13/18`).
 *
 * @example
 * ```ts
 * import { compareCodes, iso4406Microscope, nas1638 } from 'motescale/codes';
 * const found = compareCodes({ table: nas1638, code: '8' }, { table: iso4406Microscope, code: '-/18/13' });
 * found.sizing; // => 'microscope'
 * found.possible; // => false
 * found.columns[0]; // => { column: '5-15', given: '8', lowest: '9', highest: '10', outcome: 'cleaner' }
 * ```
 */
export function compareCodes(
  first: CodeOfTable,
  second: CodeOfTable,
  options: { readonly sizing?: Sizing | undefined } = {},
): CodeComparison {
  const one = requireCode(first, 'first');
  const other = requireCode(second, 'second');
  requireObject(options, 'options', undefined, ['sizing']);
  const sizing =
    options.sizing === undefined
      ? commonSizing(first.table, second.table)
      : requireSizing(options.sizing, 'options.sizing');
  requireSizingOf(first.table, sizing, 'options.sizing');
  requireSizingOf(second.table, sizing, 'options.sizing');
  const system = pairSystem([first.table, second.table], sizing);
  const left = casesOf(system, second.table, claimsOf(second.table, other), system.differences);
  if (left.length === 0)
    throw motescaleError('no_answer', 'second.code', other.text, 'a code that some sample can have');
  const claims = claimsOf(first.table, one);
  const possible =
    !differ(first.table, one, second.table, other) &&
    left.some((differences) => casesOf(system, first.table, claims, differences, true).length > 0);
  const { table } = first;
  const span = spanOfAny(table, sizing, system, left);
  const columns: CodeComparison['columns'][number][] = [];
  for (const bounds of span.columns) {
    const part = one.parts.filter(({ column }) => column === bounds.column)[0] as CodePart;
    if (part.class === null) continue;
    const given = placeOf(table, part.class);
    // of columns with one class together each may be cleaner; of none is known that it is so dirty
    const isDirtier = !isTogether(part) && given > placeOf(table, bounds.highest);
    const cleaner = part.mark !== 'or_dirtier' && given < placeOf(table, bounds.lowest);
    const outcome = cleaner ? 'cleaner' : isDirtier ? 'dirtier' : 'possible';
    columns.push({ ...bounds, given: part.class, outcome });
  }
  return { sizing, possible, lowest: span.lowest, highest: span.highest, columns, unseen: span.unseen };
}

/** Whether both give one column of one table classes that differ. Limits may be shared, classes not. */
function differ(table: ClassTable, one: Code, another: ClassTable, other: Code): boolean {
  if (table.id !== another.id) return false;
  return one.parts.some((part, i) => {
    const against = other.parts[i] as CodePart;
    if (isTogether(part) || isTogether(against)) return false;
    return part.class !== null && against.class !== null && part.class !== against.class;
  });
}

function requireCode(given: CodeOfTable, parameter: string): Code {
  requireObject(given, parameter, 'a code with its table { table, code }');
  requireMembers(given, parameter, ['table', 'code']);
  return asCode(given.table, given.code, `${parameter}.code`);
}

function commonSizing(first: ClassTable, second: ClassTable): Sizing {
  const [one, other] = [sizingsOf(first), sizingsOf(second)];
  const common = one.filter((sizing) => other.indexOf(sizing) >= 0)[0];
  if (common !== undefined) return common;
  const wanted = `a table with sizes by '${one.join("' or '")}', as ${first.title}`;
  const expected = `${wanted}; this one has '${other.join("' or '")}'`;
  throw motescaleError('sizing_not_convertible', 'second.table', second.id, expected);
}

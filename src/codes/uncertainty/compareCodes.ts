/** Pair by pair: what a class in one standard says against a code in another, of the same oil. */
import { requireMembers, requireObject } from '../../checks.ts';
import { requireSizing } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { limitAt, limitPerMl, placeOf } from '../classIndex.ts';
import { columnSizes, sizingsOf } from '../columnSizes.ts';
import { isPossible } from '../comparison/countSystem.ts';
import { systemOf } from '../comparison/knowledge.ts';
import { possibleClasses } from '../comparison/possibleClasses.ts';
import { limitsOf } from '../limitsOf.ts';
import type { ClassColumn, ClassTable, Code, CodePart, CountBand, CountBands } from '../types.ts';
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
  /** The classes of the first table that the second code leaves possible. */
  readonly lowest: string;
  readonly highest: string;
  /** Column by column of the first: the class given, and those left possible. */
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
 * Whether a class in one standard and a code in another can be those of one sample, as `possibleClasses` proves it:
 * the laboratory's NAS 1638 class against the code of a counter, or a class against a microscope code. `possible:
 * true` says no more than that; the classes that are left are often many.
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
 * `unknown_sizing`, `unknown_option`; `no_answer` where the second code contradicts itself (`13/18`).
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
  options: { readonly sizing?: Sizing } = {},
): CodeComparison {
  const one = requireCode(first, 'first');
  const other = requireCode(second, 'second');
  requireObject(options, 'options', undefined, ['sizing']);
  const sizing =
    options.sizing === undefined
      ? commonSizing(first.table, second.table)
      : requireSizing(options.sizing, 'options.sizing');
  const known = limitsOf(second.table, other, sizing);
  const { table } = first;
  const span = possibleClasses(table, known);
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
  const bands = limitsOf(table, one, sizing).bands.concat(known.bands);
  const dirtiest = dirtiestOf(table, one, sizing).concat(dirtiestOf(second.table, other, sizing));
  const possible = canHold(table, sizing, bands, dirtiest);
  return { sizing, possible, lowest: span.lowest, highest: span.highest, columns, unseen: span.unseen };
}

/** A column that has its class with others: `at_most`, one of them has it; `or_dirtier`, one of them at least. */
function isTogether({ mark }: CodePart): boolean {
  return mark === 'at_most' || mark === 'or_dirtier';
}

/**
 * What holds besides the bands of a code, as lists of which one holds at least: of columns with one class together, one
 * has more than the class before allows.
 */
function dirtiestOf(table: ClassTable, { parts }: Code, sizing: Sizing): CountBand[][] {
  const names: string[] = [];
  for (const part of parts)
    if (part.class !== null && isTogether(part) && names.indexOf(part.class) < 0) names.push(part.class);
  const lists: CountBand[][] = [];
  for (const name of names) {
    const place = placeOf(table, name);
    const list: CountBand[] = [];
    let isKnown = place > 0;
    parts.forEach((part, i) => {
      if (part.class !== name || !isTogether(part)) return;
      const sizes = columnSizes(table.columns[i] as ClassColumn, sizing);
      const above = limitPerMl(table, limitAt(table, place - 1, i));
      // one without sizes here may be the one that has it; one without a limit in the class before cannot be
      if (sizes === null) isKnown = false;
      else if (above !== null) list.push({ ...sizes, above, upTo: null });
    });
    if (isKnown) lists.push(list);
  }
  return lists;
}

/** Whether all bands can hold at once with one of each list. */
function canHold(
  table: ClassTable,
  sizing: Sizing,
  bands: readonly CountBand[],
  [first, ...rest]: readonly (readonly CountBand[])[],
): boolean {
  if (first === undefined) return agree(table, { sizing, bands });
  return first.some((band) => canHold(table, sizing, bands.concat(band), rest));
}

/** Whether all bands can hold at once. */
function agree(table: ClassTable, bands: CountBands): boolean {
  const { sizes, differences } = systemOf(bands, table);
  return isPossible(sizes.length + 1, differences);
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
  throw motescaleError(
    'sizing_not_convertible',
    'second.table',
    second.id,
    `a table with sizes by '${one.join("' or '")}', as ${first.title}; this one has '${other.join("' or '")}'`,
  );
}

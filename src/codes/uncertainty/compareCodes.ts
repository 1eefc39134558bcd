/**
 * Pair by pair: what a class in one standard says against a code in another, of the same oil.
 */
import { requireMembers, requireObject } from '../../checks.ts';
import { requireSizing } from '../../counts/checkCounts.ts';
import type { Sizing } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { className, placeOf } from '../classIndex.ts';
import { sizingsOf } from '../columnSizes.ts';
import { isPossible } from '../comparison/countSystem.ts';
import { systemOf } from '../comparison/knowledge.ts';
import { possibleClasses } from '../comparison/possibleClasses.ts';
import { limitsOf } from '../limitsOf.ts';
import type { ClassTable, Code, CodePart, CountBand, CountBands } from '../types.ts';
import { asCode } from '../written/code.ts';
import { notationOf } from '../written/formatParts.ts';

/** A code with the table it was made with. */
export interface CodeOfTable {
  readonly table: ClassTable;
  readonly code: string | Code;
}

/** What one code says against another. */
export interface CodeComparison {
  /** The sizing in which both were read. */
  readonly sizing: Sizing;
  /** Whether one sample can have both. False is a proof that it cannot. */
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
 * `codeUncertainty` says how near that is.
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
  const { open, together } = spreadOf(table, one);
  const columns: CodeComparison['columns'][number][] = [];
  for (const bounds of span.columns) {
    const part = one.parts.filter(({ column }) => column === bounds.column)[0] as CodePart;
    if (part.class === null) continue;
    const given = placeOf(table, part.class);
    const isDirtier = !together && given > placeOf(table, bounds.highest);
    const cleaner = !open && given < placeOf(table, bounds.lowest);
    const outcome = cleaner ? 'cleaner' : isDirtier ? 'dirtier' : 'possible';
    columns.push({ ...bounds, given: part.class, outcome });
  }
  const bands = limitsOf(table, one, sizing).bands.concat(known.bands);
  const possible = dirtiestOf(table, one, sizing).some((own) =>
    dirtiestOf(second.table, other, sizing).some((its) => agree(table, { sizing, bands: bands.concat(own, its) })),
  );
  return { sizing, possible, lowest: span.lowest, highest: span.highest, columns, unseen: span.unseen };
}

/** What a code says of the columns together. */
interface Spread {
  /** Of no column anything is known, but that one at least is so dirty. */
  readonly open: boolean;
  /** One class for all columns: each is that or cleaner, and one at least is that. */
  readonly together: boolean;
  /** The place of that class. */
  readonly worst: number;
}

function spreadOf(table: ClassTable, { parts }: Code): Spread {
  const single = notationOf(table) === 'single' && parts.every((part) => part.class !== null);
  const open = single && parts.every(({ mark }) => mark === 'or_dirtier');
  const together = open || (single && parts.every(({ mark }) => mark === 'at_most' || mark === 'beyond'));
  return { open, together, worst: together ? placeOf(table, (parts[0] as CodePart).class) : 0 };
}

/**
 * What holds besides the bands of a code, as lists of which one holds at least: where the class is the worst of all
 * columns, one of them has more than the class before allows.
 */
function dirtiestOf(table: ClassTable, code: Code, sizing: Sizing): (readonly CountBand[])[] {
  const { together, worst } = spreadOf(table, code);
  const found = together ? overCleaner(table, worst, sizing).map((band) => [band]) : [];
  return found.length === 0 ? [[]] : found;
}

/** In each column, more than the class before allows. */
function overCleaner(table: ClassTable, worst: number, sizing: Sizing): CountBand[] {
  if (worst === 0) return [];
  const found: CountBand[] = [];
  for (const band of limitsOf(table, className(table, worst - 1), sizing).bands)
    if (band.upTo !== null) found.push({ ...band, above: band.upTo, upTo: null });
  return found;
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

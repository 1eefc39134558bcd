/**
 * One sample as a sheet: what was counted, the codes with what decided them, how sure they are, the target, and how all
 * of it was worked out.
 */
import { requireFilledArray, requireObject, requireText } from '../../checks.ts';
import { hasSizes } from '../../codes/columnSizes.ts';
import {
  type ClassTable,
  type Code,
  classify,
  codeUncertainty,
  type MeasurementErrors,
  meets,
  targetProbability,
} from '../../codes/index.ts';
import { requireTable } from '../../codes/requireTable.ts';
import { nothingCounted } from '../../codes/targetOutcome.ts';
import { checkErrors, isDiluted, partsOf, tellErrors } from '../../codes/uncertainty/errors.ts';
import { checkCounts } from '../../counts/checkCounts.ts';
import { type CumulativeCounts, countInterval, type Sizing } from '../../counts/index.ts';
import { isMotescaleError } from '../../errors.ts';
import type { Source } from '../../source.ts';
import { version } from '../../version.ts';
import { codeText, shortTitle, tableOr } from '../classSteps.ts';
import type { Moment } from '../period/periodCoverage.ts';
import { errorsTaken, type TakenErrors } from '../takenErrors.ts';
import type { NotLookedAt } from '../texts/types.ts';
import { offsetAt, requireTime, type UtcOffset, zoneText } from '../timeText.ts';

/** What to put on the sheet. */
export interface SampleSheetOptions {
  readonly title?: string | undefined;
  /** When it was taken, ms since 1970. */
  readonly time?: number | undefined;
  readonly utcOffsetMinutes?: UtcOffset | undefined;
  /** The tables to write codes in; ISO 4406 where left out. */
  readonly tables?: readonly ClassTable[] | undefined;
  /** The code to be kept, in the first of the tables. */
  readonly target?: string | Code | undefined;
  /**
   * Relative standard uncertainties; the usual ones, `defaultMeasurementErrors`, where left out. Counts under a
   * microscope have none: without `volume` and `sizing` how sure they are cannot be told.
   */
  readonly errors?: MeasurementErrors | undefined;
}

/** One size. */
export interface SheetCount {
  readonly size: number;
  readonly perMl: number;
  /**
   * Particles counted, and 95 % limits of the count per mL by counting alone; null where only counts per mL are given.
   */
  readonly counted: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** What decided one column of a code: counts in the volume of the table. */
export interface SheetColumn {
  readonly column: string;
  readonly class: string;
  readonly count: number;
  /** Exceeded. */
  readonly above: number;
  /** Kept; null beyond the last class. */
  readonly upTo: number | null;
}

/** A code in one table. */
export interface SheetCode {
  readonly table: string;
  readonly standard: string;
  readonly source: Source;
  readonly perVolumeMl: number;
  /** Null where the counts lack sizes it needs, or were sized in a way the table does not know. */
  readonly text: string | null;
  readonly columns: readonly SheetColumn[];
  /** Null where it cannot be told. */
  readonly sure: {
    readonly mostProbable: string;
    readonly low: string;
    readonly high: string;
    readonly confidence: number;
  } | null;
}

/** The target. */
export interface SheetTarget {
  readonly standard: string;
  readonly code: string;
  /** By the counts; null where columns of `missing` or `few` leave it open. */
  readonly met: boolean | null;
  /** Columns the target asks for of which the counts do not show whether they keep it; not fibres and mass. */
  readonly missing: readonly string[];
  /** Columns of too few particles to tell whether the class asked for is kept: `uncertain` of `meets`. */
  readonly few: readonly string[];
  /**
   * That it is met in truth, if nothing is known of the oil beforehand: too high of oils mostly dirtier, of several
   * sizes too low where they go together. Null where it cannot be told.
   */
  readonly probability: number | null;
}

/** A sheet: plain data, which `sheetText` puts on a page. */
export interface SampleSheet {
  readonly title: string | null;
  readonly time: Moment | null;
  readonly zone: string;
  readonly sizing: Sizing;
  readonly volumeMl: number | null;
  readonly dilution: number | null;
  readonly counts: readonly SheetCount[];
  readonly codes: readonly SheetCode[];
  readonly target: SheetTarget | null;
  /** What was taken for each error; null where only counts per mL are given, and nothing follows from it. */
  readonly errors: TakenErrors | null;
  readonly notLookedAt: readonly NotLookedAt[];
  /** Of the library. */
  readonly version: string;
}

const members = ['title', 'time', 'utcOffsetMinutes', 'tables', 'target', 'errors'];

/**
 * Everything about one sample that belongs on its sheet, as data: counts with their limits, codes in the tables asked
 * for with the printed limits that decided them, how sure each is (`codeUncertainty`), the target with its probability
 * (`targetProbability`), what was not looked at, the standards with their editions, and the version of the library.
 *
 * It tells of the sample; whether a machine may run is decided by those who answer for it. Sources: those of the
 * tables; Garwood (1936) for the limits of counting.
 *
 * @param counts of one sample; with `volumeMl` (raw counts) the sheet says how sure it is
 * @throws `bad_code` for a target that is none of the first table, `bad_table`, `unknown_option`, `out_of_range`; what
 *   bad counts throw.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { sampleSheet, sheetText } from 'motescale/report';
 * const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
 * const sheet = sampleSheet(counts, { title: 'Lock 3, return line', target: '18/16/13' });
 * sheet.codes[0]?.text; // => '18/16/12'
 * sheet.codes[0]?.columns[0]; // => { column: '4', class: '18', count: 1890, above: 1300, upTo: 2500 }
 * sheet.target?.met; // => true
 * sheetText(sheet).split('\n')[0]; // => 'Lock 3, return line'
 * ```
 */
export function sampleSheet(counts: CumulativeCounts, options: SampleSheetOptions = {}): SampleSheet {
  checkCounts(counts);
  requireObject(options, 'options', undefined, members);
  const { title, time, target, errors = {} } = options;
  checkErrors(errors, 'options.errors');
  if (title !== undefined) requireText(title, 'options.title');
  if (time !== undefined) requireTime(time, 'options.time');
  const offset = offsetAt(options);
  const tables = tablesOf(options, counts.sizing);
  const first = tables[0] as ClassTable;
  const { counted, volumeMl, dilution } = counts;
  const taken = counted !== undefined && volumeMl !== undefined ? errors : null;
  return {
    title: title ?? null,
    time: time === undefined ? null : { time, utcOffsetMinutes: offset(time) },
    zone: zoneText(time === undefined ? 0 : offset(time)),
    sizing: counts.sizing,
    volumeMl: volumeMl ?? null,
    dilution: dilution ?? null,
    counts: counts.sizes.map((size, i) => countAtSize(counts, size, i)),
    codes: tables.map((table) => codeIn(table, headOf(table, tables), counts, taken)),
    target: target === undefined ? null : targetIn(first, headOf(first, tables), target, counts, taken),
    errors: taken && tellErrors(taken, counts) ? errorsTaken(taken, partsOf(counts)) : null,
    notLookedAt: notLookedAt(counts, taken),
    version,
  };
}

function tablesOf({ tables }: SampleSheetOptions, sizing: Sizing): readonly ClassTable[] {
  if (tables === undefined) return [tableOr(undefined, sizing)];
  requireFilledArray(tables, 'options.tables', 'an array of class tables');
  tables.forEach((table, i) => {
    requireTable(table, `options.tables[${i}]`);
  });
  return tables;
}

function countAtSize(
  { perMl, counted, volumeMl, dilution = 1 }: CumulativeCounts,
  size: number,
  i: number,
): SheetCount {
  const count = perMl[i] as number;
  if (counted === undefined || volumeMl === undefined)
    return { size, perMl: count, counted: null, low: null, high: null };
  const particles = counted[i] as number;
  const { low, high } = countInterval(particles);
  const each = dilution / volumeMl;
  return { size, perMl: count, counted: particles, low: low * each, high: high * each };
}

/** The name of a standard; of several tables of one standard with its columns, so that they can be told apart. */
function headOf(table: ClassTable, tables: readonly ClassTable[]): string {
  const name = shortTitle(table);
  const alike = tables.filter((other) => shortTitle(other) === name);
  return alike.length === 1 ? name : `${name} (${table.columns.map(({ label }) => label).join('/')})`;
}

function codeIn(
  table: ClassTable,
  standard: string,
  counts: CumulativeCounts,
  errors: MeasurementErrors | null,
): SheetCode {
  const { id, source, perVolumeMl } = table;
  const head = { table: id, standard, source, perVolumeMl };
  const code = unlessLacking(() => classify(table, counts));
  if (code === null) return { ...head, text: null, columns: [], sure: null };
  const columns = code.evidence.map(({ column, count, above, upTo }): SheetColumn => {
    const part = code.parts.filter((each) => each.column === column)[0];
    return { column, class: part?.class ?? code.text, count, above, upTo };
  });
  const sure = errors === null ? null : unlessLacking(() => codeUncertainty(table, counts, errors));
  return {
    ...head,
    text: code.text,
    columns,
    sure: sure && {
      mostProbable: sure.mostProbable.text,
      low: sure.low.text,
      high: sure.high.text,
      confidence: sure.confidence,
    },
  };
}

function targetIn(
  table: ClassTable,
  standard: string,
  target: string | Code,
  counts: CumulativeCounts,
  errors: MeasurementErrors | null,
): SheetTarget {
  const judged = unlessLacking(() => meets(table, target, counts));
  const nothing = { table: table.id, parts: nothingCounted(table), text: '' };
  const { met, missing, uncertain: few } = judged ?? meets(table, target, nothing);
  const chance =
    errors === null || judged === null ? null : unlessLacking(() => targetProbability(table, target, counts, errors));
  // fibres and mass, which no particle counter tells, decide nothing beside sizes
  const sized = table.columns.filter(hasSizes).map(({ label }) => label);
  const lacking = missing.filter((column) => sized.indexOf(column) >= 0);
  return {
    standard,
    code: codeText(target),
    met,
    missing: met === null && lacking.length + few.length === 0 ? missing : lacking,
    few,
    probability: chance === null ? null : chance.probability,
  };
}

/** The answer, or null where the counts lack what it needs. */
function unlessLacking<T>(answer: () => T): T | null {
  try {
    return answer();
  } catch (error) {
    const lacking = ['missing_size', 'missing_volume', 'sizing_not_convertible', 'no_answer'];
    if (isMotescaleError(error) && lacking.indexOf(error.code) >= 0) return null;
    throw error;
  }
}

/** What nothing given speaks of. */
function notLookedAt(counts: CumulativeCounts, errors: MeasurementErrors | null): NotLookedAt[] {
  const lacks = (part: keyof MeasurementErrors) => errors?.[part] === undefined;
  const list: NotLookedAt[] = errors === null ? ['raw_counts'] : [];
  if (lacks('sampling')) list.push('sampling');
  if (isDiluted(counts)) {
    if (lacks('dilution')) list.push('dilution');
    list.push('diluent');
  }
  if (counts.sizing === 'microscope') {
    // no sensor, and what a count on a membrane is open to instead: ISO 4407, from memory
    list.push('blank', 'fields', 'membrane', 'reader');
  } else {
    if (lacks('flow')) list.push('flow');
    if (lacks('certificate')) list.push('certificate');
    if (lacks('coincidence')) list.push('coincidence');
    list.push('water_and_air');
  }
  return [...list, 'particle_nature', 'larger_sizes'];
}

/**
 * The classes of a standard at one size, as steps of counts per mL: what the scales and spans of the charts are made
 * of.
 */
import { requireText } from '../checks.ts';
import { type ClassTable, type Code, type CodeMark, iso4406, iso4406Microscope, limitsOf } from '../codes/index.ts';
import { requireTable } from '../codes/requireTable.ts';
import { asCode } from '../codes/written/code.ts';
import { parseGiven } from '../codes/written/givenCode.ts';
import type { Sizing } from '../counts/index.ts';
import { caught } from '../errors.ts';
import { scaleDecimal } from '../numeric/decimal.ts';
import type { ReportReading } from './reportReading.ts';

/** One class at one size: more than `above`, up to and including `upTo` particles per mL. */
export interface Step {
  readonly label: string;
  readonly above: number;
  /** Infinity beyond the last class. */
  readonly upTo: number;
}

/** What a code says of one size. */
export interface CodeAtSize {
  readonly size: number;
  /** The upper end of a range; null: and larger. */
  readonly to: number | null;
  readonly label: string;
  readonly above: number;
  /** Null beyond the last class. */
  readonly upTo: number | null;
}

/** The table to write by: the one asked for, else that of ISO 4406 for counters or for the microscope. */
export function tableOr(table: ClassTable | undefined, sizing: Sizing): ClassTable {
  const chosen = table ?? (sizing === 'iso11171' || sizing === 'iso11171b' ? iso4406 : iso4406Microscope);
  requireTable(chosen, 'options.table');
  requireText(chosen.title, 'options.table.title');
  return chosen;
}

/** The name before the comma: `ISO 4406`. */
export function shortTitle({ title }: Pick<ClassTable, 'title'>): string {
  return title.split(',')[0] as string;
}

/** The place of the column that begins at a size; -1 of none. */
export function columnAt(table: ClassTable, sizing: Sizing, size: number): number {
  return table.columns.map(({ from }) => from[sizing]).indexOf(size);
}

/** The steps at a size, or of the range from there, from clean to dirty, the last without end; none if not judged. */
export function stepsAt(table: ClassTable, sizing: Sizing, size: number): Step[] {
  const column = columnAt(table, sizing, size);
  const steps: Step[] = [];
  let above = 0;
  if (column < 0) return steps;
  table.classes.forEach((label, i) => {
    const limit = table.limits[i]?.[column];
    if (limit === null || limit === undefined) return;
    const upTo = scaleDecimal(limit, 1, table.perVolumeMl);
    if (upTo > above) steps.push({ label, above, upTo });
    above = upTo;
  });
  const last = table.classes[table.classes.length - 1] as string;
  if (steps[steps.length - 1]?.label === last) steps.push({ label: `>${last}`, above, upTo: Infinity });
  return steps;
}

/** A code size by size; sizes it says nothing of are left out. `parameter` is what errors call it. */
export function codeAtSizes(
  table: ClassTable,
  code: string | Code,
  sizing: Sizing,
  parameter: string = 'code',
): CodeAtSize[] {
  const read = asCode(table, code, parameter);
  const { bands } = limitsOf(table, read, sizing);
  return bands.map(({ from, to, above, upTo }) => {
    const part = read.parts[columnAt(table, sizing, from)];
    return { size: from, to, label: `${part?.mark === 'few_counted' ? '>=' : ''}${part?.class}`, above, upTo };
  });
}

/** The counts that a code allows at a size; null: without end. Of `*` (too many to count) `low` is Infinity. */
export interface Allowed {
  readonly low: number;
  readonly high: number | null;
}

/** Tells what a code as text allows at a size; null where it says nothing of it. Each text is read once. */
export function allowanceAt(table: ClassTable, sizing: Sizing, size: number): (text: string) => Allowed | null {
  const known: { [text: string]: Allowed | null } = {};
  return (text) => {
    if (text in known) return known[text] as Allowed | null;
    const code = parseGiven(table, text);
    const at = atSize(codeAtSizes(table, code, sizing), size);
    const mark = code.parts[columnAt(table, sizing, size)]?.mark;
    const told = at === null ? untold(mark) : { low: at.above, high: /^>=/.test(at.label) ? null : at.upTo };
    known[text] = told;
    return told;
  };
}

/**
 * What a part allows that sets no limits. Of `*` no count is known. One of several sizes is beyond the last class
 * (`>12`), or one that was not counted may be (`8 or dirtier`): at each there may be none, or any number.
 */
function untold(mark: CodeMark | undefined): Allowed | null {
  if (mark === 'too_many') return { low: Infinity, high: null };
  return mark === 'at_most' || mark === 'or_dirtier' ? { low: 0, high: null } : null;
}

/** Whether it is `*`: more than could be counted, and nobody knows how many. */
export function isTooMany({ low }: { readonly low: number }): boolean {
  return low === Infinity;
}

export function atSize(codes: readonly CodeAtSize[], size: number): CodeAtSize | null {
  for (const code of codes) if (code.size === size) return code;
  return null;
}

export function codeText(code: string | Code): string {
  return typeof code === 'string' ? code : code.text;
}

/** Those without counts whose code the table cannot read are bad, and lose that code; the others stay as they are. */
export function withReadableCodes(readings: readonly ReportReading[], table: ClassTable): readonly ReportReading[] {
  const known: { [text: string]: boolean } = {};
  return readings.map((reading) => {
    const name = reading.counts === undefined ? codeName(reading, table) : null;
    if (name === null) return reading;
    const { [name]: text, ...codes } = reading.codes as Readonly<Record<string, string>>;
    // what every object inherits, such as `constructor`, has no colon
    const key = `:${text}`;
    if (!(key in known)) known[key] = isCode(table, text as string);
    if (known[key]) return reading;
    return { ...reading, codes, quality: 'bad', figureQualities: { ...reading.figureQualities, counts: 'bad' } };
  });
}

function isCode(table: ClassTable, text: string): boolean {
  try {
    parseGiven(table, text);
    return true;
  } catch (error) {
    caught(error);
    return false;
  }
}

/**
 * The code that a reading gives for a table, by the name of its standard, with or without one of the editions it was
 * taken from (`ISO 4406:2021`), or by its id; null where it gives none.
 */
export function tableCode(reading: Pick<ReportReading, 'codes'>, table: ClassTable): string | null {
  const name = codeName(reading, table);
  return name === null ? null : ((reading.codes as Readonly<Record<string, string>>)[name] as string);
}

/** Under which name the code stands. */
function codeName({ codes }: Pick<ReportReading, 'codes'>, table: ClassTable): string | null {
  if (codes === undefined) return null;
  const names = Object.keys(codes);
  for (const name of [table.standard, table.id, shortTitle(table)]) {
    if (name !== undefined && names.indexOf(name) >= 0) return name;
  }
  const { standard, source } = table;
  for (const name of names) {
    const [before, edition = ''] = name.split(':');
    const editions = source.edition?.split(', ') ?? [];
    if (before === standard && editions.indexOf(edition) >= 0) return name;
  }
  return null;
}

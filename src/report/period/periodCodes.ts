/** The codes of a period's readings without counts: cleanest, in the middle, dirtiest and last class, size by size. */
import { className, placeOf } from '../../codes/classIndex.ts';
import type { ClassTable, CodePart } from '../../codes/index.ts';
import { notationOf } from '../../codes/written/formatParts.ts';
import { parseGiven } from '../../codes/written/givenCode.ts';
import type { Sizing } from '../../counts/index.ts';
import { tableCode } from '../classSteps.ts';
import type { ReportReading } from '../reportReading.ts';
import type { FourOf, Judging } from './periodCounts.ts';

/**
 * The classes between which one lies: alike where it is known. `low` is null where a code says no more than `6 or
 * cleaner`, `high` where it is open (`>=7`). `*`, too many to count, is dirtier than all.
 */
export interface ClassEnds {
  readonly low: string | null;
  readonly high: string | null;
}

/** The classes at one size, of the codes that tell of it; of the two in the middle the dirtier. */
export interface ClassFigures extends Omit<FourOf<ClassEnds>, 'last'> {
  /** The column of the table; null where a code is one class for all. */
  readonly column: string | null;
  /** Its size in µm; null where it has none. */
  readonly size: number | null;
  /** How many codes tell of it. */
  readonly readings: number;
  /** Null where the last code does not. */
  readonly last: ClassEnds | null;
}

/** The codes of a period. */
export interface CodeFigures {
  /** How many readings have a code of the standard and no counts. */
  readonly readings: number;
  readonly classes: readonly ClassFigures[];
}

/** Places of classes, from clean to dirty; -1 and `dirtiest` are open ends. */
type Span = readonly [low: number, high: number];

/** Null where no reading has only a code. */
export function codeFigures(
  usable: readonly ReportReading[],
  { table, options }: Judging,
  sizing: Sizing,
): CodeFigures | null {
  const known: { [text: string]: readonly CodePart[] } = {};
  const codes: (readonly CodePart[])[] = [];
  for (const reading of usable) {
    const text = reading.counts === undefined ? tableCode(reading, table) : null;
    if (text === null) continue;
    const key = `:${text}`;
    known[key] = known[key] ?? parseGiven(table, text).parts;
    codes.push(known[key] as readonly CodePart[]);
  }
  const isOne = notationOf(table) === 'single';
  const classes: ClassFigures[] = [];
  table.columns.forEach(({ label, from }, i) => {
    if (isOne ? i > 0 : options.columns !== undefined && options.columns.indexOf(label) < 0) return;
    const all = codes.map((parts) => spanOf(table, parts[i], isOne));
    const spans = all.filter((span): span is Span => span !== null);
    if (spans.length === 0) return;
    const size = isOne ? null : (from[sizing] ?? null);
    classes.push({
      column: isOne ? null : label,
      size,
      ...fourOf(table, spans),
      last: told(table, all[all.length - 1]),
    });
  });
  return codes.length === 0 ? null : { readings: codes.length, classes };
}

/** What a part says; null where it says nothing. One class for all is the worst of them, and no more than that. */
function spanOf(table: ClassTable, part: CodePart | undefined, isOne: boolean): Span | null {
  if (part === undefined) return null;
  const { class: name, mark } = part;
  const most = dirtiest(table);
  if (mark === 'too_many') return [most, most];
  if (name === null) return null;
  const place = placeOf(table, name);
  if (mark === 'few_counted' || mark === 'or_dirtier') return [place, most];
  return mark === 'at_most' && !isOne && place > 0 ? [-1, place] : [place, place];
}

/** The place of `*`; where the table has none, of what is beyond the last class. */
function dirtiest(table: ClassTable): number {
  return table.classes.length + (notationOf(table) === 'single' ? 0 : 1);
}

/** Each lies between that of the lower ends and that of the upper ones. */
function fourOf(table: ClassTable, spans: readonly Span[]): Omit<ClassFigures, 'column' | 'size' | 'last'> {
  const [lows, highs] = [0, 1].map((end) => spans.map((span) => span[end] as number).sort((a, b) => a - b));
  const at = (place: number) => told(table, [lows?.[place] as number, highs?.[place] as number]) as ClassEnds;
  const { length } = spans;
  return { readings: length, lowest: at(0), median: at(Math.floor(length / 2)), highest: at(length - 1) };
}

function told(table: ClassTable, span: Span | null | undefined): ClassEnds | null {
  if (!span) return null;
  const name = (place: number) => (place > table.classes.length ? '*' : className(table, place));
  const [low, high] = span;
  const isOpen = low < high && high === dirtiest(table);
  return { low: low < 0 ? null : name(low), high: isOpen ? null : name(high) };
}

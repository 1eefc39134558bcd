/** The counts of a period in columns: lowest, median, highest and last, size by size, and the codes they make. */
import { placeOf } from '../../codes/classIndex.ts';
import { type Classification, type ClassTable, classify, formatCode } from '../../codes/index.ts';
import type { CumulativeCounts, Sizing } from '../../counts/index.ts';
import { isMotescaleError } from '../../errors.ts';
import { columnAt } from '../classSteps.ts';
import { countOf, type ReportReading, sizesOf } from '../reportReading.ts';

/** A count, and how many particles it rests on: null where that is not known. */
export interface CountFigure {
  readonly perMl: number;
  readonly counted: number | null;
}

/** The table to judge by, and the columns of it as `classify` and `meets` take them. */
export interface Judging {
  readonly table: ClassTable;
  readonly options: { readonly columns?: readonly string[] | undefined };
}

/** Lowest, median (the mean of the two in the middle), highest and last. */
export interface FourOf<T> {
  readonly lowest: T;
  readonly median: T;
  readonly highest: T;
  readonly last: T;
}

/** The counts at one size, of the readings that have it. */
export interface SizeFigures extends Omit<FourOf<CountFigure>, 'last'> {
  readonly size: number;
  /** How many have it. */
  readonly readings: number;
  /** Null where the last reading lacks it. */
  readonly last: CountFigure | null;
}

/** The counts of a period. */
export interface CountFigures {
  /** How many readings have counts. */
  readonly readings: number;
  /** Each size that one of them has. */
  readonly sizes: readonly SizeFigures[];
  /**
   * The codes they make; of a table of ranges, those of single readings, the cleanest, the one in the middle, the
   * dirtiest and the last. Null where sizes of a code are missing, and where counts of different readings rise with
   * size; all null where the table judges none of the sizes.
   */
  readonly codes: FourOf<string | null> | null;
}

/** The columns of the four. */
export const fourNames = ['lowest', 'median', 'highest', 'last'] as const;
export type FourName = (typeof fourNames)[number];

/** Lowest, median, highest and last, size by size, and the codes they make. */
export function countFigures(usable: readonly ReportReading[], sizing: Sizing, judging: Judging): CountFigures {
  const sizes = sizesOf(usable).map((size) => figuresAt(size, usable));
  const code = (name: FourName) => codeTextOf(judging, sizing, sizes, name);
  let codes: CountFigures['codes'] = null;
  if (sizes.some(({ size }) => columnAt(judging.table, sizing, size) >= 0)) {
    // in ranges the highest counts of all sizes need not make the highest class
    if (judging.table.counting === 'differential') codes = codesOfReadings(judging, usable);
    else codes = { lowest: code('lowest'), median: code('median'), highest: code('highest'), last: code('last') };
  }
  return { readings: usable.length, sizes, codes };
}

/**
 * Of a table of ranges the codes of single readings: the cleanest, the one in the middle (the dirtier of two), the
 * dirtiest and the last. Those that lack a size of the code are left out.
 */
function codesOfReadings(judging: Judging, usable: readonly ReportReading[]): FourOf<string | null> {
  const all = usable.map(({ counts }) => codeOf(judging, counts as CumulativeCounts));
  const ascending = all
    .filter((code): code is Classification => code !== null)
    .sort((a, b) => placeOf(judging.table, a.worst) - placeOf(judging.table, b.worst));
  const at = (place: number) => ascending[place]?.text ?? null;
  const { length } = ascending;
  return {
    lowest: at(0),
    median: at(Math.floor(length / 2)),
    highest: at(length - 1),
    last: all[all.length - 1]?.text ?? null,
  };
}

/** The code of counts; null where they lack the sizes of every column, or of one that is to be judged. */
export function codeOf({ table, options }: Judging, counts: CumulativeCounts): Classification | null {
  try {
    return classify(table, counts, options);
  } catch (error) {
    if (isMotescaleError(error) && error.code === 'missing_size') return null;
    throw error;
  }
}

function figureAt(counts: CumulativeCounts, size: number): CountFigure | null {
  const perMl = countOf(counts, size);
  if (perMl === null) return null;
  const counted = counts.volumeMl === undefined ? undefined : counts.counted?.[counts.sizes.indexOf(size)];
  return { perMl, counted: counted ?? null };
}

function figuresAt(size: number, usable: readonly ReportReading[]): SizeFigures {
  const all = usable.map(({ counts }) => figureAt(counts as CumulativeCounts, size));
  const ascending = all
    .filter((figure): figure is CountFigure => figure !== null)
    .sort((a, b) => a.perMl - b.perMl || (restsOn(a) < restsOn(b) ? -1 : 1));
  const { length } = ascending;
  const lower = ascending[Math.floor((length - 1) / 2)] as CountFigure;
  const upper = ascending[Math.floor(length / 2)] as CountFigure;
  const perMl = length % 2 === 1 ? lower.perMl : (lower.perMl + upper.perMl) / 2;
  const least = Math.min(restsOn(lower), restsOn(upper));
  return {
    size,
    readings: length,
    lowest: ascending[0] as CountFigure,
    median: { perMl, counted: least === Infinity ? null : least },
    highest: ascending[length - 1] as CountFigure,
    last: all[all.length - 1] ?? null,
  };
}

/** What is not known is never few. */
function restsOn({ counted }: CountFigure): number {
  return counted ?? Infinity;
}

/** The code of figures that may be of different readings, `>=` where one rests on few particles; null if not known. */
function codeTextOf(judging: Judging, sizing: Sizing, sizes: readonly SizeFigures[], name: FourName): string | null {
  const { table } = judging;
  const known = sizes.filter((each) => each[name] !== null);
  const figures = known.map((each) => each[name] as CountFigure);
  const perMl = figures.map((figure) => figure.perMl);
  if (perMl.some((count, i) => count > (perMl[i - 1] ?? Infinity))) return null;
  const at = known.map(({ size }) => size);
  const code = codeOf(judging, { sizing, sizes: at, perMl });
  if (code === null) return null;
  const { fewCounted } = table;
  if (fewCounted === undefined) return code.text;
  const parts = code.parts.map((part, i) => {
    const figure = figures[at.indexOf(table.columns[i]?.from[sizing] as number)];
    const few = part.mark === undefined && figure !== undefined && restsOn(figure) < fewCounted;
    return few ? { ...part, mark: 'few_counted' as const } : part;
  });
  return formatCode(table, { ...code, parts });
}

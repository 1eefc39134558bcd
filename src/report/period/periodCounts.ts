/**
 * The counts of a period in columns: lowest, median, highest and last, size by size, and the codes they make.
 */
import { type Classification, type ClassTable, classify, formatCode } from '../../codes/index.ts';
import type { CumulativeCounts, Sizing } from '../../counts/index.ts';
import { isMotescaleError, motescaleError } from '../../errors.ts';
import { tableSizes } from '../classSteps.ts';
import { countOf, type ReportReading, sizesOf } from '../reportReading.ts';

/** A count, and how many particles it rests on: null where that is not known. */
export interface CountFigure {
  readonly perMl: number;
  readonly counted: number | null;
}

/** The table to judge by, and the columns of it as `classify` and `meets` take them. */
export interface Judging {
  readonly table: ClassTable;
  readonly options: { readonly columns?: readonly string[] };
}

/** Lowest, median (the mean of the two in the middle), highest and last. */
export interface FourOf<T> {
  readonly lowest: T;
  readonly median: T;
  readonly highest: T;
  readonly last: T;
}

/** The counts of a period. */
export interface CountFigures {
  /** Each size that all readings have. */
  readonly sizes: readonly ({ readonly size: number } & FourOf<CountFigure>)[];
  /** The codes they make, null where sizes of a code are missing; null where the table judges none of the sizes. */
  readonly codes: FourOf<string | null> | null;
}

/** The columns of the four. */
export const fourNames = ['lowest', 'median', 'highest', 'last'] as const;

/** Lowest, median, highest and last, size by size, and the codes they make. */
export function countFigures(usable: readonly ReportReading[], sizing: Sizing, judging: Judging): CountFigures {
  const { table } = judging;
  const common = sizesOf(usable).filter((size) =>
    usable.every(({ counts }) => countOf(counts as CumulativeCounts, size) !== null),
  );
  if (common.length === 0) {
    throw motescaleError('missing_size', 'readings', usable, 'a size that every good and uncertain reading has');
  }
  const bySize = common.map((size) =>
    figuresOf(usable.map(({ counts }) => figureAt(counts as CumulativeCounts, size))),
  );
  const sizes = common.map((size, i) => ({ size, ...(bySize[i] as FourOf<CountFigure>) }));
  if (!tableSizes(table, sizing).some((size) => common.indexOf(size) >= 0)) return { sizes, codes: null };
  const code = (name: (typeof fourNames)[number]) =>
    codeTextOf(
      judging,
      sizing,
      common,
      bySize.map((figures) => figures[name]),
    );
  return {
    sizes,
    codes: { lowest: code('lowest'), median: code('median'), highest: code('highest'), last: code('last') },
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

function figureAt(counts: CumulativeCounts, size: number): CountFigure {
  const counted = counts.volumeMl === undefined ? undefined : counts.counted?.[counts.sizes.indexOf(size)];
  return { perMl: countOf(counts, size) as number, counted: counted ?? null };
}

function figuresOf(figures: readonly CountFigure[]): FourOf<CountFigure> {
  const ascending = figures.slice().sort((a, b) => a.perMl - b.perMl || (restsOn(a) < restsOn(b) ? -1 : 1));
  const { length } = figures;
  const lower = ascending[Math.floor((length - 1) / 2)] as CountFigure;
  const upper = ascending[Math.floor(length / 2)] as CountFigure;
  const perMl = length % 2 === 1 ? lower.perMl : (lower.perMl + upper.perMl) / 2;
  const least = Math.min(restsOn(lower), restsOn(upper));
  return {
    lowest: ascending[0] as CountFigure,
    median: { perMl, counted: least === Infinity ? null : least },
    highest: ascending[length - 1] as CountFigure,
    last: figures[length - 1] as CountFigure,
  };
}

/** What is not known is never few. */
function restsOn({ counted }: CountFigure): number {
  return counted ?? Infinity;
}

/**
 * The code of figures that may come from different readings, with its `>=` where one rests on few particles; null where
 * it is not known.
 */
function codeTextOf(
  judging: Judging,
  sizing: Sizing,
  sizes: readonly number[],
  figures: readonly CountFigure[],
): string | null {
  const { table } = judging;
  const code = codeOf(judging, { sizing, sizes, perMl: figures.map(({ perMl }) => perMl) });
  if (code === null) return null;
  const { fewCounted } = table;
  if (fewCounted === undefined) return code.text;
  const parts = code.parts.map((part, i) => {
    const figure = figures[sizes.indexOf(table.columns[i]?.from[sizing] as number)];
    const few = part.mark === undefined && figure !== undefined && restsOn(figure) < fewCounted;
    return few ? { ...part, mark: 'few_counted' as const } : part;
  });
  return formatCode(table, { ...code, parts });
}

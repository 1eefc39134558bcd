/**
 * The counts of a period in columns: lowest, median, highest and last, size by size, and the codes they make.
 */
import { type Classification, type ClassTable, classify, formatCode } from '../codes/index.ts';
import type { CumulativeCounts, Sizing } from '../counts/index.ts';
import { isMotescaleError, motescaleError } from '../errors.ts';
import { shortTitle, tableSizes } from './classSteps.ts';
import { figureText } from './figures.ts';
import { countOf, type ReportReading, sizesOf, sizeText } from './reportReading.ts';
import { paragraph, toLeft, toRight } from './textLayout.ts';

/** A count, and how many particles it rests on: Infinity where that is not known. */
interface Figure {
  readonly perMl: number;
  readonly counted: number;
}

/** The table to judge by, and the columns of it as `classify` and `meets` take them. */
export interface Judging {
  readonly table: ClassTable;
  readonly options: { readonly columns?: readonly string[] };
}

const names = ['lowest', 'median', 'highest', 'last'];

/** Lowest, median, highest and last, size by size, and the codes they make. */
export function countLines(usable: readonly ReportReading[], sizing: Sizing, judging: Judging): string[] {
  const { table } = judging;
  const common = sizesOf(usable).filter((size) => usable.every(({ counts }) => countOf(counts, size) !== null));
  if (common.length === 0) {
    throw motescaleError('missing_size', 'readings', usable, 'a size that every good and uncertain reading has');
  }
  const bySize = common.map((size) => figuresOf(usable.map(({ counts }) => figureAt(counts, size))));
  const lines = row('Particles per mL', names);
  common.forEach((size, i) => {
    const cells = (bySize[i] as readonly Figure[]).map(({ perMl }) => figureText(perMl));
    lines.push(...row(`  ${sizeText(size, sizing)}`, cells));
  });
  if (!tableSizes(table, sizing).some((size) => common.indexOf(size) >= 0)) return lines;
  const codes = names.map((_name, column) =>
    codeText(
      judging,
      sizing,
      common,
      bySize.map((figures) => figures[column] as Figure),
    ),
  );
  return [...lines, ...row(`  ${shortTitle(table)}`, codes)];
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

function figureAt(counts: CumulativeCounts, size: number): Figure {
  const counted = counts.volumeMl === undefined ? undefined : counts.counted?.[counts.sizes.indexOf(size)];
  return { perMl: countOf(counts, size) as number, counted: counted ?? Infinity };
}

/** Lowest, median (the mean of the two in the middle), highest and last. */
function figuresOf(figures: readonly Figure[]): Figure[] {
  const ascending = figures.slice().sort((a, b) => a.perMl - b.perMl || (a.counted < b.counted ? -1 : 1));
  const { length } = figures;
  const lower = ascending[Math.floor((length - 1) / 2)] as Figure;
  const upper = ascending[Math.floor(length / 2)] as Figure;
  const perMl = length % 2 === 1 ? lower.perMl : (lower.perMl + upper.perMl) / 2;
  const median = { perMl, counted: Math.min(lower.counted, upper.counted) };
  return [ascending[0] as Figure, median, ascending[length - 1] as Figure, figures[length - 1] as Figure];
}

/** The code of figures that may come from different readings, with its `>=` where one rests on few particles. */
function codeText(judging: Judging, sizing: Sizing, sizes: readonly number[], figures: readonly Figure[]): string {
  const { table } = judging;
  const code = codeOf(judging, { sizing, sizes, perMl: figures.map(({ perMl }) => perMl) });
  if (code === null) return 'not known';
  const { fewCounted } = table;
  if (fewCounted === undefined) return code.text;
  const parts = code.parts.map((part, i) => {
    const figure = figures[sizes.indexOf(table.columns[i]?.from[sizing] as number)];
    const few = part.mark === undefined && figure !== undefined && figure.counted < fewCounted;
    return few ? { ...part, mark: 'few_counted' as const } : part;
  });
  return formatCode(table, { ...code, parts });
}

/** One line where all of it fits in, else a line for each cell. */
function row(name: string, cells: readonly string[]): string[] {
  if (name.length < 20 && cells.every(({ length }) => length < 12)) {
    return [toLeft(name, 20) + cells.map((cell) => toRight(cell, 12)).join('')];
  }
  const lines = [name];
  cells.forEach((cell, i) => {
    lines.push(...paragraph(toLeft(`    ${names[i]}`, 20), cell));
  });
  return lines;
}

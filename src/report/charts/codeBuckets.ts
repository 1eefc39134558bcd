/** What the codes of readings without counts allow, in buckets of time: the bars of a trend over a year. */
import type { ClassTable } from '../../codes/index.ts';
import type { Sizing } from '../../counts/index.ts';
import type { RollUpBucket, RollUpReading } from '../../history/index.ts';
import { largestFigure } from '../../rules/bounds.ts';
import { type Allowed, allowanceAt, isTooMany, tableCode } from '../classSteps.ts';
import { type ReportReading, sizesOf } from '../reportReading.ts';
import { countIn, type SizeRange } from '../sizeRange.ts';

/** The counts that the codes which stood in a bucket allow: from the least of any to the most of any. */
export interface CodeBucket {
  readonly start: number;
  readonly widthMs: number;
  /** Per mL; no end (`>=18`) is null. */
  readonly low: number;
  readonly high: number | null;
}

/** A bucket in which a code stood that said `*`, too many to count. */
export type TooManyBucket = Pick<CodeBucket, 'start' | 'widthMs'>;

/** Whether a reading has a code and no counts. */
export function isCoded({ counts, codes }: ReportReading): boolean {
  return counts === undefined && Object.keys(codes ?? {}).length > 0;
}

/** Whether a reading is told by its code alone. */
export function isByCode(reading: ReportReading): boolean {
  return isCoded(reading) && reading.quality !== 'bad';
}

/** How many readings have a code only, and none of the table. */
export function otherCodesIn(readings: readonly ReportReading[], table: ClassTable): number {
  return readings.filter((reading) => isByCode(reading) && tableCode(reading, table) === null).length;
}

/** Of what a table counts, that which any reading has; and each size counted, with all that is larger. */
export function countedRanges(
  readings: readonly ReportReading[],
  ranges: readonly SizeRange[],
): { judged: SizeRange[]; counted: SizeRange[] } {
  const judged = ranges.filter((range) => readings.some((reading) => isCountedIn(reading, range)));
  return { judged, counted: sizesOf(readings).map((from) => ({ from, to: null })) };
}

function isCountedIn({ counts }: ReportReading, range: SizeRange): boolean {
  return counts !== undefined && countIn(counts, range) !== null;
}

/** How many readings have counts, and none of what is drawn. */
export function otherCountsIn(readings: readonly ReportReading[], drawn: readonly SizeRange[]): number {
  const isDrawn = (reading: ReportReading) => drawn.some((range) => isCountedIn(reading, range));
  return readings.filter((reading) => reading.counts !== undefined && !isDrawn(reading)).length;
}

/** What the code of each reading that is told by it alone allows at a size; null where it says nothing of it. */
export function allowedAt(
  readings: readonly ReportReading[],
  size: number,
  table: ClassTable,
  sizing: Sizing,
): (Allowed | null)[] {
  const allowedBy = allowanceAt(table, sizing, size);
  return readings.map((reading) => {
    const text = isByCode(reading) ? tableCode(reading, table) : null;
    return text === null ? null : allowedBy(text);
  });
}

/**
 * Of one size; empty where no code tells of it. Each code stands as counts do: `rolled` is their roll-up. Of `*` no
 * count is known: the buckets in which it stood are a list of their own. `allowed` is that of `allowedAt`.
 */
export function codeBuckets(
  inOrder: readonly ReportReading[],
  allowed: readonly (Allowed | null)[],
  rolled: (values: readonly RollUpReading[]) => RollUpBucket[],
): { codes: CodeBucket[]; tooMany: TooManyBucket[] } {
  const has = (many: boolean) => allowed.some((at) => at !== null && isTooMany(at) === many);
  const rolledBy = (of: (at: Allowed) => number | null) =>
    rolled(inOrder.map(({ time }, i) => ({ time, value: allowed[i] === null ? null : of(allowed[i] as Allowed) })));
  const known = (of: (at: Allowed) => number) => rolledBy((at) => (isTooMany(at) ? null : of(at)));
  const stood = has(true) ? rolledBy((at) => (isTooMany(at) ? 1 : null)).filter(({ max }) => max !== null) : [];
  const tooMany = stood.map(({ start, widthMs }) => ({ start, widthMs }));
  if (!has(false)) return { codes: [], tooMany };
  const highest = known(({ high }) => high ?? largestFigure);
  const codes: CodeBucket[] = [];
  known(({ low }) => low).forEach(({ start, widthMs, min }, i) => {
    const { max } = highest[i] as RollUpBucket;
    if (min !== null) codes.push({ start, widthMs, low: min, high: max === largestFigure ? null : max });
  });
  return { codes, tooMany };
}

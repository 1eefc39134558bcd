/** What the codes of readings without counts allow, in buckets of time: the bars of a trend over a year. */
import type { ClassTable } from '../../codes/index.ts';
import type { Sizing } from '../../counts/index.ts';
import type { RollUpBucket, RollUpReading } from '../../history/index.ts';
import { largestFigure } from '../../rules/bounds.ts';
import { type Allowed, allowanceAt, tableCode } from '../classSteps.ts';
import type { ReportReading } from '../reportReading.ts';

/** The counts that the codes which stood in a bucket allow: from the least of any to the most of any. */
export interface CodeBucket {
  readonly start: number;
  readonly widthMs: number;
  /** Per mL; no end (`>=18`) is null. */
  readonly low: number;
  readonly high: number | null;
}

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

/** Of one size; empty where no code tells of it. Each code stands as counts do: `rolled` is their roll-up. */
export function codeBuckets(
  inOrder: readonly ReportReading[],
  size: number,
  { table, sizing }: { readonly table: ClassTable; readonly sizing: Sizing },
  rolled: (values: readonly RollUpReading[]) => RollUpBucket[],
): CodeBucket[] {
  const allowedBy = allowanceAt(table, sizing, size);
  const allowed = inOrder.map((reading) => {
    const text = isByCode(reading) ? tableCode(reading, table) : null;
    return text === null ? null : allowedBy(text);
  });
  if (allowed.every((at) => at === null)) return [];
  const rolledBy = (of: (at: Allowed) => number) =>
    rolled(inOrder.map(({ time }, i) => ({ time, value: allowed[i] === null ? null : of(allowed[i] as Allowed) })));
  const highest = rolledBy(({ high }) => high ?? largestFigure);
  const buckets: CodeBucket[] = [];
  rolledBy(({ low }) => low).forEach(({ start, widthMs, min }, i) => {
    const { max } = highest[i] as RollUpBucket;
    if (min !== null) buckets.push({ start, widthMs, low: min, high: max === largestFigure ? null : max });
  });
  return buckets;
}

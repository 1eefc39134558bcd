/** What a column of a table counts: particles of a size and larger, or those between two sizes. */
import { columnSizes } from '../codes/columnSizes.ts';
import type { ClassTable } from '../codes/index.ts';
import { perMlBetween } from '../counts/differential.ts';
import type { CumulativeCounts, Sizing } from '../counts/index.ts';
import { countOf, sizeNumber, sizeText } from './reportReading.ts';
import { fill } from './texts/fill.ts';
import type { Texts } from './texts/types.ts';

/** From a size up to another. */
export interface SizeRange {
  readonly from: number;
  /** Null: and larger. */
  readonly to: number | null;
}

/** What the columns of the table count, in this sizing; those that have no sizes in it are left out. */
export function tableRanges(table: ClassTable, sizing: Sizing): SizeRange[] {
  const ranges = table.columns.map((column) => columnSizes(column, sizing));
  return ranges.filter((range): range is SizeRange => range !== null);
}

/** What buckets, forecasts and limits of a size or a range are of. */
export function rangeOf({ size, to }: { readonly size: number; readonly to?: number | null }): SizeRange {
  return { from: size, to: to ?? null };
}

/** Whether just this is among them, and not only what begins at the same size. */
export function isAmong(ranges: readonly SizeRange[], { from, to }: SizeRange): boolean {
  return ranges.some((range) => range.from === from && range.to === to);
}

/**
 * The count of a reading of a size and larger, or between two sizes; null where it lacks one. Counts of a bad reading
 * may rise with size: then there are none between.
 */
export function countIn(counts: CumulativeCounts, { from, to }: SizeRange): number | null {
  if (to === null) return countOf(counts, from);
  const [place, end] = [counts.sizes.indexOf(from), counts.sizes.indexOf(to)];
  return place < 0 || end < 0 ? null : Math.max(0, perMlBetween(counts, place, end));
}

/** What is counted, with its unit: `4 µm(c)`, `6 to 14 µm(c)`. */
export function rangeText(
  { from, to }: SizeRange,
  sizing: Sizing,
  texts: Pick<Texts, 'decimalSign' | 'period'>,
): string {
  if (to === null) return sizeText(from, sizing, texts);
  return fill(texts.period.fromTo, { from: sizeNumber(from, texts), to: sizeText(to, sizing, texts) });
}

/** What the counts of a chart are. */
export function particlesText(ranges: readonly SizeRange[], { charts }: Pick<Texts, 'charts'>): string {
  return ranges.some(({ to }) => to !== null) ? charts.rangeParticles : charts.particles;
}

/**
 * What the report asks of a reading: its time, its counts, and what has been made of it. Codes and verdict come as text, ready to print.
 */
import { requireFilledArray, requireObject, requireOneOf, requireText } from '../checks.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { CumulativeCounts, Sizing } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import { requireTime } from './timeText.ts';

/** One reading, for a row of a table or a point of a chart. */
export interface ReportReading {
  /** When, in ms since 1970-01-01T00:00:00Z. */
  readonly time: number;
  readonly counts: CumulativeCounts;
  /** Codes and classes by the name of their standard: `{ 'ISO 4406': '18/16/13' }`. */
  readonly codes?: Readonly<Record<string, string>>;
  /** How far the reading can be relied on; `good` where left out. */
  readonly quality?: 'good' | 'uncertain' | 'bad';
  /** What was concluded: `in target`, `above target at 6 µm(c)`. */
  readonly verdict?: string;
}

const readingMembers: readonly string[] = ['time', 'counts', 'codes', 'quality', 'verdict'];

/** Checks readings: at least one, all of one sizing. */
export function checkReadings(readings: readonly ReportReading[], parameter: string): Sizing {
  requireFilledArray(readings, parameter, 'an array of readings { time, counts }');
  const first = readings[0] as ReportReading;
  requireObject(first, `${parameter}[0]`, 'a reading { time, counts }');
  readings.forEach((reading, i) => {
    const path = `${parameter}[${i}]`;
    requireObject(reading, path, 'a reading { time, counts }', readingMembers);
    requireTime(reading.time, `${path}.time`);
    // counts that rise with size are why a reading is bad, and are shown with it
    checkCounts(reading.counts, `${path}.counts`, { mayRise: reading.quality === 'bad' });
    requireOneOf(reading.quality ?? 'good', `${path}.quality`, ['good', 'uncertain', 'bad']);
    const codes = requireObject(reading.codes ?? {}, `${path}.codes`, "codes such as { 'ISO 4406': '18/16/13' }");
    for (const standard of Object.keys(codes)) {
      requireText((codes as ReportReading['codes'])?.[standard], `${path}.codes.${standard}`, 'a code as text');
    }
    if (reading.verdict !== undefined) requireText(reading.verdict, `${path}.verdict`);
    if (reading.counts.sizing !== first.counts.sizing) {
      const expected = `'${first.counts.sizing}', as in the first reading`;
      throw motescaleError('sizing_not_convertible', `${path}.counts.sizing`, reading.counts.sizing, expected);
    }
  });
  return first.counts.sizing;
}

/** In order of time; of one time, in the order given (not every engine's sort keeps that by itself). */
export function inTimeOrder<T extends { readonly time: number }>(list: readonly T[]): T[] {
  return list
    .map((item, place) => ({ item, place }))
    .sort((a, b) => a.item.time - b.item.time || a.place - b.place)
    .map(({ item }) => item);
}

/** All sizes that occur, ascending. */
export function sizesOf(readings: readonly ReportReading[]): number[] {
  const sizes: number[] = [];
  for (const { counts } of readings) {
    for (const size of counts.sizes) if (sizes.indexOf(size) < 0) sizes.push(size);
  }
  return sizes.sort((a, b) => a - b);
}

/** The count of a reading at a size; null where it has none. */
export function countOf(counts: CumulativeCounts, size: number): number | null {
  const place = counts.sizes.indexOf(size);
  return place < 0 ? null : (counts.perMl[place] as number);
}

/** A size with its unit, as the trade prints it: `4 µm(c)`. */
export function sizeText(size: number, sizing: Sizing): string {
  return `${size} ${unitOf(sizing)}`;
}

/** The unit of a sizing. */
export function unitOf(sizing: Sizing): string {
  if (sizing === 'iso11171') return 'µm(c)';
  if (sizing === 'iso11171b') return 'µm(b)';
  return sizing === 'iso4402' ? 'µm (ISO 4402)' : 'µm';
}

/** What chance leaves open where few particles were counted. */
import type { CumulativeCounts } from '../counts/types.ts';
import { classOfPerMl } from './classIndex.ts';
import { countedIn, type Ends, placeAround } from './columnCount.ts';
import type { ClassColumn, ClassTable, CodeMark } from './types.ts';

/**
 * Of 0 to 19 particles counted the upper limit of their expectation with 95 % confidence, rounded up. Source: Garwood,
 * Biometrika 28 (1936) 437; the same figures as `countInterval`, which a test compares.
 */
const upperLimits = [
  3.689, 5.572, 7.225, 8.768, 10.242, 11.669, 13.06, 14.423, 15.764, 17.085, 18.391, 19.683, 20.962, 22.231, 23.49,
  24.741, 25.983, 27.219, 28.448, 29.671,
];

/** The lower limits likewise, rounded down. */
const lowerLimits = [
  0, 0.025, 0.242, 0.618, 1.089, 1.623, 2.201, 2.814, 3.453, 4.115, 4.795, 5.491, 6.2, 6.921, 7.653, 8.395, 9.145,
  9.903, 10.667, 11.439,
];

/** Per mL at least so many of a size; as many as counted where 20 and more were, or nothing is known of chance. */
export function leastPerMl(counts: CumulativeCounts, place: number): number {
  return limitOf(lowerLimits, counts.counted?.[place], counts) ?? (counts.perMl[place] as number);
}

/** The class of a column by the lower limit of few particles; null of many, and where chance is not known. */
export function leastClass(table: ClassTable, column: number, counts: CumulativeCounts): number | null {
  const limit = limitOf(lowerLimits, particlesIn(table, column, counts), counts);
  return limit === null ? null : classOfPerMl(table, column, limit);
}

/** The particles counted in a column, or those that bound it where it was not counted; where that is known. */
function particlesIn(table: ClassTable, column: number, counts: CumulativeCounts): number | undefined {
  const { counted } = counts;
  if (counted === undefined) return undefined;
  const place = placeAround(table, table.columns[column] as ClassColumn, counts);
  return place === null ? undefined : countedIn(counted, place);
}

/** Whether few particles may have stood for more than so many per mL. */
export function mayExceed(counts: CumulativeCounts, ends: Ends, upTo: number): boolean {
  const counted = counts.counted === undefined ? undefined : countedIn(counts.counted, ends);
  const upper = limitOf(upperLimits, counted, counts);
  return upper !== null && upper > upTo;
}

/** Per mL a limit of few particles; null of many, and where nothing is known of chance. */
function limitOf(limits: readonly number[], counted: number | undefined, counts: CumulativeCounts): number | null {
  const { volumeMl, dilution = 1 } = counts;
  const particles = counted === undefined ? undefined : limits[counted];
  return particles === undefined || volumeMl === undefined ? null : (particles * dilution) / volumeMl;
}

/**
 * Whether so few particles were counted in a column that the oil may be dirtier than the class asked for, though the
 * counts are not: the one rule for it. Where the upper limit of the count is known it decides. Else the mark of few
 * particles does, and always of just the class asked for: `>=13` says itself that it may be 14. `classes`: by how many
 * the counts keep it.
 */
export function isUncertain(
  table: ClassTable,
  column: number,
  asked: number,
  classes: number,
  mark?: CodeMark,
  counts?: CumulativeCounts,
): boolean {
  const marked = mark === 'few_counted';
  const upper = counts === undefined ? null : limitOf(upperLimits, particlesIn(table, column, counts), counts);
  if (upper === null || (marked && classes <= 0)) return marked;
  return classes >= 0 && classOfPerMl(table, column, upper) > asked;
}

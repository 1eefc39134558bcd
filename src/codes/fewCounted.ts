/** What chance leaves open where few particles were counted. */
import type { CumulativeCounts } from '../counts/types.ts';
import { classOfPerMl } from './classIndex.ts';
import { countedIn, placeAround } from './columnCount.ts';
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

/**
 * Per mL at least so many, of a size; as many as counted where there were 20 and more, or nothing is known of chance.
 */
export function leastPerMl(counts: CumulativeCounts, place: number): number {
  const { counted, volumeMl, dilution = 1 } = counts;
  const perMl = counts.perMl[place] as number;
  if (counted === undefined || volumeMl === undefined) return perMl;
  const particles = lowerLimits[Math.floor(counted[place] as number)];
  return particles === undefined ? perMl : (particles * dilution) / volumeMl;
}

/**
 * The class of a column by the lower limit of its few particles; null of many, and where nothing is known of chance.
 */
export function leastClass(table: ClassTable, column: number, counts: CumulativeCounts): number | null {
  const limit = limitOf(lowerLimits, Math.floor, table, column, counts);
  return limit === null ? null : classOfPerMl(table, column, limit);
}

/**
 * Per mL a limit of a column of few particles, where it was not counted of those that bound it; null of many, and where
 * nothing is known of chance.
 */
function limitOf(
  limits: readonly number[],
  whole: (counted: number) => number,
  table: ClassTable,
  column: number,
  counts: CumulativeCounts,
): number | null {
  const { counted, volumeMl, dilution = 1 } = counts;
  if (counted === undefined || volumeMl === undefined) return null;
  const ends = placeAround(table, table.columns[column] as ClassColumn, counts);
  if (ends === null) return null;
  const particles = limits[whole(countedIn(counted, ends))];
  return particles === undefined ? null : (particles * dilution) / volumeMl;
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
  const upper = counts === undefined ? null : limitOf(upperLimits, Math.ceil, table, column, counts);
  if (upper === null || (marked && classes <= 0)) return marked;
  return classes >= 0 && classOfPerMl(table, column, upper) > asked;
}

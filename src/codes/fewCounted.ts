/** What chance leaves open where few particles were counted. */
import type { CumulativeCounts } from '../counts/types.ts';
import { classOfPerMl, placeOf } from './classIndex.ts';
import { columnPlace, countedIn } from './columnCount.ts';
import type { ClassColumn, ClassTable, CodePart } from './types.ts';

/**
 * Of 0 to 19 particles counted the upper limit of their expectation with 95 % confidence, rounded up. Source: Garwood,
 * Biometrika 28 (1936) 437; the same figures as `countInterval`, which a test compares.
 */
const upperLimits = [
  3.689, 5.572, 7.225, 8.768, 10.242, 11.669, 13.06, 14.423, 15.764, 17.085, 18.391, 19.683, 20.962, 22.231, 23.49,
  24.741, 25.983, 27.219, 28.448, 29.671,
];

/** Per mL the upper limit of a column of few particles; null of many, and where nothing is known of chance. */
function upperLimit(table: ClassTable, column: number, counts: CumulativeCounts): number | null {
  const { counted, volumeMl, dilution = 1 } = counts;
  const ends = columnPlace(table.columns[column] as ClassColumn, counts);
  if (counted === undefined || volumeMl === undefined || ends === null) return null;
  const particles = upperLimits[Math.ceil(countedIn(counted, ends))];
  return particles === undefined ? null : (particles * dilution) / volumeMl;
}

/**
 * Whether so few particles were counted in a column that the oil may be dirtier than the class asked for, though the
 * counts are not: the one rule for it. Where the upper limit of the count is known it decides. Else the mark of few
 * particles does, and always of just the class asked for: `>=13` says itself that it may be 14.
 */
export function isUncertain(
  table: ClassTable,
  column: number,
  asked: number,
  { class: found, mark }: CodePart,
  counts?: CumulativeCounts,
): boolean {
  const classes = asked - placeOf(table, found);
  const marked = mark === 'few_counted';
  const upper = counts === undefined ? null : upperLimit(table, column, counts);
  if (upper === null || (marked && classes <= 0)) return marked;
  return classes >= 0 && classOfPerMl(table, column, upper) > asked;
}

/** What chance leaves open where few particles were counted. */
import type { CumulativeCounts } from '../counts/types.ts';
import { classOfPerMl } from './classIndex.ts';
import { columnPlace, countedIn } from './columnCount.ts';
import type { ClassColumn, ClassTable } from './types.ts';

/**
 * Of 0 to 19 particles counted the upper limit of their expectation with 95 % confidence, rounded up. Source: Garwood,
 * Biometrika 28 (1936) 437; the same figures as `countInterval`, which a test compares.
 */
const upperLimits = [
  3.689, 5.572, 7.225, 8.768, 10.242, 11.669, 13.06, 14.423, 15.764, 17.085, 18.391, 19.683, 20.962, 22.231, 23.49,
  24.741, 25.983, 27.219, 28.448, 29.671,
];

/** Whether a column of so few particles may in truth be dirtier than the class at this place. */
export function mayPass(table: ClassTable, column: number, place: number, counts: CumulativeCounts): boolean {
  const { counted, volumeMl, dilution = 1 } = counts;
  const ends = columnPlace(table.columns[column] as ClassColumn, counts);
  if (counted === undefined || volumeMl === undefined || ends === null) return false;
  const particles = upperLimits[Math.ceil(countedIn(counted, ends))];
  return particles !== undefined && classOfPerMl(table, column, (particles * dilution) / volumeMl) > place;
}

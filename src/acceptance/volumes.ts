/**
 * How much oil a reading must be of to prove a column: so much that even with no particle counted the upper limit of
 * the counting statistics keeps the class asked for. A smaller reading proves it by raw counts never, however long a
 * flush goes on.
 *
 * Source: Garwood (1936): of none counted the upper 95 % limit is 3.69 particles (`countInterval`).
 */
import { limitAt } from '../codes/classIndex.ts';
import { hasSizes } from '../codes/columnSizes.ts';
import type { ClassColumn } from '../codes/index.ts';
import { countInterval } from '../counts/statistics.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import type { ReadingLimits } from '../reading/readingLimits.ts';
import type { AcceptanceVolume } from './types.ts';

/** Whether so few particles that chance may decide the class are judged at every column. */
export function judgesFew({ particles, particleSizes, qualities }: ReadingLimits): boolean {
  return particles !== null && particleSizes === null && qualities.few_particles !== 'good';
}

/** By column judged; 0 where the limits of a reading ask for no least number of particles there. */
export function leastVolumes({ table, wanted }: CodePlan, limits: ReadingLimits): AcceptanceVolume[] {
  const most = judgesFew(limits) ? countInterval(0).high * table.perVolumeMl : 0;
  const volumes: AcceptanceVolume[] = [];
  table.columns.forEach((column: ClassColumn, i) => {
    const asked = wanted?.[i] ?? null;
    if (asked === null) return;
    const limit = limitAt(table, asked, i) as number;
    const never = !hasSizes(column) || (limit === 0 && most > 0);
    volumes.push({ column: column.label, leastMl: never ? null : most === 0 ? 0 : most / limit });
  });
  return volumes;
}

/** Those of some columns that no reading of so much oil can prove. */
export function unprovableOf(
  volumes: readonly AcceptanceVolume[],
  columns: readonly string[],
  oilMl: number,
): AcceptanceVolume[] {
  return volumes.filter(({ column, leastMl }) => columns.indexOf(column) >= 0 && (leastMl === null || leastMl > oilMl));
}

/** How many particles were counted, and in how much oil. */
import type { CumulativeCounts } from '../counts/types.ts';
import type { Reading } from './reading.ts';

/**
 * Particles counted at each size: as given, else from the volume counted, else from flow and time; null where none is
 * known.
 */
export function particlesCounted(reading: Reading, counts: CumulativeCounts): readonly number[] | null {
  if (counts.counted !== undefined) return counts.counted;
  const oil = oilCounted(reading, counts);
  return oil === null ? null : counts.perMl.map((count) => count * oil);
}

/** The undiluted oil counted, in mL: as given, else from flow and time; null where neither is known. */
export function oilCounted({ mlPerMin, measuringSeconds }: Reading, counts: CumulativeCounts): number | null {
  let volume = counts.volumeMl;
  if (volume === undefined && mlPerMin !== undefined && measuringSeconds !== undefined) {
    volume = (mlPerMin * measuringSeconds) / 60;
  }
  return volume === undefined ? null : volume / (counts.dilution ?? 1);
}

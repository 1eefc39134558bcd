/** How steeply the counts fall with size, which is what turns an error of size into one of count. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { log } from '../../numeric/logarithm.ts';
import type { Ends } from '../columnCount.ts';

/**
 * Where there is no other size to compare with: about that of ISO medium test dust from 4 to 30 µm(c), 2.3 to 4 (ISO
 * 16889 Table 4).
 */
const usualSlope = 3;

/** What one relative error of size does to the count of a column, as a factor. */
export interface Slopes {
  /** The thresholds of the column err each on its own. */
  readonly sizing: number;
  /** All thresholds err alike. */
  readonly certificate: number;
}

/**
 * Of a cumulative column the local slope -d ln N / d ln size: the steeper of both sides. Of a range the slope within
 * it, where its two thresholds move what lies between them independently.
 *
 * @param onePerMl one particle counted, per mL: stands for a count of 0 in a slope
 */
export function columnSlopes(counts: CumulativeCounts, place: Ends, onePerMl: number, given?: number): Slopes {
  const local = given ?? localSlope(counts, place.from, onePerMl);
  if (place.to === null) return { sizing: local, certificate: local };
  const lower = counts.perMl[place.from] as number;
  const upper = counts.perMl[place.to] as number;
  if (upper === 0) return { sizing: local, certificate: local };
  const ratio = log((counts.sizes[place.to] as number) / (counts.sizes[place.from] as number));
  // (s / share) with s the slope within the range, which tends to 1 / ratio as the range holds fewer of the particles
  const share = (lower - upper) / lower;
  const steepness = given ?? log(lower / upper) / ratio;
  const perShare = share === 0 ? 1 / ratio : Math.min(steepness / share, 20 / ratio);
  return { sizing: perShare * Math.sqrt(1 + (upper / lower) * (upper / lower)), certificate: local };
}

function localSlope(counts: CumulativeCounts, i: number, onePerMl: number): number {
  const before = slopeBetween(counts, i - 1, onePerMl);
  const after = slopeBetween(counts, i, onePerMl);
  if (before === null && after === null) return usualSlope;
  return Math.max(before ?? 0, after ?? 0);
}

/** From size i to the next; null where there is no such pair, or nothing was counted at both. */
function slopeBetween(counts: CumulativeCounts, i: number, onePerMl: number): number | null {
  const [from, to] = [counts.sizes[i], counts.sizes[i + 1]];
  if (from === undefined || to === undefined) return null;
  const [lower, upper] = [counts.perMl[i] as number, counts.perMl[i + 1] as number];
  if (lower <= 0) return null;
  return Math.max(0, log(lower / (upper > 0 ? upper : onePerMl))) / log(to / from);
}

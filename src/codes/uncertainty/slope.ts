/** How steeply the counts fall with size, which is what turns an error of size into one of count. */
import type { CumulativeCounts } from '../../counts/types.ts';
import { log } from '../../numeric/logarithm.ts';
import type { Ends } from '../columnCount.ts';

/** Where there is no other size: about that of ISO medium test dust, 2.3 to 4 at 4 to 30 µm(c) (ISO 16889 Table 4). */
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
  if (place.to === null || counts.perMl[place.to] === 0) return { sizing: local, certificate: local };
  const lower = counts.perMl[place.from] as number;
  const upper = counts.perMl[place.to] as number;
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
  if (after === null) return atTheEnd(counts, i - 1, i - 2, onePerMl);
  if (before === null) return atTheEnd(counts, i, i + 1, onePerMl);
  return Math.max(before, after);
}

/**
 * At an outermost size, with a chord on one side only: where the chord is steeper than its neighbour it goes on so, and
 * the slope is that of the parabola (of ln N over ln size) through the three sizes. It is at most twice the chord.
 *
 * @param at the chord, by its smaller size
 * @param next the neighbouring chord
 */
function atTheEnd(counts: CumulativeCounts, at: number, next: number, onePerMl: number): number {
  const chord = slopeBetween(counts, at, onePerMl) as number;
  const neighbour = slopeBetween(counts, next, onePerMl);
  if (neighbour === null || neighbour >= chord) return chord;
  const width = widthOf(counts, at);
  return chord + ((chord - neighbour) * width) / (width + widthOf(counts, next));
}

/** The width of a chord, from its smaller size to the next. */
function widthOf({ sizes }: CumulativeCounts, i: number): number {
  return log((sizes[i + 1] as number) / (sizes[i] as number));
}

/** From size i to the next; null where there is no such pair, or nothing was counted at both. */
function slopeBetween(counts: CumulativeCounts, i: number, onePerMl: number): number | null {
  const [from, to] = [counts.sizes[i], counts.sizes[i + 1]];
  if (from === undefined || to === undefined) return null;
  const [lower, upper] = [counts.perMl[i] as number, counts.perMl[i + 1] as number];
  if (lower <= 0) return null;
  return Math.max(0, log(lower / (upper > 0 ? upper : onePerMl))) / widthOf(counts, i);
}

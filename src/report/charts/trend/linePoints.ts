/**
 * The points a line needs: where several lie in one column of pixels, the first, the least, the most and the last draw
 * the same line as all of them. Source: Jugel, Jerzak, Hackenbroich, Markl, M4, PVLDB 7 (2014) 797, section 4.
 */
import { type TimeScale, timePixel } from './trendMarks.ts';

/** A point of a line, which is joined to those of its stretch. */
export interface LinePoint {
  readonly time: number;
  readonly count: number;
  readonly stretch: number;
}

/** What an upright stroke covers. */
interface Stroke {
  readonly column: number;
  readonly low: number;
  readonly high: number;
}

/** Points of one stretch in one column. */
interface Piece extends Stroke {
  /** Behind its last. */
  readonly to: number;
  /** The places of those that draw it, in order. */
  readonly telling: readonly number[];
  /** Whether it is all of its stretch. */
  readonly whole: boolean;
}

/** Columns of half a pixel: a screen may draw each pixel as two. */
const perPixel = 2;

/**
 * Of points in order of time; those left out lie between others of their column. A stretch within one column is an
 * upright stroke, left out where another covers it or it has no length.
 */
export function linePoints<T extends LinePoint>(points: readonly T[], scale: TimeScale): T[] {
  const kept: T[] = [];
  let covered: Stroke | null = null;
  for (let from = 0; from < points.length; ) {
    const piece = pieceAt(points, from, scale);
    from = piece.to;
    if (piece.whole) {
      if (piece.low === piece.high || covers(covered, piece)) continue;
      covered = united(covered, piece);
    }
    for (const at of piece.telling) kept.push(points[at] as T);
  }
  return kept;
}

function pieceAt(points: readonly LinePoint[], from: number, scale: TimeScale): Piece {
  const columnOf = (at: number) => Math.floor(perPixel * timePixel((points[at] as LinePoint).time, scale));
  const countOf = (at: number) => (points[at] as LinePoint).count;
  const stretch = points[from]?.stretch;
  const column = columnOf(from);
  let least = from;
  let most = from;
  let to = from + 1;
  for (; points[to]?.stretch === stretch && columnOf(to) === column; to += 1) {
    if (countOf(to) < countOf(least)) least = to;
    if (countOf(to) > countOf(most)) most = to;
  }
  const places = [from, Math.min(least, most), Math.max(least, most), to - 1];
  const telling = places.filter((at, i) => at !== places[i - 1]);
  const whole = points[from - 1]?.stretch !== stretch && points[to]?.stretch !== stretch;
  return { column, low: countOf(least), high: countOf(most), to, telling, whole };
}

function covers(covered: Stroke | null, { column, low, high }: Stroke): boolean {
  return covered !== null && covered.column === column && covered.low <= low && high <= covered.high;
}

/** What both cover; of two apart, the longer. */
function united(before: Stroke | null, stroke: Stroke): Stroke {
  if (before === null || before.column !== stroke.column) return stroke;
  const apart = stroke.low > before.high || stroke.high < before.low;
  if (apart) return stroke.high - stroke.low > before.high - before.low ? stroke : before;
  return { ...before, low: Math.min(before.low, stroke.low), high: Math.max(before.high, stroke.high) };
}

/**
 * The merge sort of points by their height above a line, which counts the pairs that change sides. The heights move
 * along with the places, so that memory is read in order: with a year of readings that matters more than the count of
 * comparisons.
 */
import { doubles, integers, type NumberList } from '../numeric/lists.ts';

/** Says of two places whether the right one lies lower, seen along the direction. */
type Lower = (left: number, right: number) => boolean;

/**
 * Heights above a line by place, more than two of them together can be off, and who decides within that; also where a
 * line is so steep that heights are no numbers.
 */
export interface Heights {
  readonly heights: NumberList;
  readonly error: number;
  readonly near: Lower;
}

/** Is told of two places that change sides. */
export type Passed = (left: number, right: number) => void;

/** Room for many sorts: heights by place and in the order of the places, and the left half of a merge. */
export interface SortingRoom {
  readonly above: NumberList;
  readonly keys: NumberList;
  readonly places: NumberList;
  readonly heights: NumberList;
}

export function sortingRoom(n: number): SortingRoom {
  return { above: doubles(n), keys: doubles(n), places: integers(n), heights: doubles(n) };
}

/**
 * Sorts each stretch of places between two `starts` by height, and returns how many pairs changed sides; `passed` is
 * told of each. The nearer the order is to the one sought, the quicker.
 */
export function sortByHeight(
  order: NumberList,
  starts: readonly number[],
  { heights, error, near }: Heights,
  room: SortingRoom,
  passed?: Passed,
): number {
  const { keys } = room;
  for (let i = 0; i < order.length; i += 1) keys[i] = heights[order[i] as number] as number;
  const sorting: Sorting = { order, ...room, error, near };
  let exchanged = 0;
  for (let g = 0; g + 1 < starts.length; g += 1) {
    const end = starts[g + 1] as number;
    for (let width = 1; width < end - (starts[g] as number); width *= 2) {
      for (let low = starts[g] as number; low + width < end; low += 2 * width) {
        exchanged += merge(sorting, low, low + width, Math.min(low + 2 * width, end), passed);
      }
    }
  }
  return exchanged;
}

/** Sorts places by what `near` says alone, and returns how many pairs changed sides. */
export function sortPlaces(order: NumberList, near: Lower, starts: readonly number[]): number {
  const room = sortingRoom(order.length);
  return sortByHeight(order, starts, { heights: room.above, error: Infinity, near }, room);
}

/** Sorts places by values of theirs, equal ones as they were, and returns how many pairs changed sides. */
export function sortByValue(order: NumberList, heights: NumberList): number {
  return sortByHeight(order, [0, order.length], { heights, error: 0, near: () => false }, sortingRoom(order.length));
}

interface Sorting extends SortingRoom {
  readonly order: NumberList;
  readonly error: number;
  readonly near: Lower;
}

/**
 * The first place of a sorted left half that lies above the first of the right half; `middle` where none does. Looked
 * for one by one where `near` alone decides, since rounding may make it contradict itself.
 */
function firstAbove({ order, keys, error, near }: Sorting, low: number, middle: number): number {
  let from = low;
  let high = middle;
  for (let place = middle - 1; from < high; place = error < Infinity ? Math.floor((from + high) / 2) : from) {
    const rises = (keys[middle] as number) - (keys[place] as number);
    const above = rises < -error || (!(rises > error) && near(order[place] as number, order[middle] as number));
    if (above) high = place;
    else from = place + 1;
  }
  return high;
}

function merge(sorting: Sorting, low: number, middle: number, high: number, passed?: Passed): number {
  const { order, keys, places, heights, error, near } = sorting;
  const first = firstAbove(sorting, low, middle);
  const width = middle - first;
  for (let i = 0; i < width; i += 1) {
    places[i] = order[first + i] as number;
    heights[i] = keys[first + i] as number;
  }
  let exchanged = 0;
  let left = 0;
  let right = middle;
  let place = first;
  while (left < width && right < high) {
    const key = keys[right] as number;
    const rises = key - (heights[left] as number);
    if (rises < -error || (!(rises > error) && near(places[left] as number, order[right] as number))) {
      exchanged += width - left;
      const candidate = order[right] as number;
      if (passed !== undefined) for (let i = left; i < width; i += 1) passed(places[i] as number, candidate);
      order[place] = candidate;
      keys[place] = key;
      right += 1;
    } else {
      order[place] = places[left] as number;
      keys[place] = heights[left] as number;
      left += 1;
    }
    place += 1;
  }
  for (; left < width; left += 1, place += 1) {
    order[place] = places[left] as number;
    keys[place] = heights[left] as number;
  }
  return exchanged;
}
